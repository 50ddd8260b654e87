"""Low superheat with a cold coil."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._picture import ask, pictures
from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule

QUESTION = "Do all fans run, is the coil clear of ice and dirt, and is the valve's bulb tight?"


@rule(
    id="pattern.low-airflow",
    checks="Low superheat with a low saturated suction is asked about as airflow or load.",
    applies="superheat and saturated suction were said or can be worked out",
    source="Vocational HVACR textbooks, chapter on troubleshooting: patterns of superheat, subcooling and "
    "temperature differences; which of several causes it is, only a further test tells",
    tag="common practice",
    question=QUESTION,
)
def check(facts: Facts) -> Iterator[Finding]:
    everything = list(pictures(facts))
    for p in everything:
        if p.superheat is not None and p.evaporating is not None and p.difference is not None:
            fits = p.superheat < 4 and p.difference > 20
            yield ask(p, everything, fits, "low airflow or load, or of an overfeeding valve", QUESTION)
