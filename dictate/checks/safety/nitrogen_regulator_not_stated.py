"""A pressure test with nitrogen, and no word of a regulator."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.work import jobs


@rule(
    id="nitrogen.regulator-not-stated",
    checks="A pressure test says that the nitrogen came through a regulator with a relief device behind it.",
    applies="a pressure test was made",
    source="ASHRAE 15, pressure test clause (regulator and pressure-limiting device on the test gas)",
    tag="common practice",
    question="Was a regulator with a relief device on the nitrogen cylinder, and at what pressure was "
    "it set?",
    caution="A full nitrogen cylinder holds about 2 000 to 2 600 psi: never connected without a regulator. "
    "Nitrogen displaces oxygen; ventilate.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        tested = job.steps("pressure_tested") or job.tests("pressure_test")
        if not tested:
            continue
        if said := job.phrases("regulator"):
            yield ok(
                "A regulator on the test gas was mentioned.", *tested[:1], *said[:1], equipment=job.machine
            )
        else:
            # Hardly anybody says it aloud, so silence is no gap in the record: the question is soft.
            yield unsure(
                f"A regulator with a relief device on the test gas was not stated ({because(tested)}).",
                *tested[:1], equipment=job.machine,
            )  # fmt: skip
