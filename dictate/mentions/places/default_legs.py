"""Legs of a three-phase supply for values that are told in a row without them, in the order of the legs.

    settle_legs(found, words)

"Amps 7.2, 7.1, 7.3" of a machine on three phases are those of L1, L2 and L3; "409, 408, 391" volts are
those between L1 and L2, L2 and L3, L1 and L3. A meter is carried along the terminals in this order: common
practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_PAIRS = ("L1-L2", "L2-L3", "L1-L3")
_LEGS = ("L1", "L2", "L3")
_LEAST_OF_PAIRS = 180.0
"""Volts below which nothing is read between two legs of three phases."""
_HIGH = 340.0
"""Volts from which a supply has three phases: 380 to 480 and 575 to 600 V are sold in no other way."""


def settle_legs(found: Found, words: Sequence[str]) -> None:
    """Give three amps or volts in a row their legs: "legs 18.2, 18.6 and the third 19.4", in place."""
    rows = [t for t in found.readings if t.reading.role == "measured" and not t.reading.derived]
    if len(rows) < 3:
        return
    three = _three_phases(found, words)
    if three:
        _numbered_legs(rows, words)
    for i in range(len(rows) - 2):
        row = rows[i : i + 3]
        kinds = {t.reading.quantity for t in row}
        if kinds not in ({"current"}, {"voltage"}) or row[0].reading.component != row[2].reading.component:
            continue
        if any(b.sentence != a.sentence or not 0 <= b.start - a.end <= 9 for a, b in pairwise(row)):
            continue
        volts = kinds == {"voltage"}
        legs = _PAIRS if volts else _LEGS
        points = [t.reading.point for t in row]
        values = [t.reading.value or 0 for t in row]
        said = set(words[max(0, row[0].start - 8) : row[0].start]) | set(words[row[2].end : row[2].end + 5])
        inside = set(words[row[0].start : row[2].end])
        # One leg may be far off where the legs are spoken of: a machine that runs on two.
        called = bool({"legs", "phases"} & said) or {"first", "third"} <= inside | said
        if max(values) <= 0 or (not called and min(values) <= 0):
            continue
        if max(values) > ((1.3 if called else 1.1) if volts else (4 if called else 1.6)) * max(
            min(values), 0.25 * max(values)
        ):
            continue
        if points.count(None) == 1 and all(p in (None, leg) for p, leg in zip(points, legs, strict=True)):
            row[points.index(None)].reading.point = legs[points.index(None)]
            continue  # "14.6 A leg, B leg 14.9, C leg 14.5"
        if volts and _rest_of_pairs(row, points):
            continue
        if volts and min(values) < _LEAST_OF_PAIRS:
            continue
        alike = volts and (points == ["L1-L2"] * 3 or (points == ["supply"] * 3 and three))
        if points != [None, None, None] and not alike:
            continue
        if (i + 3 < len(rows) and _goes_on(row[2], rows[i + 3])) or (i and _goes_on(rows[i - 1], row[0])):
            continue
        if word_list("default_legs_several") & (said | inside):
            continue
        talk = {"legs", "phases"} & said or (volts and {"line", "supply", "incoming"} & said)
        # "Compressor one legs: 21, 21.5, 20.8. On two it was 22, 22.4 and 21.8"
        kept = [t.reading.point for t in rows[max(0, i - 3) : i]] == list(legs)
        again = kept and rows[i - 1].reading.component == row[0].reading.component
        told = bool(talk) or called or alike or (again and row[0].start - rows[i - 1].end <= 12)
        one = row[0].reading.component in word_list("default_legs_of") or row[0].reading.component is None
        if told or (three and one and _in_one_breath(row, words)):
            for t, leg in zip(row, legs, strict=True):
                t.reading.point = leg


_NUMBERS = {
    **dict.fromkeys(("1", "one", "first", "a"), "L1"),
    **dict.fromkeys(("2", "two", "second", "b"), "L2"),
    **dict.fromkeys(("3", "three", "third", "c"), "L3"),
}


def _numbered_legs(rows: Sequence[Taken], words: Sequence[str]) -> None:
    """Read the number behind each of some amps as its leg: "19.8 on 1, 22.4 on 2, 18.1 on the third"."""
    told: list[tuple[Taken, str]] = []
    for t in [*rows, None]:
        leg = _leg_behind(t, words) if t is not None else None
        new = bool(told) and (
            t is None
            or t.sentence != told[-1][0].sentence
            or t.reading.component != told[-1][0].reading.component
        )
        if new:
            if {leg for _, leg in told} >= {"L1", "L2", "L3"}:
                for one, which in told:
                    one.reading.point = which
            told = []
        if t is not None and leg is not None:
            told.append((t, leg))


def _leg_behind(t: Taken, words: Sequence[str]) -> str | None:
    """Return the leg that is told by its number right behind an amperage: "on 1", "on the third"."""
    if t.reading.quantity != "current" or t.reading.point is not None or t.reading.which is not None:
        return None
    at = t.end + (words[t.end : t.end + 1] in (["amps"], ["amp"], ["a"]))
    if words[at : at + 1] != ["on"]:
        return None
    at += 1 + (words[at + 1 : at + 2] == ["the"])
    after = words[at + 1] if at + 1 < len(words) else "."
    leg = _NUMBERS.get(words[at]) if at < len(words) else None
    return leg if after in {".", ",", "and", ";", "leg", "phase", "line"} else None


def _three_phases(found: Found, words: Sequence[str]) -> bool:
    """Tell whether a machine of the visit is on three phases."""
    if any(
        t.reading.quantity == "voltage" and (t.reading.value or 0) >= _HIGH and t.reading.role == "measured"
        for t in found.readings
    ):
        return True
    if any(t.reading.point in {"L3", "L2-L3", "L1-L3"} for t in found.readings):
        return True
    spelled = any(words[k : k + 3] == ["a", "b", "c"] for k, w in enumerate(words) if w == "a")
    return (
        spelled
        or "phases" in words
        or any(b == "phase" and a in {"three", "3", "three-", "3-"} for a, b in pairwise(words))
    )


def _in_one_breath(row: Sequence[Taken], words: Sequence[str]) -> bool:
    """Tell whether three values stand in one list with nothing between them but pauses and their unit."""
    return all(
        set(words[a.end : b.start]) <= word_list("default_legs_between") and b.start - a.end <= 4
        for a, b in pairwise(row)
    )


def _rest_of_pairs(row: Sequence[Taken], points: Sequence[str | None]) -> bool:
    """Give the pairs that are left to the voltages beside one whose pair was told: "outer pair 229, ..."."""
    told = [p for p in points if p is not None]
    if not 1 <= len(told) <= 2 or len(set(told)) != len(told) or not set(told) <= set(_PAIRS):
        return False
    rest = [p for p in _PAIRS if p not in told]
    for t in row:
        if t.reading.point is None:
            t.reading.point = rest.pop(0)
    return True


def _goes_on(a: Taken, b: Taken) -> bool:
    """Tell whether a row goes on with the next value."""
    return a.sentence == b.sentence and a.reading.quantity == b.reading.quantity and b.start - a.end <= 4


__all__ = ["settle_legs"]
