"""A vacuum that rose after the pump was shut off: leak, moisture, or settling."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule, unsure
from dictate.checks.vacuum import WATER_AT_ROOM, Attempt, attempts, classify, failed, hold_limits, numbers
from dictate.checks.words import when
from dictate.checks.work import Job, jobs

LEAK = "It keeps climbing at a steady rate, as a leak does"
WET = (
    "It climbed and levelled off, as moisture or refrigerant leaving the oil does; not the pattern of a leak"
)
SETTLE_SHARE = 0.2
"""A rise up to this share of the first value is a small one (gauges read to a tenth; common practice)."""
OPEN = "Whether it is a leak or moisture cannot be told from these points"


@rule(
    id="evacuation.hold-failed",
    checks="The isolated vacuum stays under 500 micron (1 000 at most), and a rise is read by its shape.",
    applies="the vacuum was read again after the pump was valved off, or a result was said",
    source="UFGS refrigerant piping (legacy 15182) (rise above 500 micron fails); training texts on "
    "reading a decay test; 1 000 "
    "micron is "
    "common practice",
    tag="published",
    question="What did the gauge show every five minutes after the pump was valved off?",
    caution="A steady climb means a leak: find it under nitrogen, not under vacuum. A levelled one "
    "means more pumping.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        pulled = attempts(job)
        held = [a for a in pulled if a.end is not None or a.said is not None]
        if not held:
            continue
        last = pulled[-1]
        earlier = [a for a in pulled[:-1] if failed(job, a)]
        before = "".join(f" Attempt {a.number} before it failed ({numbers(a)})." for a in earlier)
        if last is held[-1]:
            yield _judge(job, last, earlier, before)
        elif job.stated("vacuum_held"):
            last.said = "held"
            yield _judge(job, last, earlier, before)
        else:
            # The last attempt counts, and its hold is asked for elsewhere; the failed one stays visible.
            yield not_applicable(
                f"No hold of the last attempt was stated ({numbers(last)}).{before}", *last.things,
                equipment=job.machine,
            )  # fmt: skip


def _only_settled(attempt: Attempt) -> bool:
    """Tell whether a hold rose by so little that its gauge and hoses explain it: 450 to 525 micron."""
    return (attempt.rise or 0.0) <= SETTLE_SHARE * attempt.points[0][1]


def _judge(job: Job, attempt: Attempt, earlier: list[Attempt], before: str) -> Finding:
    low, high = hold_limits(job)
    things = [*attempt.things, *(t for a in earlier for t in a.things)]
    said = f"Vacuum hold: {numbers(attempt)}{when(attempt.things[0])}"
    if attempt.end is None:
        if attempt.said == "failed":
            return problem(f"{said}. It was said to have failed.{before}", *things, equipment=job.machine)
        return ok(
            f"{said}. It was said to have held; no end value was stated.{before}",
            *things,
            equipment=job.machine,
        )
    computed = {"end": (attempt.end, "micron"), "rise": (attempt.rise or 0.0, "micron")}
    if attempt.minutes:
        computed["rate"] = ((attempt.rise or 0.0) / attempt.minutes, "micron/min")
    shape = classify(attempt.points)
    if shape == "levelled" and attempt.end > WATER_AT_ROOM:
        shape = "rising"  # higher than water can stand on a warm day
    pattern = {"leak": LEAK, "levelled": WET, "rising": OPEN, "flat": "It hardly rose"}[shape]
    if attempt.end > high or (attempt.end > low and shape == "leak") or attempt.said == "failed":
        return problem(f"{said}. {pattern}.{before}", *things, computed=computed, equipment=job.machine)
    if attempt.end > low and _only_settled(attempt):
        return ok(
            f"{said}. A small rise, as of a gauge and hoses that settle; what is allowed above "
            f"{show(low, 'micron')} depends on the oil and the maker.{before}",
            *things, computed=computed, equipment=job.machine,
        )  # fmt: skip
    if attempt.end > low:
        return unsure(
            f"{said}. {pattern}. Up to {show(low, 'micron')} it held; up to {show(high, 'micron')} it "
            f"depends on the "
            f"oil and the maker.{before}",
            *things, computed=computed, equipment=job.machine,
        )  # fmt: skip
    if shape == "leak":
        return unsure(
            f"{said}. Still under {show(low, 'micron')}, and climbing at a steady rate; a longer hold "
            f"would tell.{before}",
            *things, computed=computed, equipment=job.machine,
        )  # fmt: skip
    return ok(f"{said}. It settled.{before}", *things, computed=computed, equipment=job.machine)
