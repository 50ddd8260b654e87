"""A 10 K thermistor that does not read what its temperature asks for."""

from __future__ import annotations

import math
from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

BETA = (3380.0, 3980.0)
"""Kelvin: the flattest and the steepest 10 K curve in common use; which one a sensor has is on its sheet."""
SPREAD = 0.05
R25 = 10000.0


def ohms_at(deg_f: float, beta: float, r25: float = R25) -> float:
    """Return the resistance of an NTC thermistor: R = R25 exp(beta (1/T - 1/298.15 K))."""
    kelvin = (deg_f + 459.67) / 1.8
    return r25 * math.exp(beta * (1 / kelvin - 1 / 298.15))


def _is_10k(facts: Facts) -> bool:
    rated = facts.readings("resistance", role="rated")
    if any(r.value and abs(value_in(r, "ohm") - R25) < 1 for r in rated):
        return True
    return facts.said("ten k", "10k", "10 k", "ten kay", "10 kay", "ten kilohm", "10 kilohm")


@rule(
    id="sensor.off-curve",
    checks="A 10 K thermistor reads what its curve gives at the temperature it was at.",
    applies="a temperature sensor said to be a 10 K was measured along with its temperature",
    source="IEC 60539-1, B-value equation of NTC thermistors; the span of B from 3380 to 3980 K in common "
    "10 K "
    "sensors is common practice",
    tag="published",
    question="Which curve does the sensor follow, and what does it read in ice water (32 °F)?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance"):
        name = reading.component or ""
        if "sensor" not in name and "thermistor" not in name and "probe" not in name:
            continue
        if not exact(reading) or not _is_10k(facts):
            continue
        temperatures = [
            r
            for r in facts.readings("temperature", equipment=reading.equipment)
            if exact(r) and (r.component == reading.component or r.at.segment == reading.at.segment)
        ]
        near = facts.nearest(reading, temperatures)
        if reading.state == "open":
            done = facts.replaced(reading.component, reading.equipment)
            yield problem(f"{name}, {cite(reading)}: it is open.", reading, resolved=done)
            continue
        if near is None:
            continue
        deg_f, ohms = value_in(near, "degF"), value_in(reading, "ohm")
        ends = sorted(ohms_at(deg_f, b) for b in BETA)
        low, high = ends[0] * (1 - SPREAD), ends[1] * (1 + SPREAD)
        computed = {"least": (low, "ohm"), "greatest": (high, "ohm")}
        text = f"{name} {cite(reading)} at {cite(near)}; a 10 K reads {low:.0f} to {high:.0f} ohm there"
        used = [reading, near]
        if low <= ohms <= high:
            yield ok(f"{text}.", *used, computed=computed)
        elif low / 1.15 <= ohms <= high * 1.15:
            yield unsure(f"{text}: a few degrees off.", *used, computed=computed)
        else:
            done = facts.replaced(reading.component, reading.equipment)
            yield problem(f"{text}: off the curve.", *used, computed=computed, resolved=done)
