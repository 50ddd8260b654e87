"""A part was replaced, and nothing in the record says why."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said, when
from dictate.checks.work import Job, jobs


@rule(
    id="part.reason-not-stated",
    checks="A replaced part has a reason: a complaint, a test, an event or a conclusion.",
    applies="a wired part or a part of the circuit was replaced",
    source="complaint, cause and correction of a service record; warranty claims ask for the cause",
    tag="common practice",
    question="What was found wrong with the part, and by which test?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        replaced = [
            h
            for h in job.handled_of("electrical", "low_voltage", "moving", "circuit")
            if h.action in ("replaced", "repaired")
        ]
        if not replaced:
            continue
        names = ", ".join(dict.fromkeys(h.name for h in replaced))
        reasons = _reasons(job)
        if reasons:
            yield ok(
                f"What led to replacing the {names} is told{when(reasons[0])}.",
                *reasons[:2], equipment=job.machine,
            )  # fmt: skip
        elif job.record.complaint or job.phrases("fault"):
            yield ok(
                f"A complaint or a fault is told before the {names} was replaced.", equipment=job.machine
            )
        else:
            yield missing(
                f"Why the {names} was replaced was not stated{when(replaced[0].thing)}.",
                *(h.thing for h in replaced), equipment=job.machine,
            )  # fmt: skip


def _reasons(job: Job) -> list[Said]:
    """Return what may tell why: conclusions, events, and measurements that were not taken after the work."""
    found: list[Said] = [*job.conclusions(), *job.events()]
    found += [
        r
        for r in job.readings()
        if r.stage != "as_left"
        and r.quantity not in ("vacuum", "mass")
        and not (r.quantity == "voltage" and r.value == 0)  # a dead test is no reason
    ]
    return found
