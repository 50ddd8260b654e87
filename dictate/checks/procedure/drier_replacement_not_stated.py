"""The circuit was opened, and nothing said of the filter drier."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="drier.replacement-not-stated",
    checks="Whenever the circuit is opened a new liquid-line filter drier goes in.",
    applies="the circuit was opened for other work and put together again",
    source="compressor and cabinet service manuals: new filter drier at every opening of the circuit",
    tag="published",
    question="Was the filter drier replaced, and by which one?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.closed_up or job.new_circuit:
            continue
        if driers := [h.thing for h in job.handled_of("drier") if h.action != "removed"]:
            yield ok(f"The filter drier was replaced{when(driers[0])}.", *driers, equipment=job.machine)
        else:
            yield step_gap(job, ["filter_drier_replaced"], "replacement of the filter drier", job.openings)
