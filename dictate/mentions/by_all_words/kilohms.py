"""Bare ohms of a probe whose brothers were told in kilohms.

"Supposed to be 32.6 K in ice water. Core probe one, 32.4. Core probe two, 32.8. Air probe reads 41.7 K": a
probe of some ohms beside one of as many kilohms is told in kilohms as well. It keeps a reason to look at it.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.quantities import tidy
from dictate.record.visit import Candidate, Reading

SCALED = "its thousands were not said: the probes beside it were told in kilohms"
_NEAR = 6
"""Readings on either side among which such a probe is looked for."""
_ALIKE = 2.5
_PROBES = frozenset(("temperature sensor",))


def settle_kilohms(readings: Sequence[Reading]) -> None:
    """Give the bare ohms of probes the thousands of their brothers, in place."""
    for i, reading in enumerate(readings):
        value = reading.value
        if not _of_a_probe(reading) or not reading.unit_assumed or not value or not 0 < value < 1000:
            continue
        beside = [*readings[max(0, i - _NEAR) : i], *readings[i + 1 : i + 1 + _NEAR]]
        if any(_like(other, value) for other in beside):
            plain = Candidate(value=value, unit="ohm", heard=reading.heard, why="it may be plain ohms")
            reading.candidates.append(plain)
            reading.value = tidy(value * 1000)
            reading.review.append(SCALED)
            reading.confidence = min(reading.confidence, 0.5)


def _of_a_probe(reading: Reading) -> bool:
    return reading.quantity == "resistance" and reading.component in _PROBES and reading.state == "value"


def _like(other: Reading, value: float) -> bool:
    """Tell whether a probe beside was told in as many kilohms."""
    if not _of_a_probe(other) or other.unit_assumed or not other.value or other.value < 1000:
        return False
    ratio = other.value / 1000 / value
    return 1 / _ALIKE <= ratio <= _ALIKE


__all__ = ["SCALED", "settle_kilohms"]
