"""Hours that do not follow from start and end."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, ok, problem, rule, unsure

ALLOWED = 0.26


@rule(
    id="labour.times-mismatch",
    checks="The hours that were said fit the start and the end that were said.",
    applies="start, end and hours of the work were said",
    source="Arithmetic: end less start, less breaks",
    tag="published",
    question="Which is right: start, end or hours, and was there a break?",
)
def check(facts: Facts) -> Iterator[Finding]:
    labour = facts.record.labour
    if labour is None or not labour.start or not labour.end:
        return
    try:
        start, end = (int(h) + int(m) / 60 for h, m in (t.split(":")[:2] for t in (labour.start, labour.end)))
    except ValueError:
        return
    worked = end - start + (24 if end < start else 0)
    computed = {"between start and end": (worked, "h")}
    text = f"From {labour.start} to {labour.end} is {worked:.2f} h"
    if worked > 16:
        yield problem(f"{text}: morning and afternoon may be exchanged.", computed=computed)
    elif labour.hours is not None:
        other = (labour.travel_hours or 0) + (labour.break_hours or 0)
        if -ALLOWED <= worked - labour.hours <= other + ALLOWED:
            yield ok(f"{text}; {labour.hours:g} h was said.", computed=computed)
        else:
            yield unsure(f"{text}; {labour.hours:g} h was said.", computed=computed)
