"""A candidate value: where it stands, what was said, and what else it may be."""

from __future__ import annotations

from dataclasses import dataclass, field

from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Candidate


@dataclass(slots=True)
class Value:
    """A candidate at the tokens [start, end): `number` as said; `state` is value, open or zero."""

    start: int
    end: int
    value: float
    numbers: tuple[Number, ...] = ()
    quantity: Quantity | None = None
    state: str = "value"
    ground: bool = False
    points: tuple[str, ...] = ()
    range: str | None = None
    change: str | None = None
    reasons: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)
    clock: bool = False
    below: bool = False
    """True for "five below": a temperature."""
    above: bool = False
    """True for "two above": a temperature."""
    marking: bool = False
    """True for what is printed on a part, whatever stands around it."""
    aside: bool = False
    """True for a tolerance: said, and no value of anything."""
    pins: bool = False
    """True when the points are pins that were named: those of a compressor or another motor."""
    opens: bool = False
    """True when the value begins a new list whatever stands before it."""

    @property
    def word(self) -> str | None:
        """Return the id of the said unit, None for a bare number."""
        return self.quantity.word if self.quantity is not None else None

    @property
    def bare(self) -> bool:
        """Tell whether no unit was said."""
        return self.quantity is None and self.state == "value"
