"""Power came back, and hands went in again without a word of isolating anew."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, rule, unsure
from dictate.checks.words import said_after, when
from dictate.checks.work import jobs


@rule(
    id="power.reisolation-not-stated",
    checks="Work that is told after power was restored says that power was isolated again.",
    applies="power was said to be restored and wired parts are worked on later in the narration",
    source="29 CFR 1910.147(d)(5)(ii) and 1910.333(b)(2), re-verification until work ends",
    tag="common practice",
    question="Was the power isolated and tested dead again for that work, or was it done before?",
    caution="Each return of power ends the isolation: isolate and prove dead anew before hands go in.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        restored = job.steps("power_restored")
        isolated = job.stated("power_isolated")
        for step in restored:
            later = [t for t in job.hands_in if said_after(t, step)]
            again = [i for i in isolated if said_after(i, step)]
            if later and not again:
                yield unsure(
                    f"Power was restored{when(step)}, and work is told after it ({because(later)}) "
                    f"without "
                    "a word of isolating again. The order of telling may not be the order of work.",
                    step, *later, equipment=job.machine,
                )  # fmt: skip
                break
