"""A motor winding that conducts to its shell."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import is_motor, to_ground
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

FLOOR = 1e6
"""Ohm: the one-megohm rule, below which insulation is not accepted at any voltage."""


@rule(
    id="winding.grounded",
    checks="No terminal of a compressor or motor conducts to the shell.",
    applies="a resistance from a terminal to ground was measured on a compressor or motor",
    source="Vocational HVACR textbooks, chapter on compressor motors: any steady reading from a terminal "
    "to the "
    "shell is a ground; one-megohm rule of the insulation-testing handbooks",
    tag="published",
    question="Was the bare copper of the shell touched, and what does an insulation tester read cold?",
    caution="Leads off and power locked out. No insulation tester on a system in vacuum, and not with the "
    "terminal cover off on a pressurised shell.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance"):
        if not to_ground(reading, facts) or not is_motor(reading.component):
            continue
        name = reading.component or "the motor"
        said = f"{name}, {cite(reading)}"
        if reading.state == "open":
            yield ok(f"{said}: nothing to ground.", reading)
            continue
        if reading.value is None:
            continue
        ohms = value_in(reading, "ohm")
        computed = {"to ground": (ohms, "ohm")}
        if ohms >= FLOOR and reading.relation not in ("<", "<="):
            yield ok(f"{said}: a megohm or more.", reading, computed=computed)
        elif reading.relation in (">", ">="):
            yield unsure(f"{said}: only a lower bound was said.", reading, computed=computed)
        elif reading.unit_assumed and ohms > 1:
            yield unsure(
                f"{said}: the unit was not said.",
                reading,
                computed=computed,
                question="Was that ohm, kilohm or megohm?",
            )
        else:
            done = facts.replaced(reading.component or "compressor", reading.equipment)
            yield problem(f"{said}: it conducts to ground.", reading, computed=computed, resolved=done)
