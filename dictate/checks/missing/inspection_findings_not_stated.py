"""An inspection or maintenance visit without a single figure."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="inspection.readings-not-stated",
    checks="An inspection leaves readings: temperatures, pressures, amps or volts.",
    applies="the visit was an inspection or maintenance and no part was changed",
    source="service practice: what an inspection found is its product",
    tag="common practice",
    question="What was measured on the inspection?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        said = job.phrases("inspection")
        if not said or job.repairs:
            continue
        if found := job.seen():
            yield ok(f"{len(found)} readings go with the inspection.", *found[:2], equipment=job.machine)
        elif job.alone:
            yield missing(
                f"“{said[0].heard}” was said{when(said[0])}; no reading was stated.",
                said[0],
                equipment=job.machine,
            )
