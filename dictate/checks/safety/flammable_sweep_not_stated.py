"""A hydrocarbon circuit was opened with a flame or joined hot, without sweeping it with inert gas."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, rule
from dictate.checks.work import jobs


@rule(
    id="flammable.sweep-not-stated",
    checks="A circuit with a class A3 refrigerant was swept with inert gas before it was opened.",
    applies="a circuit with a class A3 refrigerant was opened (for A2L the sweep is optional)",
    source="IEC 60335-2-89, annex DD: remove, evacuate, purge with inert gas, evacuate, then open",
    tag="published",
    question="After the charge was removed, was the circuit evacuated and swept with nitrogen before it "
    "was opened?",
    caution="Never sweep with air or oxygen. Where a flame opens the circuit, inert gas has to flow all "
    "the time; "
    "cutting with a tube cutter is preferred.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is not None and known.highly_flammable and job.opened:
            yield step_gap(job, ["nitrogen_swept", "nitrogen_purged"], "a sweep with inert gas", job.openings)
