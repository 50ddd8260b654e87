"""High superheat with low subcooling."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._picture import ask, pictures
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule

QUESTION = "Was a leak looked for, and what does the charge weigh against the plate?"


@rule(
    id="pattern.low-charge",
    checks="High superheat with low subcooling is asked about before refrigerant is added.",
    applies="superheat and subcooling were said or can be worked out",
    source="Vocational HVACR textbooks, chapter on troubleshooting: patterns of superheat, subcooling and "
    "temperature differences; which of several causes it is, only a further test tells",
    tag="common practice",
    question=QUESTION,
)
def check(facts: Facts) -> Iterator[Finding]:
    everything = list(pictures(facts))
    for p in everything:
        if p.superheat is not None and p.subcooling is not None:
            fits = p.superheat > 20 and p.subcooling < 5
            yield ask(p, everything, fits, "too little refrigerant", QUESTION)
