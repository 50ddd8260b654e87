"""A 24-volt control circuit that is too low to hold its contactor, or too high."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading

USUAL = (21.0, 28.0)
DROP_OUT, HIGH = 20.0, 30.0
PLACES = ("transformer", "coil", "thermostat", "board", "contactor", "relay", "solenoid", "valve")


def is_control(reading: Reading) -> bool:
    """True for a voltage of a 24-volt control circuit: by its size and by where it was read."""
    if not exact(reading) or reading.derived or reading.value is None:
        return False
    volts = value_in(reading, "V")
    if not 14 <= volts <= 36:
        return False
    at = f"{reading.component or ''} {reading.point or ''}"
    return reading.point in ("secondary", "coil", "control") or any(p in at for p in PLACES)


@rule(
    id="control-voltage.out-of-range",
    checks="A 24-volt control circuit carries about 21 to 28 V.",
    applies="a control voltage was measured at a transformer, coil, thermostat or board",
    source="Trade articles on contactors: a coil may drop out near 20 V or less; 21 to 28 V is usual",
    tag="common practice",
    question="What does it read with the contactor pulled in, and is the transformer on the right tap?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("voltage"):
        if not is_control(reading):
            continue
        rated = [p.value for p in facts.plate(reading.equipment, "voltage", reading.component)]
        if any(9 <= v <= 18 for v in rated):
            continue  # a 12-volt circuit
        volts = value_in(reading, "V")
        computed = {"control voltage": (volts, "V")}
        text = f"{reading.component or 'control circuit'} {cite(reading)}"
        if volts < DROP_OUT:
            yield problem(f"{text}: a contactor may drop out at 20 V or less.", reading, computed=computed)
        elif USUAL[0] <= volts <= USUAL[1]:
            yield ok(f"{text}: usual.", reading, computed=computed)
        elif volts <= HIGH:
            yield unsure(f"{text}: just outside the usual 21 to 28 V.", reading, computed=computed)
        else:
            yield unsure(
                f"{text}: high; is the primary on its 208 V tap with 240 V?", reading, computed=computed
            )
