"""An evacuation, and nothing said of its holding."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.vacuum import attempts
from dictate.checks.work import jobs


@rule(
    id="evacuation.hold-not-stated",
    checks="After the final vacuum the pump is valved off and the rise is watched.",
    applies="the system was evacuated",
    source="UFGS 23 23 00, evacuation: pump isolated and vacuum held; training texts: 10 to 15 minutes "
    "isolated",
    tag="published",
    question="Was the pump valved off, for how many minutes, and where did the gauge end?",
    caution="A reading with the pump open says nothing of the system.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        pulled = attempts(job)
        steps = job.steps("evacuated")
        if not pulled and not steps:
            continue
        held = [a for a in pulled if a.said or a.end is not None]
        if held and not job.stated("vacuum_held"):
            yield ok("A hold was stated.", *held[-1].things, equipment=job.machine)
        else:
            basis = [*steps] or pulled[-1].things
            yield step_gap(job, ["vacuum_held"], "a hold of the vacuum with the pump valved off", basis)
