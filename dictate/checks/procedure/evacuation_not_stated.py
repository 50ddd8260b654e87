"""The circuit was opened, and no evacuation was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.vacuum import attempts
from dictate.checks.words import when
from dictate.checks.work import inches, jobs


@rule(
    id="evacuation.not-stated",
    checks="A circuit that was opened, or emptied and refilled, is evacuated before it is charged.",
    applies="the circuit was opened and put together again, or recovered and recharged",
    source="service manuals and EPA section 608 examination topics, dehydration; UFGS refrigerant "
    "piping (legacy 15182)",
    tag="published",
    question="Was it evacuated with a vacuum pump, to how many microns, and did it hold?",
    caution="The depth to which refrigerant was recovered is no evacuation. Never use the compressor as "
    "a pump.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = job.openings if job.closed_up else []
        if not called_by and job.recharged_after_recovery:
            called_by = [*job.recovered, *job.charged]
        if not called_by:
            continue
        if not job.stated("evacuated", status=None) and (pulled := attempts(job)):
            yield ok("An evacuation was stated.", *pulled[-1].things, equipment=job.machine)
        elif not job.stated("evacuated", status=None) and (depths := inches(job)):
            yield ok(
                f"A vacuum of {depths[-1].value:g} inches was stated{when(depths[-1])}.",
                depths[-1], equipment=job.machine,
            )  # fmt: skip
        else:
            yield step_gap(job, ["evacuated"], "an evacuation", called_by)
