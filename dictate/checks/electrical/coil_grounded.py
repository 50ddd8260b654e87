"""A heater or a coil that conducts to ground."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import is_motor, to_ground
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, problem, rule

FLOOR = 1e6
PARTS = ("heater", "element", "coil", "valve", "solenoid", "transformer", "contactor", "relay")


@rule(
    id="coil.grounded",
    checks="No heater, coil or transformer conducts to ground.",
    applies="a resistance to ground was measured on a heater, coil or transformer",
    source="One-megohm rule of the insulation-testing handbooks: never less than 1 megohm",
    tag="published",
    question="Does it still conduct to ground with both leads off and the element dry?",
    caution="Power off, locked out and proved dead before measuring resistance.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance"):
        name = reading.component or ""
        if not to_ground(reading, facts) or is_motor(reading.component) or not any(p in name for p in PARTS):
            continue
        said = f"{reading.component}, {cite(reading)}"
        if reading.state == "open":
            yield ok(f"{said}: nothing to ground.", reading)
        elif reading.value is not None:
            ohms = value_in(reading, "ohm")
            computed = {"to ground": (ohms, "ohm")}
            if ohms >= FLOOR or reading.relation in (">", ">="):
                yield ok(f"{said}: a megohm or more.", reading, computed=computed)
            else:
                done = facts.replaced(reading.component, reading.equipment)
                yield problem(f"{said}: it conducts to ground.", reading, computed=computed, resolved=done)
