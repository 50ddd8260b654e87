"""A leak inspection of an appliance in scope without method, place or the statement on all parts."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.law._leak_rate import leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, missing, not_applicable, ok, rule
from dictate.checks.words import listing

WANTED = {
    "the method": "leak_method",
    "where the leak is, or that none was found": "leak_place",
    "that all visible and accessible parts were inspected": "all_parts",
}


@rule(
    id="leak.inspection-record-incomplete",
    checks="A leak inspection names method, place of each leak, and that all visible and accessible "
    "parts were "
    "covered.",
    applies="the visit is in the USA, a leak check was made and refrigerant added to an appliance in scope",
    source="40 CFR 82.157(g), (l)(3) and 84.106(g), (l)(5); a standing pressure alone is no leak "
    "inspection (82.152)",
    tag="published",
    question="By which method was it inspected, where were the leaks, and were all visible and "
    "accessible parts covered?",
    caution=RULES_ABOVE,
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in leak_rates(facts):
        checked = item.job.stated("leak_checked")
        if not item.scope or not checked:
            continue
        lacking = [name for name, phrase in WANTED.items() if not item.job.phrases(phrase)]
        if lacking:
            yield missing(
                f"Of the leak inspection was not stated: {listing(lacking)}.",
                *checked,
                equipment=item.job.machine,
            )
        else:
            yield ok("The leak inspection has its statements.", *checked, equipment=item.job.machine)
