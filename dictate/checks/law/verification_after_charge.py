"""Over the trigger rate, the initial verification test is told after the charge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.law._leak_rate import leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies, over
from dictate.checks.rule import Finding, not_applicable, ok, rule, unsure
from dictate.checks.words import Said, said_after, when


@rule(
    id="leak.verification-after-charge",
    checks="After a repair of a leak over the trigger rate the initial test comes before refrigerant "
    "goes back.",
    applies="the visit is in the USA, the leak rate is over its trigger, and a test and a charge were "
    "told in order",
    source="40 CFR 82.157(e)(1) and 84.106(e)(1): initial verification before any addition; follow-up "
    "within 10 days",
    tag="published",
    question="Was the initial verification test made before the charge, and when is the follow-up test?",
    caution=f"The follow-up is due 10 days after the initial test, or after normal operation. {RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in leak_rates(facts):
        limit = item.limit if item.limit is not None else 20.0
        if not item.scope or item.least is None or not over(item.rate or item.least, limit):
            continue
        tests: list[Said] = [*item.job.steps("pressure_tested"), *item.job.steps("leak_checked")]
        charges: list[Said] = [*item.job.steps("charged")] or [*item.job.movements("charged")]
        orders = [said_after(t, c) for t in tests for c in charges]
        if not orders or any(o is None for o in orders):
            continue
        if all(orders):
            yield unsure(
                f"The only tests for tightness are told after the charge{when(charges[0])}.",
                *tests, *charges, equipment=item.job.machine,
            )  # fmt: skip
        else:
            yield ok(
                "A test for tightness is told before the charge.", *tests[:1], equipment=item.job.machine
            )
