"""The number of a reading in another unit, as a pressure, and as the bounds that its words allow.

Pressures are handed out at sea level, because the altitude of a site is not part of the record.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

from dictate.record.visit import Reading
from dictate.units import STANDARD_ATMOSPHERE_PSI, convert


@lru_cache(maxsize=512)
def _linear(unit: str, to: str) -> tuple[float, float]:
    """Return (factor, offset) between two units; asked of the unit registry once per pair."""
    offset = convert(0.0, unit, to)
    return (convert(1000.0, unit, to) - offset) / 1000.0, offset


def number_in(value: float, unit: str, to: str) -> float:
    """Convert a number between two units of the same kind."""
    if unit == to:
        return value
    factor, offset = _linear(unit, to)
    return value * factor + offset


def value_in(reading: Reading, to: str) -> float:
    """Return the number of a reading in another unit; an open circuit is infinite."""
    if reading.state == "open":
        return math.inf
    if reading.value is None:
        return math.nan
    return number_in(reading.value, reading.unit, to)


def absolute_psi(reading: Reading) -> float | None:
    """Return a pressure or vacuum as psi absolute at sea level; None for a difference of pressures.

    A `vacuum` is absolute as it stands. An unmarked pressure is a gauge pressure, as it is in the trade.
    """
    if reading.value is None or reading.reference == "differential":
        return None
    psi = number_in(reading.value, reading.unit, "psi")
    if reading.quantity == "vacuum" or reading.reference == "absolute":
        return psi
    if reading.reference == "vacuum_depth":
        return STANDARD_ATMOSPHERE_PSI - abs(psi)
    return psi + STANDARD_ATMOSPHERE_PSI


def gauge_psi(reading: Reading) -> float | None:
    """Return a pressure as psi gauge at sea level; None for a difference of pressures."""
    absolute = absolute_psi(reading)
    return None if absolute is None else absolute - STANDARD_ATMOSPHERE_PSI


def exact(reading: Reading) -> bool:
    """True when a number was said for it, not only a bound ("below nine hundred", "a bit over forty")."""
    return reading.relation in ("=", "~") and (reading.value is not None or reading.state == "open")


def bounds(reading: Reading, to: str) -> tuple[float, float]:
    """Return the least and the greatest value that the words allow, in the unit asked for."""
    value = value_in(reading, to)
    if reading.relation in ("<", "<="):
        return -math.inf, value
    if reading.relation in (">", ">="):
        return value, math.inf
    return value, value


def spans(readings: Sequence[Reading], to: str) -> list[tuple[float, float, list[Reading]]]:
    """Return (least, greatest, readings) of values; "between six and seven" is one span of two readings."""
    found: list[tuple[float, float, list[Reading]]] = []
    for r in readings:
        if r.value is None:
            continue
        low, high = bounds(r, to)
        last = found[-1] if found else None
        if (
            last is not None
            and r.relation in ("<", "<=")
            and len(last[2]) == 1
            and last[2][0].relation in (">", ">=")
            and last[0] <= high
            and (last[2][0].equipment, last[2][0].stage) == (r.equipment, r.stage)
        ):
            found[-1] = (last[0], high, [*last[2], r])
        else:
            found.append((low, high, [r]))
    return found
