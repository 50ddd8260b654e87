"""Pressures that air loses in its filters: "drop on the filter 310 pascal, should be 100 ... now it's 85".

    filter_drops(found, words)

Where the filter is the place that is named last the loss is the filter's, with its limit and what it is with
the new ones. A sum of both sides or a loss over the coil is another thing.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_OF_AIR = 1500.0
"""Pascals up to which a pressure is one of air in ducts."""
_ENDS = frozenset((".", "?", "!", ";"))
_REACH = 25
"""Words from one pressure of the filter to the next that names no place."""


def filter_drops(found: Found, words: Sequence[str]) -> None:
    """Set part and kind of the pressures that air loses in a filter, in place."""
    last: Taken | None = None
    for t in sorted(found.readings, key=lambda t: t.start):
        r = t.reading
        if r.unit != "Pa" or r.quantity not in {"pressure", "vacuum"} or not 0 < (r.value or 0) <= _OF_AIR:
            continue
        if r.component not in {None, "air filter"} or not _of_a_filter(t, last, words):
            last = None
            continue
        r.quantity = "pressure"  # so few pascals are a vacuum elsewhere
        r.component, r.point, r.reference = "air filter", None, "differential"
        r.derived = r.role == "measured"
        last = t


def _of_a_filter(t: Taken, last: Taken | None, words: Sequence[str]) -> bool:
    """Tell whether a filter is the place that stands nearest to a pressure, in front of it or behind it."""
    begin = max(0, t.start - 12)
    begin = max((k + 1 for k in range(begin, t.start) if words[k] in _ENDS), default=begin)
    places = word_list("filter_drop_filters") | word_list("filter_drop_other_places")
    behind = list(words[t.end : t.end + 5])
    behind = behind[: next((k for k, w in enumerate(behind) if w in _ENDS | {",", "and"}), len(behind))]
    near = [w for w in (*reversed(words[begin : t.start]), *behind) if w in places]
    if near:
        return near[0] in word_list("filter_drop_filters")
    return last is not None and t.start - last.end <= _REACH


__all__ = ["filter_drops"]
