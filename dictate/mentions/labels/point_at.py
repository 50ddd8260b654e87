"""An electrical point found in a narration."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PointAt:
    """A point named at the tokens [start, end).

    `kind`: "point", "leg" (L2), "legs" (L1-L2), "winding" (common-run), "ground" (run-ground). `ends` are the
    two legs or windings.
    """

    start: int
    end: int
    name: str
    kind: str
    only: frozenset[str]
    which: str | None = None


ELECTRIC_QUANTITIES = frozenset({"voltage", "current", "resistance"})
