"""Bands that were told beside what was read, and ways that a machine does not go.

within_bands(words, numbers) -> [(start, end, role)]:

    "the lowest was 3.9, so it stayed inside the 2 to 8"      both ends are wanted, none was read
    "the load won't go from 70 to 3 inside 90 minutes"        nor was any of these
    "it runs in the 60 to 65 range"                           was read
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.mentions.spoken_numbers import Number
from dictate.vocabulary.load import table


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["band"][name])


def within_bands(words: Sequence[str], numbers: Sequence[Number]) -> list[tuple[int, int, str]]:
    """Return (start, end, role) of the bands of a narration, from their first number to behind their last."""
    out = []
    starts = {n.start: n for n in numbers}
    for low in numbers:
        lead = low.start - 1
        if lead < 1 or words[lead] not in _words("articles") or words[lead - 1] not in _words("leads"):
            continue
        joint = low.end
        if words[joint : joint + 1] == ["degrees"]:
            joint += 1
        if joint >= len(words) or words[joint] not in _words("joints"):
            continue
        high = starts.get(joint + 1) or starts.get(joint + 2)
        if high is not None and (
            high.start == joint + 1 or words[joint + 1] in _words("articles") | {"plus", "minus"}
        ):
            out.append((low.start, high.end, "target"))
    return out + [way for n in numbers if (way := _refused_way(words, n)) is not None]


def _refused_way(words: Sequence[str], first: Number) -> tuple[int, int, str] | None:
    """Return the way from a number on that is told not to be gone, up to where the clause ends."""
    start = first.start
    if start < 3 or words[start - 1] != "from" or words[start - 2] not in _words("goes"):
        return None
    if words[start - 3] not in _words("refused"):
        return None
    end = next((k for k in range(first.end, len(words)) if words[k] in _words("ends")), len(words))
    return start, end, "target"


__all__ = ["within_bands"]
