"""Work was left open, and nothing said of telling the customer."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said, when
from dictate.checks.work import jobs


@rule(
    id="customer.open-work-not-told",
    checks="Work that was put off or left undone is told to the customer.",
    applies="a step was said to be planned or not done, and was not done otherwise",
    source="service practice: open items are handed over by name",
    tag="common practice",
    question="Was the customer told what is left open, and is a return visit agreed?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        done = {(s.step, s.component) for s in job.steps()}
        left: list[Said] = [
            s
            for status in ("planned", "not_done")
            for s in job.steps(status=status)
            if (s.step, s.component) not in done and s.step != "customer_informed"
        ]
        if not left:
            continue
        told: list[Said] = [*job.stated("customer_informed"), *job.phrases("customer_told")]
        if told or job.record.recommendations:
            yield ok(
                f"What is left open was told{when(told[0]) if told else ''}.",
                *told[:1],
                equipment=job.machine,
            )
        else:
            yield missing(
                f"Work is left open ({because(left)}); that the customer was told was not stated.",
                *left, equipment=job.machine,
            )  # fmt: skip
