"""High superheat with a full liquid line."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._picture import ask, pictures
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule

QUESTION = "What is the temperature drop across the drier, the strainer and the metering device?"


@rule(
    id="pattern.restriction",
    checks="High superheat with normal or high subcooling is asked about as a restriction.",
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
            fits = p.superheat > 20 and p.subcooling >= 8
            yield ask(p, everything, fits, "a restriction in the liquid line or a starved valve", QUESTION)
