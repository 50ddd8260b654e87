"""Refrigerant was added, and the leak rate cannot be worked out from what was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.law._leak_rate import leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies, over
from dictate.checks.rule import Finding, not_applicable, ok, rule, unsure
from dictate.checks.words import listing, type_is, when


@rule(
    id="leak-rate.not-computable",
    checks="For an appliance that may be in scope the full charge and the time since the last addition "
    "are known.",
    applies="the visit is in the USA and refrigerant was added to replace what leaked",
    source="40 CFR 82.152 and 84.102 (leak rate), 82.157(b) and 84.106(b) (at every addition)",
    tag="published",
    question="What is the full charge of the circuit and its basis, and when was refrigerant added before?",
    caution="The full charge and the leak rate are the owner's entries, not a fault of the technician's "
    "slip. "
    f"{RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in leak_rates(facts):
        if not item.scope and item.scope.certain:
            yield not_applicable(
                f"No federal leak rate is asked for: {item.scope.why}.", equipment=item.job.machine
            )
            continue
        if item.full_lb is None and type_is(item.job.equipment, "small_appliance"):
            continue
        lacking = []
        if item.full_lb is None:
            lacking.append("the full charge")
        if not (item.job.refrigerant or item.job.any_refrigerant):
            lacking.append("the refrigerant")
        decided = item.least is not None and over(item.least, item.limit if item.limit is not None else 20.0)
        if item.days is None and not decided:
            lacking.append("when refrigerant was added before")
        if lacking:
            yield unsure(
                f"Refrigerant was added{when(item.things[0])}; the leak rate cannot be worked out, because "
                f"{listing(lacking)} was not stated. The owner may hold it.",
                *item.things, equipment=item.job.machine,
            )  # fmt: skip
        else:
            yield ok("The leak rate can be worked out.", *item.things, equipment=item.job.machine)
