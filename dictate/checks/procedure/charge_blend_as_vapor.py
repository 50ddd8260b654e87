"""A blend was charged as vapour."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="charge.blend-as-vapor",
    checks="A blend leaves its cylinder as liquid; vapour drawn from it has another composition.",
    applies="a zeotropic blend was charged, and whether as liquid or vapour was said",
    source="producers' handling guidelines for zeotropic (R-4xx) blends",
    tag="common practice",
    question="Did the blend leave the cylinder as liquid?",
    caution="Liquid is metered into a running compressor so that no slug reaches it.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is None or not known.zeotrope or not job.charged:
            continue
        if vapor := job.phrases("vapor_charge"):
            yield unsure(
                f"{known.name} is a blend, and “{vapor[0].heard}” was said{when(vapor[0])}.",
                *job.charged[:1], vapor[0], equipment=job.machine,
            )  # fmt: skip
        elif liquid := job.phrases("liquid_charge"):
            yield ok(
                f"{known.name} was charged as liquid.", *job.charged[:1], liquid[0], equipment=job.machine
            )
