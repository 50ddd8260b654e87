"""A vacuum that was watched for a few minutes only."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.vacuum import attempts, failed, numbers
from dictate.checks.words import when
from dictate.checks.work import jobs
from dictate.vocabulary.load import table


@rule(
    id="evacuation.hold-short",
    checks="The isolated vacuum is watched for ten minutes or longer.",
    applies="the hold of the last evacuation held and its minutes were said",
    source="training texts on the decay test: 10 to 15 minutes isolated; UFGS refrigerant piping "
    "(legacy 15182): one "
    "hour",
    tag="common practice",
    question="Was it watched longer than that?",
)
def check(facts: Facts) -> Iterator[Finding]:
    least = float(table("procedure_limits")["hold_minutes"]["value"])
    for job in jobs(facts):
        pulled = attempts(job)
        if not pulled or not pulled[-1].minutes or failed(job, pulled[-1]):
            continue
        last = pulled[-1]
        minutes = last.minutes or 0.0
        computed = {"hold": (minutes, "min"), "usual": (least, "min")}
        if minutes < least:
            yield unsure(
                f"The vacuum was watched for {minutes:g} minutes ({numbers(last)}){when(last.things[0])}; "
                f"{least:g} is usual.",
                *last.things, computed=computed, equipment=job.machine,
            )  # fmt: skip
        else:
            yield ok(
                f"The vacuum was watched for {minutes:g} minutes.",
                *last.things,
                computed=computed,
                equipment=job.machine,
            )
