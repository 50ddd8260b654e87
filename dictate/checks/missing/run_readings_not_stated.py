"""A repair, and no reading of how the machine was left."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.work import jobs


@rule(
    id="run.readings-not-stated",
    checks="After a repair at least one reading tells how the machine was left: amps, pressures, "
    "temperatures.",
    applies="a part was changed or repaired, refrigerant charged, or a control adjusted, and the job is "
    "finished",
    source="service practice: the same readings as found and as left",
    tag="common practice",
    question="What were the final readings: amps, volts, suction and head pressure, superheat, box "
    "temperature?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.repairs or job.unfinished:
            continue
        if job.left_readings:
            yield ok(
                f"{len(job.left_readings)} readings were stated after the work.",
                *job.left_readings, equipment=job.machine,
            )  # fmt: skip
        else:
            yield missing(
                f"No reading was stated after the work ({because(job.repairs)}).",
                *job.repairs, equipment=job.machine,
            )  # fmt: skip
