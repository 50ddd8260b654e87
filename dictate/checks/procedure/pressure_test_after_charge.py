"""A nitrogen test told after the charge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import said_after, when
from dictate.checks.work import jobs


@rule(
    id="pressure-test.after-charge",
    checks="The nitrogen test comes before the evacuation and the charge.",
    applies="a pressure test and a charge were said, and their order can be told",
    source="40 CFR 82.157(e)(1) and 84.106(e)(1) (initial test before refrigerant goes back); EPA "
    "examination topics "
    "(nitrogen on a charged system)",
    tag="common practice",
    question="Was the pressure test made before the refrigerant went in, and only told later?",
    caution="Nitrogen put onto a charge mixes with it, and letting it out lets refrigerant out.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        tested, charged = job.steps("pressure_tested"), job.steps("charged")
        orders = [said_after(t, c) for t in tested for c in charged]
        if not orders or any(o is None for o in orders):
            continue
        if all(orders):
            yield unsure(
                f"The pressure test{when(tested[0])} is told after the charge{when(charged[0])}.",
                *tested, *charged, equipment=job.machine,
            )  # fmt: skip
        else:
            yield ok("The pressure test is told before the charge.", *tested, *charged, equipment=job.machine)
