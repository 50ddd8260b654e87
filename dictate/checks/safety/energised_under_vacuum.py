"""A hermetic compressor was started between evacuation and charge."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, rule, unsure
from dictate.checks.words import said_after, when
from dictate.checks.work import jobs, shows_running


@rule(
    id="power.energised-under-vacuum",
    checks="A hermetic compressor is not energised while its circuit is under vacuum.",
    applies="the system was evacuated and then charged, and a start of the compressor was told",
    source="EPA section 608 technician examination topics, dehydration: never energise under vacuum",
    tag="published",
    question="Was the compressor started before refrigerant was in the circuit, or is the order of "
    "telling another?",
    caution="An arc at the terminals under vacuum destroys the windings.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        pulled, charged = job.steps("evacuated"), job.charged
        if not pulled or not charged:
            continue
        for event in job.events():
            if event.component != "compressor" or not shows_running(event):
                continue
            after = all(said_after(event, s) for s in pulled)
            before = all(said_after(c, event) for c in charged)
            if after and before:
                yield unsure(
                    f"The compressor is told as “{event.event}”{when(event)} after the evacuation and "
                    f"before the "
                    "charge.",
                    event, *pulled[:1], *charged[:1], equipment=job.machine,
                )  # fmt: skip
