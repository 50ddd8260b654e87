"""More leaked in a year than 125 % of the full charge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, number_in, show
from dictate.checks.law._leak_rate import leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule
from dictate.vocabulary.load import table


@rule(
    id="leak-rate.chronic",
    checks="An appliance that leaks 125 % of its full charge in a calendar year is to be reported by "
    "its owner.",
    applies="the visit is in the USA, refrigerant was added to an appliance in scope, and earlier "
    "additions were said",
    source="40 CFR 82.157(j) and 84.106(j): report to EPA by 1 March of the next year",
    tag="published",
    question="Which additions were made in this calendar year?",
    caution=RULES_ABOVE,
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    limit = float(table("law_us")["chronic"]["value"])
    for item in leak_rates(facts):
        earlier = [r for r in item.job.seen("mass", role="earlier") if r.value is not None]
        if not item.scope or not item.full_lb or not earlier:
            continue
        added = item.added_lb + sum(number_in(r.value or 0.0, r.unit, "lb") for r in earlier)
        share = 100 * added / item.full_lb
        computed = {"added": (added, "lb"), "share": (share, "%")}
        text = f"{show(added, 'lb')} added with the earlier ones said, {share:.0f}% of the full charge"
        if share >= limit:
            yield problem(
                f"{text}: {limit:g}% or more in one calendar year is reported to EPA by the owner.",
                *item.things, *earlier, computed=computed, equipment=item.job.machine,
            )  # fmt: skip
        else:
            yield ok(f"{text}.", *item.things, *earlier, computed=computed, equipment=item.job.machine)
