"""A pressure said again to look up its temperature: "suction 98, head 340. Dew at | 98 | is 31".

    looked_up(found, words)

It is the value that was read before, so it is of that place, whichever pressure was told last.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import Found
from dictate.mentions.word_lists import word_list

_LEAD = 3
"""Words in front of a pressure in which it is told that its temperature is looked up."""


def looked_up(found: Found, words: Sequence[str]) -> None:
    """Set the point of pressures that are only said again for their temperature, in place."""
    looks = word_list("looked_up_at")
    if looks.isdisjoint(words):
        return
    points: dict[tuple[float, str], str] = {}
    for t in sorted(found.readings, key=lambda t: t.start):
        r = t.reading
        if r.quantity != "pressure" or r.value is None or r.role != "measured":
            continue
        lead = words[max(0, t.start - _LEAD) : t.start]
        before = points.get((r.value, r.unit))
        if before is not None and lead[-1:] in (["at"], ["for"], ["of"]) and looks & set(lead):
            r.point = before
        elif r.point is not None:
            points[r.value, r.unit] = r.point


__all__ = ["looked_up"]
