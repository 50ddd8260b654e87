"""Refrigerant was said to be let out into the air."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="refrigerant.vented",
    checks="No refrigerant is knowingly let out, except those exempt in the named uses.",
    applies="the visit is in the USA and refrigerant was said to be let out",
    source="40 CFR 82.154(a)(1)-(3), prohibition on venting and its exemptions",
    tag="published",
    question="Was refrigerant let out, or recovered; or was it nitrogen?",
    caution=f"{RULES_ABOVE} Exempt refrigerants may still burn.",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for job in jobs(facts)[:1]:
        for said in job.phrases("vented")[:1]:
            known = data(job.refrigerant)
            text = f"“{said.heard}” was said{when(said)}"
            if known is not None and known.exempt_from_venting_rule:
                yield ok(f"{text}; {known.name} is exempt from the federal venting rule in named uses.", said)
            else:
                yield problem(f"{text}; knowingly releasing refrigerant is prohibited.", said)
