"""A repair, and nothing said of running the machine afterwards."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="run.check-not-stated",
    checks="After a repair the machine is run, and the record says so or shows it by its readings.",
    applies="a part was changed or repaired, refrigerant charged, or a control adjusted, and the job is "
    "finished",
    source="service practice: 15 to 30 minutes of stable running after a repair",
    tag="common practice",
    question="Was the machine run after the work, for how long, and did it cycle as it should?",
    caution="Covers on and people clear before it starts.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.repairs or job.unfinished:
            continue
        shown = [*job.ran, *job.left_readings]
        if not job.stated("run_checked", status=None) and shown:
            yield ok(f"It ran after the work, as told{when(shown[0])}.", *shown[:2], equipment=job.machine)
        else:
            yield step_gap(job, ["run_checked"], "a run after the work", job.repairs)
