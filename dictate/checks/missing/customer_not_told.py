"""Work was left open, and nothing said of telling the customer."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said, listing, when
from dictate.checks.work import jobs
from dictate.record.visit import Step

OPEN_WORK = {
    "part_replaced": "replacement", "filter_drier_replaced": "the filter drier",
    "leak_checked": "a leak check",
    "pressure_tested": "a pressure test", "evacuated": "the evacuation", "vacuum_held": "the vacuum hold",
    "charged": "the charge", "cleaned": "cleaning", "adjusted": "an adjustment",
    "run_checked": "a run check",
}  # fmt: skip
"""What may be put off. "No brazing" and "no gas added" are no work left open."""
NOT_DONE = frozenset(
    {"part_replaced", "leak_checked", "pressure_tested", "evacuated", "vacuum_held", "run_checked"}
)


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
        left = [
            s
            for s in job.steps(status=None)
            if (s.step, s.component) not in done
            and (
                (s.status == "planned" and s.step in OPEN_WORK)
                or (s.status == "not_done" and s.step in NOT_DONE)
            )
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
                f"Work is left open ({listing([_name(s) for s in left])}); that the customer was told "
                f"was not stated.",
                *left, equipment=job.machine,
            )  # fmt: skip


def _name(step: Step) -> str:
    """Name work that is left open: "replacement of the compressor, planned (1:30)"."""
    what = OPEN_WORK[step.step] + (f" of the {step.component}" if step.component else "")
    return f"{what}, {step.status.replace('_', ' ')}{when(step)}"
