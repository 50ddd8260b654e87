"""Sides, legs and air that small words tell once all values are taken.

    told_by_sides(found, words)

"Behind the contactor 230, 194 and 197" is the load side, "L1, L2, L3 give me 231, 230, 232" goes leg by leg,
"298 over 45" is head over suction, "the supply air in the house is 86" is no weather, and a cone is pulled at
what the product has.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.whose.taken import Found, Taken

_ENDS = frozenset((".", "?", "!", ";"))
_LEGS = ("L1", "L2", "L3")
_BEYOND = (("behind",), ("after",), ("past",), ("below",), ("downstream", "of"), ("out", "of"))
_POLES = frozenset(("contactor", "starter", "breaker", "isolator", "disconnect"))
_SMALL = frozenset(
    ("air", "in", "the", "house", "room", "is", "'s", "was", "at", "a", "of", "reads", "temp", "here")
)
_POURED = (
    ("drawing", "at"), ("drew", "at"), ("drawn", "at"), ("cone", "at"), ("cones", "at"), ("cup", "at"),
    ("poured", "at"), ("pours", "at"), ("pouring", "at"), ("dispensing", "at"), ("draws", "at"),
)  # fmt: skip
_POURS = frozenset(
    ("barrel", "barrels", "hopper", "serve", "slush", "shake", "cone", "drink", "drinks", "freezes", "beer")
)
_BASES = (("in", "the", "base"), ("down", "in", "the", "base"), ("in", "the", "underneath"))
_HIGHER = 1.5
"""How much the head is above the suction at least in "298 over 45"; common practice."""


def told_by_sides(found: Found, words: Sequence[str]) -> None:
    """Set the points that the words tell, in place."""
    known = set(words)
    poured = bool(_POURS & known)
    rows = found.readings
    for t in rows:
        r = t.reading
        if r.quantity == "voltage" and r.point in {None, "line"} and r.state == "value" and _beyond(t, words):
            r.point = "load"
        elif r.quantity == "temperature" and r.point == "ambient" and {"supply", "return"} & known:
            r.point = _air(t, words) or r.point
        elif r.quantity == "temperature" and r.point is None and r.component is None:
            if poured and tuple(words[t.start - 2 : t.start]) in _POURED:
                r.point = "product"
            elif any(tuple(words[t.end : t.end + len(p)]) == p for p in _BASES):
                r.point = "box"
    for a, b in pairwise(rows):
        _over(a, b, words)
    if "l1" in known and "l3" in known:
        _legs_in_front(rows, words)


def _lead(t: Taken, words: Sequence[str], size: int) -> list[str]:
    lead = list(words[max(0, t.start - size) : t.start])
    return lead[max((i for i, w in enumerate(lead) if w in _ENDS), default=-1) + 1 :]


def _beyond(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a voltage was read behind the poles of a switch: "behind the contactor I had 230"."""
    lead = _lead(t, words, 14)
    for k in range(len(lead) - 1, -1, -1):
        if lead[k] in {"line", "load", "in", "coming", "incoming", "top", "before"}:
            return False
        for p in _BEYOND:
            if tuple(lead[k : k + len(p)]) == p and lead[k + len(p) : k + len(p) + 1] == ["the"]:
                return lead[k + len(p) + 1 : k + len(p) + 2] != [] and lead[k + len(p) + 1] in _POLES
    return False


def _air(t: Taken, words: Sequence[str]) -> str | None:
    """Return the side of "the supply air in the house is 86", whatever else the words could be of."""
    lead = _lead(t, words, 8)
    for k in range(len(lead) - 1, -1, -1):
        if lead[k] in {"supply", "return"}:
            return lead[k]
        if lead[k] not in _SMALL:
            return None
    return None


def _over(a: Taken, b: Taken, words: Sequence[str]) -> None:
    """Read "two ninety-eight over forty-five" of a running machine as head over suction."""
    one, two = a.reading, b.reading
    if (one.quantity, two.quantity) != ("pressure", "pressure") or list(words[a.end : b.start]) != ["over"]:
        return
    if one.point not in {None, "discharge"} or two.point not in {None, "suction"}:
        return
    if one.component is not None or two.component is not None or one.value is None or two.value is None:
        return
    if one.value >= _HIGHER * max(two.value, 1.0):
        one.point, two.point = "discharge", "suction"


def _legs_in_front(rows: Sequence[Taken], words: Sequence[str]) -> None:
    """Read "L1, L2, L3 give me 231, 230, 232": the legs in front of three values, in their order."""
    for i in range(len(rows) - 2):
        row = rows[i : i + 3]
        kinds = {t.reading.quantity for t in row}
        if len(kinds) != 1 or not kinds <= {"voltage", "current"}:
            continue
        if any(b.sentence != a.sentence or not 0 <= b.start - a.end <= 3 for a, b in pairwise(row)):
            continue
        lead = [w for w in _lead(row[0], words, 11) if w not in {",", "and"}]
        k = next((j for j in range(len(lead) - 2) if lead[j : j + 3] == ["l1", "l2", "l3"]), None)
        if k is not None and len(lead) - k - 3 <= 3 and "to" not in lead[k + 3 :]:
            for t, leg in zip(row, _LEGS, strict=True):
                t.reading.point = leg


__all__ = ["told_by_sides"]
