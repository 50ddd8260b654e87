"""A large condenser split with high subcooling."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._picture import ask, pictures
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule

QUESTION = "What does the charge weigh against the plate, and is there air in it at rest?"


@rule(
    id="pattern.overcharge",
    checks="A large condenser split with high subcooling is asked about as overcharge or air in the system.",
    applies="condenser split and subcooling were said or can be worked out",
    source="Vocational HVACR textbooks, chapter on troubleshooting: patterns of superheat, subcooling and "
    "temperature differences; which of several causes it is, only a further test tells",
    tag="common practice",
    question=QUESTION,
)
def check(facts: Facts) -> Iterator[Finding]:
    everything = list(pictures(facts))
    for p in everything:
        if p.split is not None and p.subcooling is not None:
            fits = p.split > 30 and p.subcooling > 18
            yield ask(p, everything, fits, "too much refrigerant or air in the system", QUESTION)
