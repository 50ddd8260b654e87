"""Pressure tests and evacuations as one object each, put together from readings and steps.

An evacuation's readings are the vacuum readings in their order: what the pump reached, and what the gauge
showed after the system was closed off. A new attempt begins where the words say that it was pulled again,
or where the vacuum is deeper than what the attempt before ended with after its hold. A pressure test
begins with its step and takes the test pressures up to the next piece of work.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from dictate.record.mentions import HoldMention
from dictate.record.visit import Amount, Reading, Step, Test
from dictate.units import convert
from dictate.writeup.order import Place, place

_PRESSURE_ENDS = frozenset(
    {
        "evacuated",
        "charged",
        "vacuum_held",
        "power_restored",
        "filter_drier_replaced",
        "refrigerant_recovered",
        "run_checked",
        "ports_capped",
    }
)
_LOWEST_TEST_PSI = 30.0  # below it a pressure beside a test is a first stage at most, or a running pressure
_SAME_TEST = 0.7  # of the first pressure; a named side below it is a running pressure


@dataclass
class _Pull:
    values: list[Reading] = field(default_factory=list)
    minutes: list[Reading] = field(default_factory=list)


def _amount(reading: Reading | None) -> Amount | None:
    if reading is None or reading.value is None:
        return None
    return Amount(value=reading.value, unit=reading.unit)


def _minutes(readings: Sequence[Reading]) -> float | None:
    """Return the last duration in minutes."""
    known = [r for r in readings if r.value is not None]
    return round(convert(known[-1].value or 0.0, known[-1].unit, "min"), 3) if known else None


def tests_of(
    readings: Sequence[Reading], steps: Sequence[Step], holds: Sequence[HoldMention] = ()
) -> list[Test]:
    """Return the tests of all machines in the order in which they were said."""
    out: list[Test] = []
    machines = list(dict.fromkeys([*(r.equipment for r in readings), *(s.equipment for s in steps)]))
    for machine in machines:
        own = [r for r in readings if r.equipment == machine and r.role == "measured"]
        work = [s for s in steps if s.equipment == machine and s.status == "done"]
        out += _pressure_tests(own, work, holds) + _evacuations(own, work)
    return sorted(out, key=lambda t: place(t.at))


# -- evacuation
# ------------------------------------------------------------------------------------------------


def _evacuations(readings: Sequence[Reading], steps: Sequence[Step]) -> list[Test]:
    vacua = sorted(
        (r for r in readings if r.quantity == "vacuum" and r.value is not None), key=lambda r: place(r.at)
    )
    pulls = sorted(place(s.at) for s in steps if s.step == "evacuated")
    if not vacua:
        made = [s for s in steps if s.step == "evacuated"]
        return [
            Test(kind="evacuation", equipment=s.equipment, attempt=n, at=s.at, heard=s.heard)
            for n, s in enumerate(made, start=1)
        ]
    attempts: list[_Pull] = []
    previous: Reading | None = None
    for r in vacua:
        again = previous is not None and any(place(previous.at) < p <= place(r.at) for p in pulls)
        deeper = previous is not None and _micron(r) < _micron(previous)
        current = attempts[-1] if attempts else None
        held = (
            current is not None
            and len(current.values) > 1
            and _micron(current.values[-1]) >= _micron(current.values[-2])
        )
        if current is None or (deeper and (held or again)):
            attempts.append(_Pull())
        attempts[-1].values.append(r)
        previous = r
    _add_minutes(attempts, readings, steps)
    held_steps = [s for s in steps if s.step == "vacuum_held"]
    out = []
    for number, pull in enumerate(attempts, start=1):
        first, last = pull.values[0], pull.values[-1]
        low = min(pull.values, key=_micron)
        start = low
        end = last if last is not low else None
        until = place(attempts[number].values[0].at) if number < len(attempts) else (10**9, 0)
        own_hold = [s for s in held_steps if place(first.at) <= place(s.at) < until]
        result: Literal["held", "failed"] | None = None
        if number < len(attempts) and end is not None and _micron(end) > 1.2 * _micron(low):
            result = "failed"
        elif own_hold and number == len(attempts):
            result = _held(low, end)
        out.append(
            Test(
                kind="evacuation",
                equipment=first.equipment,
                attempt=number,
                start=_amount(start),
                end=_amount(end),
                reached=_amount(low),
                minutes=_minutes(pull.minutes) if end is not None or own_hold else None,
                result=result,
                readings=[r.id for r in (*pull.values, *pull.minutes)],
                at=first.at,
                heard=first.heard,
            )
        )
    return out


def _micron(reading: Reading) -> float:
    return convert(reading.value or 0.0, reading.unit, "micron")


_SETTLED_MICRON = 500.0
"""A stand that ends no higher than the usual final vacuum held, whatever it began with."""


def _held(low: Reading, end: Reading | None) -> Literal["held", "failed"] | None:
    """Return what became of a stand that was spoken of; null where the figures leave it open."""
    if end is None or _micron(end) <= max(_SETTLED_MICRON, 1.2 * _micron(low)):
        return "held"
    return "failed" if _micron(end) > 3 * _micron(low) else None


def _add_minutes(attempts: list[_Pull], readings: Sequence[Reading], steps: Sequence[Step]) -> None:
    """Give each attempt the durations said between its first value and the next attempt's."""
    durations = [r for r in readings if r.quantity == "duration" and r.value is not None]
    for number, pull in enumerate(attempts):
        begin = place(pull.values[0].at)
        following = (
            place(attempts[number + 1].values[0].at)
            if number + 1 < len(attempts)
            else _next_work(place(pull.values[-1].at), steps)
        )
        pull.minutes = [d for d in durations if begin < place(d.at) < following and _near(d, pull.values[-1])]


def _near(duration: Reading, value: Reading) -> bool:
    """Tell whether a duration stands in the same or the next segment of the last value."""
    a, b = place(duration.at), place(value.at)
    return abs(a[0] - b[0]) <= 1 and not (a[0] == b[0] and a[1] - b[1] > 15)


def _next_work(after: Place, steps: Sequence[Step]) -> Place:
    later = [
        place(s.at)
        for s in steps
        if place(s.at) > after and s.step in ("charged", "power_restored", "run_checked", "ports_capped")
    ]
    return min(later, default=(10**9, 0))


# -- pressure test
# -----------------------------------------------------------------------------------------------


def _pressure_tests(
    readings: Sequence[Reading], steps: Sequence[Step], holds: Sequence[HoldMention]
) -> list[Test]:
    made = sorted((s for s in steps if s.step == "pressure_tested"), key=lambda s: place(s.at))
    out: list[Test] = []
    for number, step in enumerate(made, start=1):
        begin = place(step.at)
        ends = [place(s.at) for s in steps if s.step in _PRESSURE_ENDS and place(s.at) > begin]
        if number < len(made):
            ends.append(place(made[number].at))
        until = min(ends, default=(10**9, 0))
        until = min(until, (begin[0] + 2, 0))
        before = (begin[0], begin[1] - 8)
        inside = [r for r in readings if before <= place(r.at) < until and r.value is not None]
        pressures = [
            r
            for r in inside
            if r.quantity == "pressure"
            and r.reference not in ("vacuum_depth", "differential")
            and _psi(r) >= _LOWEST_TEST_PSI
            and (r.component is None or "nitrogen" in r.component or r.point in (None, "nitrogen", "test"))
        ]
        # "Suction thirty" behind a test at one fifty is the machine running, and no end of the test.
        pressures = [
            r
            for k, r in enumerate(pressures)
            if k == 0 or r.point in (None, "nitrogen", "test") or _psi(r) >= _SAME_TEST * _psi(pressures[0])
        ]
        times = [
            r
            for r in inside
            if (r.quantity == "duration" and place(r.at) >= begin)
            or (r.quantity == "duration" and place(r.at) > before)
        ]
        warm = [
            r
            for r in inside
            if r.quantity == "temperature" and pressures and place(r.at) >= place(pressures[0].at)
        ]
        start = pressures[0] if pressures else None
        end = pressures[-1] if len(pressures) > 1 else None
        result: Literal["held", "failed"] | None = None
        text = step.heard.lower()
        if any(w in text for w in ("held", "hold", "helped", "steady", "no drop")) or (
            start and end and abs(_psi(start) - _psi(end)) <= 0.02 * _psi(start)
        ):
            result = "held"
        told = next((h for h in holds if place(h.at) == begin), None)
        if told is not None and told.result is not None:
            result = "held" if told.result == "held" else "failed"
        if start and end and _psi(end) < 0.98 * _psi(start) and not warm:
            result = "failed"  # the figures say it, and no change of temperature can account for it
        elif result == "failed" and warm:
            result = None  # the air got colder as well: the check works it out
        out.append(
            Test(
                kind="pressure_test",
                equipment=step.equipment,
                attempt=number,
                gas="nitrogen" if any(g in text for g in ("nitro", "n2", "ofn")) else None,
                start=_amount(start),
                end=_amount(end),
                reached=_amount(max(pressures, key=_psi) if pressures else None),
                minutes=_minutes(times) if times or told is None else told.minutes,
                start_temperature=_amount(warm[0] if warm else None),
                end_temperature=_amount(warm[-1] if len(warm) > 1 else None),
                result=result,
                readings=[r.id for r in (*pressures, *times, *warm)],
                at=step.at,
                heard=step.heard,
            )
        )
    return out


def _psi(reading: Reading) -> float:
    return convert(reading.value or 0.0, reading.unit, "psi")
