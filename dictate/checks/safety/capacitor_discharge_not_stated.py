"""A capacitor was handled, and nothing said of discharging it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, rule
from dictate.checks.work import jobs


@rule(
    id="capacitor.discharge-not-stated",
    checks="A capacitor that was measured loose, changed or handled was discharged first.",
    applies="a capacitor was handled or its capacitance measured",
    source="29 CFR 1910.333(b)(2)(ii)(C), stored electric energy; NEC 460.6",
    tag="published",
    question="How was the capacitor discharged, and did the meter show near zero on DC?",
    caution="A capacitor can hold its charge for days. It is bled through a resistor and proven near zero; a "
    "screwdriver across the terminals can destroy it and injure.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if job.capacitor_work:
            yield step_gap(job, ["capacitor_discharged"], "discharge of the capacitor", job.capacitor_work)
