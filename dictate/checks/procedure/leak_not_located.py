"""Refrigerant was added, a leak check detected nothing, and where it went stays open."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="leak.not-located",
    checks="Refrigerant that was added went somewhere: the leak is located, or the record says it was "
    "not detected.",
    applies="refrigerant was added to a charged circuit and a leak check was made",
    source="refrigerant is not used up; EPA section 608 examination topics, leak detection",
    tag="common practice",
    question="Nothing detected is not the same as no leak: was it wrongly charged before, and when is "
    "it looked at again?",
    caution="A leak that is not found now may be found under nitrogen, or with the machine off.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        checked = job.stated("leak_checked")
        if not job.top_up or not checked:
            continue
        # A place names where it leaks; "no leaks at the joints" names where it does not.
        none = job.phrases("not_detected")
        found = job.phrases("leak_found")
        if found:
            yield ok(
                f"The leak is located: “{found[0].heard}”{when(found[0])}.", found[0], equipment=job.machine
            )
        elif none:
            yield unsure(
                f"Refrigerant was added{when(job.charged[0])}; the leak check detected "
                f"nothing{when(none[0])}, so "
                "where it went is not known.",
                *job.charged[:1], *checked[:1], none[0], equipment=job.machine,
            )  # fmt: skip
