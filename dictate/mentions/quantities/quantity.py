"""A number with its unit, and what the unit can mean."""

from __future__ import annotations

from dataclasses import dataclass, field

from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Candidate


@dataclass(slots=True)
class Quantity:
    """A number with its unit at the tokens [start, end).

    `value` is the number as said, in the said unit `word` (an id of units.toml); `unit` is the first meaning
    in the record's units and `amount` the value in it. `parts` are the numbers it was put together from.
    `range` is "low" or "high" for the ends of a range, `change` "from" or "to" for a change said as one. A
    unit said once for both ends is `shared`.
    """

    start: int
    end: int
    value: float
    word: str
    kind: str
    means: tuple[tuple[str, float], ...]
    numbers: tuple[Number, ...]
    parts: tuple[float, ...] = ()
    range: str | None = None
    change: str | None = None
    shared: bool = False
    reasons: list[str] = field(default_factory=list)
    candidates: list[Candidate] = field(default_factory=list)

    @property
    def unit(self) -> str | None:
        """Return the first meaning as a unit of the record, None for what is no reading."""
        return self.means[0][0] if self.means else None

    @property
    def amount(self) -> float:
        """Return the value in `unit`."""
        return self.in_unit(self.unit) if self.unit else self.value

    def in_unit(self, unit: str | None) -> float:
        """Return the value in one of its meanings; unknown ones leave it as said."""
        for name, factor in self.means:
            if name == unit:
                return tidy(self.value * factor)
        return self.value

    def can_be(self, unit: str) -> bool:
        """Tell whether the said unit can mean this unit of the record."""
        return any(name == unit for name, _ in self.means)


def tidy(value: float) -> float:
    """Remove what binary arithmetic adds: 4.7 * 1000 is 4700, not 4700.000000000001."""
    return float(f"{value:.12g}")


def mass_of(q: Quantity) -> tuple[float, str] | None:
    """Return (value, unit) when the quantity can be a mass: lb, oz, g or kg; None otherwise."""
    meant = {name for name, _ in q.means}
    unit = next((unit for unit in ("lb", "oz", "g", "kg") if unit in meant), None)
    return (q.in_unit(unit), unit) if unit is not None else None
