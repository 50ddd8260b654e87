"""Pressure tests as rules ask about them: the numbers of each attempt, and what the gas law expects.

A closed volume of dry nitrogen follows its absolute temperature, so both pressures are made absolute first:
150.0 psig at 70 degF is expected to read 146.9 psig at 60 degF. The rule of thumb of 0.3 psi per degree is
right near 150 psig only. Pressures in psi gauge at sea level, temperatures in degF.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from dictate.checks.values import gauge_psi, number_in, value_in
from dictate.checks.words import Said
from dictate.checks.work import Job
from dictate.record.visit import Amount, Reading
from dictate.record.visit import Test as RecordTest
from dictate.units import STANDARD_ATMOSPHERE_PSI
from dictate.vocabulary.load import table

RANKINE = 459.67
RUNNING_POINTS = ("suction", "discharge", "liquid")


@dataclass
class PressureTest:
    """One attempt; numbers that were not said are None."""

    number: int
    start: float | None
    end: float | None
    start_temperature: float | None
    end_temperature: float | None
    minutes: float | None
    gas: str | None
    said: Literal["held", "failed"] | None
    things: list[Said]

    @property
    def highest(self) -> float | None:
        """Return the highest pressure that was said, in psi gauge."""
        return max((p for p in (self.start, self.end) if p is not None), default=None)


def expected_psi(
    start_psig: float, start_degf: float, end_degf: float, atmosphere: float | None = None
) -> float:
    """Return the pressure in psi gauge that a closed volume of gas reads after its temperature changed."""
    outside = STANDARD_ATMOSPHERE_PSI if atmosphere is None else atmosphere
    return (start_psig + outside) * (end_degf + RANKINE) / (start_degf + RANKINE) - outside


def readable(psig: float) -> float:
    """Return the difference in psi below which a gauge cannot tell two pressures apart."""
    entry = table("procedure_limits")["pressure_test"]
    return max(float(entry["psi"]), float(entry["share"]) / 100 * psig)


def tests(job: Job) -> list[PressureTest]:
    """Return the pressure tests of this machine, attempt by attempt."""
    found = job.tests("pressure_test")
    if not found and job.machine is not None and not job.alone:
        found = [t for t in job.facts.tests("pressure_test") if t.equipment is None]
    by_id = {r.id: r for r in job.record.readings if r.id}
    return [_of_test(t, [by_id[i] for i in t.readings if i in by_id]) for t in found]


def _of_test(test: RecordTest, readings: list[Reading]) -> PressureTest:
    """Read the numbers of one test of the record; its readings are the evidence."""
    start, end = _psi(test.start or test.reached), _psi(test.end)
    if start is None:
        pressures = [
            p
            for r in readings
            if r.quantity == "pressure" and r.role == "measured" and (p := gauge_psi(r)) is not None
        ]
        start = pressures[0] if pressures else None
        end = pressures[-1] if end is None and len(pressures) > 1 else end
    running = {value_in(r, "psi") for r in readings if r.point in RUNNING_POINTS and r.quantity == "pressure"}
    if start is not None and end is not None and end < start / 2 and any(abs(end - v) < 0.5 for v in running):
        end = None  # a suction or head pressure of the running machine, not the end of the test
    return PressureTest(
        number=test.attempt,
        start=start,
        end=end,
        start_temperature=_degf(test.start_temperature),
        end_temperature=_degf(test.end_temperature),
        minutes=test.minutes,
        gas=test.gas,
        said=test.result,
        things=[*readings] or [test],
    )


def _psi(amount: Amount | None) -> float | None:
    """Return a gauge pressure in psi; None when it was not said or is no positive pressure."""
    if amount is None or amount.unit in ("inHg", "micron"):
        return None
    return number_in(amount.value, amount.unit, "psi")


def _degf(amount: Amount | None) -> float | None:
    return None if amount is None else number_in(amount.value, amount.unit, "degF")
