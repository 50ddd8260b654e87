"""The circuit was closed and evacuated, and nothing said of a charge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="charge.not-stated",
    checks="A circuit that was opened or evacuated is charged again, or the record says that it waits "
    "for it.",
    applies="the system was evacuated, or opened and put together again",
    source="service practice: a repair ends with the charge weighed in",
    tag="common practice",
    question="Was refrigerant charged, which and how much; or was the machine left without a charge?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = [*job.steps("evacuated"), *(job.openings if job.closed_up else [])]
        if not called_by:
            continue
        if charged := job.charged or job.moved("charged"):
            yield ok(f"Refrigerant was charged{when(charged[0])}.", *charged, equipment=job.machine)
        elif implied := job.charge_implied:
            yield ok(
                f"It ran after the evacuation{when(implied[0])}, so it was charged; the amount is asked for.",
                implied[0], equipment=job.machine,
            )  # fmt: skip
        elif not job.stated("charged", status="planned") and (kept := job.refilled_otherwise):
            yield ok(
                f"The charge stayed in the machine, as said{when(kept[0])}.", kept[0], equipment=job.machine
            )
        else:
            yield step_gap(job, ["charged"], "a charge", called_by)
