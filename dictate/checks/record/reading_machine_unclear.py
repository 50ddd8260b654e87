"""A reading that could be of any of several machines."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite_full
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="reading.machine-unclear",
    checks="With several machines in one visit, every reading belongs to one of them.",
    applies="readings were taken in a visit with several machines",
    source="40 CFR 82.157(l)(2) and 84.106(l)(2) ask for the identity of the appliance that was worked on; a "
    "reading without a machine serves no record",
    tag="common practice",
    question="Which machine were these read on?",
)
def check(facts: Facts) -> Iterator[Finding]:
    if len(facts.record.equipment) < 2:
        return
    loose = [r for r in facts.readings() if r.equipment is None]
    placed = [r for r in facts.readings() if r.equipment is not None]
    if loose:
        names = ", ".join(e.name or e.type or e.model or e.id for e in facts.record.equipment)
        said = ", ".join(cite_full(r) for r in loose[:6]) + (" and more" if len(loose) > 6 else "")
        yield unsure(f"It was not said which machine these are of ({names}): {said}.", *loose)
    elif placed:
        yield ok("Every reading belongs to one of the machines.")
