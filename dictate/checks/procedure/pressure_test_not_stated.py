"""Joints were made, and no pressure test was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.tightness import tests
from dictate.checks.work import jobs


@rule(
    id="pressure-test.not-stated",
    checks="A circuit that was opened is pressure tested with dry nitrogen before it is charged.",
    applies="the circuit was opened and put together again",
    source="ASHRAE 15, field test for tightness; UFGS refrigerant piping (legacy 15182), pneumatic test "
    "of refrigerant piping",
    tag="published",
    question="Was it pressure tested with nitrogen: to what pressure, for how long, and did it hold?",
    caution="Never above the test pressure on the plate, low and high side each; regulator and relief "
    "on the gas.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.closed_up:
            continue
        if not job.stated("pressure_tested", status=None) and (found := tests(job)):
            yield ok("A pressure test was stated.", *found[-1].things, equipment=job.machine)
        else:
            yield step_gap(job, ["pressure_tested"], "a pressure test", job.openings)
