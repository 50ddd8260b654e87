"""Both paths through common are open while run-start reads: the overload, and no failed winding."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import came_back, triples
from dictate.checks.facts import Facts, cite
from dictate.checks.rule import Finding, ok, problem, rule, unsure


@rule(
    id="winding.overload-open",
    checks="Common-run and common-start are not both open while run-start reads.",
    applies="all three pairs of a single-phase motor were measured",
    source="Hermetic compressor service literature: an internal line-break overload opens the common leg, "
    "and "
    "the shell has to cool below about 120 °F before it is judged",
    tag="published",
    question="How hot was the shell, and what do the three pairs read after it has cooled?",
    caution="Cooling can take from minutes to several hours. Leads off, power locked out and proved dead.",
)
def check(facts: Facts) -> Iterator[Finding]:
    sets = triples(facts)
    for set_ in sets:
        if not set_.complete:
            continue
        used = set_.readings
        said = ", ".join(cite(r) for r in used)
        again = came_back(facts, sets, set_)
        if not set_.overload_pattern:
            yield ok(f"The common leg of the {set_.component} is not open alone: {said}.", *used)
        elif again is not None:
            yield unsure(
                f"The overload of the {set_.component} was open ({said}) and has closed again. That is a "
                "symptom: the motor got hot.",
                *used,
                *again.readings,
                question="What made the motor overheat: charge, airflow, voltage, start parts or short "
                "cycling?",
            )
        else:
            yield problem(
                f"The common leg of the {set_.component} is open while both windings read through "
                f"({said}): the "
                "internal overload or its lead, not a failed winding.",
                *used,
                resolved=False,
            )
