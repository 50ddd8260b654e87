"""One amount that can be a mass, and how two of them compare."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from dictate.mentions.quantities import Quantity
from dictate.record.visit import Amount, Candidate
from dictate.units import convert

Direction = Literal["recovered", "charged"]
MassUnit = Literal["lb", "oz", "g", "kg"]
OUNCES_UNSAID = "ounces were not said after the second number"
NEAR = 1.25
"""Two amounts this near to one another are of one unit, also where it was said once."""


@dataclass(slots=True)
class Mass:
    """One amount while it is judged; word indices, end exclusive."""

    q: Quantity
    start: int  # word index
    end: int
    value: float
    unit: str
    kind: str  # a direction, or why it is none
    status: str | None
    trigger: int
    review: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)
    retracted: list[Amount] = field(default_factory=list)
    also: list[Amount] = field(default_factory=list)


def same_weight(a: Mass, b: Mass) -> bool:
    """Tell whether two amounts are the same weight, within what rounding between units gives."""
    if a.unit == b.unit:
        return abs(a.value - b.value) < 1e-6
    first = convert(a.value, a.unit, "g")
    second = convert(b.value, b.unit, "g")
    return abs(first - second) <= max(0.03 * max(first, second), 0.0)


def how_far_apart(a: Mass, b: Mass) -> float:
    """Return how far two amounts are apart, as a part of the larger."""
    first, second = convert(a.value, a.unit, "g"), convert(b.value, b.unit, "g")
    return abs(first - second) / max(first, second, 1e-9)


def put_right(m: Mass, value: float, unit: str, by: Mass) -> None:
    """Set a corrected value, keeping what was retracted."""
    m.retracted.append(Amount(value=m.value, unit=m.unit))
    m.value, m.unit, m.end = value, unit, by.end
    m.review = [r for r in by.review if r != OUNCES_UNSAID]
    m.candidates = by.candidates
