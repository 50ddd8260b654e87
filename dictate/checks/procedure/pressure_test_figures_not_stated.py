"""A pressure test without the numbers that make it proof."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.tightness import tests
from dictate.checks.words import listing, when
from dictate.checks.work import Job, jobs


@rule(
    id="pressure-test.figures-not-stated",
    checks="A pressure test names its pressure and how it ended: a second reading, a time, or a result.",
    applies="a pressure test was made",
    source="UFGS refrigerant piping (legacy 15182), record of the pneumatic test (pressure and "
    "temperature at start and end)",
    tag="common practice",
    question="To what pressure was it tested, for how many minutes, and what did the gauge show at the end?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        steps = job.steps("pressure_tested")
        found = tests(job)
        if not steps and not found:
            continue
        if not found and _loose(facts, job):
            continue  # its pressures were said, and nobody put them together as a test
        last = found[-1] if found else None
        lacking = []
        if last is None or last.start is None:
            lacking.append("the pressure")
        if last is None or (last.end is None and last.minutes is None and last.said is None):
            lacking.append("how long it stood or what it showed at the end")
        basis = last.things if last is not None and last.things else steps
        if lacking:
            yield missing(
                f"Of the pressure test{when(basis[0])} was not stated: {listing(lacking)}.",
                *basis, equipment=job.machine,
            )  # fmt: skip
        else:
            yield ok("The pressure test has its numbers.", *basis, equipment=job.machine)


def _loose(facts: Facts, job: Job) -> bool:
    """True when a pressure was said in one breath with nitrogen or a test."""
    return any(
        word in facts.context(reading)
        for reading in job.seen("pressure")
        if reading.reference != "vacuum_depth"
        for word in ("nitrogen", "pressure test", "pressurized", "pressurised")
    )
