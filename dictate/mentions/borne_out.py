"""Numbers of two forms that the values around them bear out: "common run five one" where the sum is right.

    bear_out(readings, gases)   takes the question of two digits from the review, in place; where one of the
                                two cannot be, the other is the value, and the question stays

"Six eight" can be 6.8 or 68. The three windings of a compressor tell which, because the largest is the sum of
the other two (common practice; what `winding.sum-mismatch` asks), and so do values of the same kind right
beside it that were said in another form: "nine eight, nine point nine and ten point one".
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from dictate.mentions.plausible import suits_gases, usual
from dictate.record.visit import Reading

_QUESTION = "two digits said one after the other"
_WINDINGS = ("common-run", "common-start", "run-start")
_SHARE, _OHMS = 0.05, 0.15
"""How far a sum of windings may be off and still be one."""
_NEAR = 2
"""Readings before and behind that are of the same row."""


def bear_out(readings: Sequence[Reading], gases: Collection[str] = ()) -> None:
    """Take the reason from numbers of two digits that arithmetic or their row bears out.

    `gases` are the refrigerants named: they tell which pressures can be.
    """
    asked = [i for i, r in enumerate(readings) if _question(r) is not None]
    if not asked:
        return
    for i in asked:
        if _row(readings, i) or _sum(readings, i):
            reading = readings[i]
            reading.review = [why for why in reading.review if not why.startswith(_QUESTION)]
            reading.candidates = [c for c in reading.candidates if not c.why.startswith(_QUESTION)]
            if not reading.review:
                reading.confidence = 1.0
        else:
            _take_what_can_be(readings[i], gases)
    for i in asked:
        _below_the_head(readings, i)


def _take_what_can_be(r: Reading, gases: Collection[str]) -> None:
    """Take the other of two values where the one that was taken cannot be: no head of 94 bar."""

    def can_be(value: float) -> bool:
        return usual(r.quantity, r.component, r.point, value, r.unit) and (
            r.quantity != "pressure" or suits_gases(r.point, value, r.unit, gases)
        )

    other = _other(r)
    if other is not None and r.value is not None and not can_be(r.value) and can_be(other):
        _turn(r)


def _below_the_head(readings: Sequence[Reading], i: int) -> None:
    """Take the other of two suction pressures where the one that was taken is above the head beside it."""
    r, other = readings[i], _other(readings[i])
    if r.quantity != "pressure" or r.point != "suction" or r.value is None or other is None:
        return
    beside = (*readings[max(0, i - _NEAR) : i], *readings[i + 1 : i + 1 + _NEAR])
    heads = [
        x.value
        for x in beside
        if x.point == "discharge" and x.unit == r.unit and x.role == "measured" and x.value
    ]
    if heads and other < min(heads) <= r.value:
        _turn(r)


def _turn(r: Reading) -> None:
    """Make the other of two values the value, and the one that was taken the other."""
    other = next(c for c in r.candidates if c.why.startswith(_QUESTION))
    r.value, other.value = other.value, r.value


def _question(reading: Reading) -> str | None:
    return next((why for why in reading.review if why.startswith(_QUESTION)), None)


def _other(reading: Reading) -> float | None:
    return next((c.value for c in reading.candidates if c.why.startswith(_QUESTION)), None)


def _row(readings: Sequence[Reading], i: int) -> bool:
    """Tell whether a value of the same kind beside it is of its size and not of the other one's."""
    mine, other = readings[i].value, _other(readings[i])
    if not mine or not other:
        return False
    for r in (*readings[max(0, i - _NEAR) : i], *readings[i + 1 : i + 1 + _NEAR]):
        if r.quantity != readings[i].quantity or r.unit != readings[i].unit or r.role != "measured":
            continue
        if r.component != readings[i].component or not r.value or r.review:
            continue
        if 0.5 <= mine / r.value <= 2 and not 0.5 <= other / r.value <= 2:
            return True
    return False


def _sum(readings: Sequence[Reading], i: int) -> bool:
    """Tell whether a winding fits the two others of its motor, one of which was said in another form."""
    mine = readings[i]
    if mine.quantity != "resistance" or mine.point not in _WINDINGS:
        return False
    near = [
        r
        for r in readings[max(0, i - 2) : i + 3]
        if r.quantity == "resistance" and r.component == mine.component and r.role == "measured" and r.value
    ]
    by_point = {r.point: r for r in near if r.point in _WINDINGS}
    if len(by_point) != len(_WINDINGS) or by_point[mine.point] is not mine:
        return False
    if all(_question(r) is not None for r in by_point.values()):
        return False  # 6.2, 2.4 and 8.6 are right as 62, 24 and 86
    parts = sorted(r.value or 0.0 for r in by_point.values())
    return abs(parts[0] + parts[1] - parts[2]) <= max(_OHMS, _SHARE * parts[2])
