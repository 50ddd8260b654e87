"""What the technician must hand the owner is not complete."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.completeness.refrigerant_log import handed_to_owner
from dictate.checks.facts import Facts
from dictate.checks.law._leak_rate import leak_rates
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, missing, not_applicable, ok, rule
from dictate.checks.words import listing


@rule(
    id="log.owner-record-incomplete",
    checks="For an appliance in scope the owner gets: unit and place, date, parts and work, name, "
    "amount and type.",
    applies="the visit is in the USA and refrigerant was added to an appliance in scope of a leak rule",
    source="40 CFR 82.157(l)(2)(i)-(vi) and 84.106(l)(2), (l)(4): handed over at the end of the service",
    tag="published",
    question="Which unit and place, which date, and who did the work?",
    caution=f"Full charge and leak rate are the owner's entries. {RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in leak_rates(facts):
        if not item.scope:
            continue
        fields = handed_to_owner(facts, item.job)
        lacking = [f.name for f in fields if not f.present]
        if lacking:
            yield missing(
                f"Of what the owner is handed ({item.scope.why}) was not stated: {listing(lacking)}.",
                *item.things, equipment=item.job.machine,
            )  # fmt: skip
        else:
            yield ok("The owner's record has its fields.", *item.things, equipment=item.job.machine)
