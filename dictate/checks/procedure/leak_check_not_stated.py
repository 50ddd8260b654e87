"""A joint was made or refrigerant added, and no leak check was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, rule
from dictate.checks.work import jobs


@rule(
    id="leak-check.not-stated",
    checks="After every opened joint, and whenever refrigerant is added, a leak check is made.",
    applies="the circuit was opened and put together again, or refrigerant was added",
    source="EPA section 608 examination topics, leak detection; UFGS 23 23 00 (every joint)",
    tag="published",
    question="What was checked for leaks, by which method, and what was found?",
    caution="No flame for a leak search on flammable refrigerants.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = [*(job.openings if job.closed_up else []), *job.charged]
        if called_by:
            yield step_gap(job, ["leak_checked"], "a leak check", called_by)
