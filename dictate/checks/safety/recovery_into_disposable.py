"""Recovery into a disposable cylinder."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, problem, rule
from dictate.checks.words import phrases, when


@rule(
    id="recovery.disposable-cylinder",
    checks="Refrigerant is never recovered into a disposable cylinder.",
    applies="a disposable cylinder was named with the recovery",
    source="49 CFR 178.65 (marking of DOT-39 cylinders: refilling forbidden)",
    tag="published",
    question="Which cylinder did the recovered refrigerant go into?",
    caution="A disposable cylinder is not built to be filled again and can burst.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for said in phrases(facts.record, "disposable_cylinder"):
        yield problem(f"“{said.heard}” was said{when(said)}.", said)
