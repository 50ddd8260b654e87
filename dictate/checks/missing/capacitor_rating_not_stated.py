"""A capacitor was replaced, and its microfarads were not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs
from dictate.record.visit import Part


@rule(
    id="capacitor.rating-not-stated",
    checks="A new capacitor is named with its microfarads.",
    applies="a capacitor was replaced",
    source="replacement practice: same capacitance, voltage rating the same or higher, never lower",
    tag="common practice",
    question="What is printed on the new capacitor: microfarads, tolerance and volts?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        new = [h.thing for h in job.handled_named("capacitor") if h.action in ("replaced", "installed")]
        if not new:
            continue
        ratings = [r for r in job.seen("capacitance", role=None) if r.role in ("rated", "measured", "target")]
        plates = job.facts.plate(job.equipment_id, "capacitance")
        if ratings or plates or any(isinstance(p, Part) and (p.rating or p.part_number) for p in new):
            yield ok("The capacitor's rating was stated.", *new, *ratings[:1], equipment=job.machine)
        else:
            yield missing(
                f"A capacitor was replaced{when(new[0])}; its microfarads were not stated.",
                *new, equipment=job.machine,
            )  # fmt: skip
