"""An evacuation without the vacuum it reached."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.vacuum import attempts
from dictate.checks.words import when
from dictate.checks.work import inches, jobs


@rule(
    id="evacuation.depth-not-stated",
    checks="An evacuation says the vacuum that was reached, read on a vacuum gauge.",
    applies="the system was evacuated",
    source="service manuals: final vacuum in micron, read at the system",
    tag="common practice",
    question="How many microns did the vacuum gauge show at the end, with the pump valved off?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        steps = job.steps("evacuated")
        if not job.charged and job.phrases("pump_left_running"):
            continue  # the evacuation goes on after this visit
        deep = [a for a in attempts(job) if a.lowest is not None]
        if deep:
            yield ok("The vacuum reached was stated.", *deep[-1].things, equipment=job.machine)
        elif steps and not inches(job):
            yield missing(
                f"The system was evacuated{when(steps[0])}; the vacuum reached was not stated.",
                *steps, equipment=job.machine,
            )  # fmt: skip
