"""The vacuum was read at the pump or with the pump open."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.vacuum import attempts
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="evacuation.read-at-pump",
    checks="The final vacuum is read at the system with the pump valved off.",
    applies="a vacuum was said, and that it was read at the pump or with the pump open",
    source="training texts on evacuation: gauge far from the pump, pump isolated",
    tag="published",
    question="What did the gauge show at the system, with the pump valved off?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        pulled = attempts(job)
        at_pump = job.phrases("at_pump")
        if not pulled or not at_pump:
            continue
        if job.stated("vacuum_held") or any(a.end is not None for a in pulled):
            yield ok(
                "The vacuum was read again with the pump valved off.",
                *pulled[-1].things,
                equipment=job.machine,
            )
        else:
            yield unsure(
                f"“{at_pump[0].heard}” was said{when(at_pump[0])}: a reading there says nothing of the "
                f"system.",
                at_pump[0], *pulled[-1].things, equipment=job.machine,
            )  # fmt: skip
