"""A large condenser split without much subcooling."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._picture import ask, pictures
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule

QUESTION = "Is the condenser clean through, do its fans turn the right way, and does hot air come back to it?"


@rule(
    id="pattern.dirty-condenser",
    checks="A large condenser split without high subcooling is asked about as condenser airflow.",
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
            fits = p.split > 32 and p.subcooling <= 15
            yield ask(p, everything, fits, "a dirty condenser or hot air coming back to it", QUESTION)
