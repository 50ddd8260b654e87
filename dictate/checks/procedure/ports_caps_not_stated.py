"""Gauges were on, and nothing said of the caps."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="ports.caps-not-stated",
    checks="After charging the caps are back on the service ports, or the process tube is sealed.",
    applies="refrigerant was charged",
    source="service practice: the cap is the seal of a service port",
    tag="common practice",
    question="Were the caps put back on the service ports and tightened?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = job.charged or job.charge_implied
        if not called_by:
            continue
        if not job.stated("ports_capped", status=None) and (sealed := job.phrases("process_tube")):
            yield ok(f"The process tube was sealed{when(sealed[0])}.", sealed[0], equipment=job.machine)
        else:
            yield step_gap(job, ["ports_capped"], "capping of the service ports", called_by)
