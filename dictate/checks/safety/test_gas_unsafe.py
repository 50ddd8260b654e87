"""Oxygen, air or a fuel gas as test gas or purge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.checks.tightness import tests
from dictate.checks.words import when
from dictate.checks.work import jobs

DRY = (
    "nitrogen",
    "n2",
    "ofn",
    "helium",
    "argon",
    "carbon dioxide",
    "forming gas",
    "hydrogen mix",
    "h2/n2",
    "tracer",
)
BURNS = ("oxygen", "air", "acetylene", "propane", "hydrogen")


@rule(
    id="pressure-test.gas-unsuitable",
    checks="The gas of a pressure test or purge is dry nitrogen or another dry gas that does not react "
    "or burn.",
    applies="the gas of a test or purge was said",
    source="ASHRAE 15, pressure test clause (dry nitrogen or other nonflammable, nonreactive dried gas)",
    tag="published",
    question="Which gas was it? If it was oxygen, air or a fuel gas, was the test stopped and the gas "
    "let out?",
    caution="Oil and oxygen under pressure can explode. Air and its mixtures are never used on halocarbon or "
    "hydrocarbon circuits.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        for test in tests(job):
            gas = (test.gas or "").lower()
            if not gas:
                continue
            if any(word in gas for word in DRY):
                yield ok(f"The test gas was {test.gas}.", *test.things, equipment=job.machine)
            elif any(word in gas.split() for word in BURNS) and job.refrigerant not in ("R-717", "R-744"):
                yield problem(f"The test gas was {test.gas}.", *test.things, equipment=job.machine)
        for said in job.phrases("unsafe_gas"):
            yield problem(f"“{said.heard}” was said{when(said)}.", said, equipment=job.machine)
        if not job.alone:
            break  # a phrase of the transcript belongs to no machine: it is told once
