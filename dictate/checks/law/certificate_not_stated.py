"""Work that needs a certified technician, and no certificate in the record."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, missing, not_applicable, ok, rule
from dictate.checks.words import Said
from dictate.checks.work import jobs


@rule(
    id="certificate.not-stated",
    checks="Refrigerant work in the USA names the technician's certification.",
    applies="the visit is in the USA and refrigerant that is not exempt was handled",
    source="40 CFR 82.152 (technician) and 82.161 (certification); naming it on the record is practice, "
    "not law",
    tag="common practice",
    question="Who did the refrigerant work, with which section 608 certification?",
    caution=f"An apprentice works under close and continual supervision: name both. {RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    work: list[Said] = []
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is None or not known.exempt_from_venting_rule:
            work += [*job.openings, *job.recovered, *job.charged]
    if not work:
        return
    if facts.record.visit.certificate:
        yield ok(f"Certificate: {facts.record.visit.certificate}.", *work[:1])
    else:
        yield missing(f"A certification was not stated ({because(work)}).", *work[:3])
