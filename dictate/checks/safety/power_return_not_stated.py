"""Power was isolated, and nothing tells whether it came back."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="power.return-not-stated",
    checks="When power was isolated, the record tells whether the machine was left on or off.",
    applies="power was said to be isolated",
    source="29 CFR 1910.147(e), release from lockout; a service record tells the state the machine was "
    "left in",
    tag="common practice",
    question="Was the power restored, or was the machine left off and locked out?",
    caution="Before power returns: tools out, covers on, everybody clear, and those affected told.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        isolated = job.steps("power_isolated")
        if not isolated:
            continue
        back = [*job.stated("power_restored", status=None), *job.stated("run_checked"), *job.ran]
        back = back or [*job.left_readings, *job.phrases("left_off"), *job.phrases("plugged_in")]
        if back:
            yield ok(f"The state it was left in is told{when(back[0])}.", *back[:1], equipment=job.machine)
        else:
            yield missing(
                f"Power was isolated{when(isolated[0])}; that it was restored, or that the machine was "
                f"left off, "
                "was not stated.",
                isolated[0], equipment=job.machine,
            )  # fmt: skip
