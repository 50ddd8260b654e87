"""A pressure lower than a perfect vacuum."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite
from dictate.checks.rule import Finding, ok, problem, rule


@rule(
    id="pressure.below-vacuum",
    checks="No pressure is lower than a perfect vacuum.",
    applies="a pressure or a vacuum was measured",
    source="Definition: absolute pressure is gauge pressure plus the atmosphere (101 325 Pa, CGPM 1954), "
    "and is never negative",
    tag="published",
    question="Was that heard right, and which unit was it?",
    caution="Sea level is assumed. Higher up the true limit is nearer zero; this one flags nothing true.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("pressure", "vacuum"):
        psia = absolute_psi(reading)
        if psia is None or reading.relation in ("<", "<="):
            continue
        computed = {"absolute pressure": (psia, "psi")}
        # Thirty inches is how a full vacuum is commonly rounded; the gauge's own error covers that much.
        if psia < -0.1:
            yield problem(f"{cite(reading)} is below a perfect vacuum.", reading, computed=computed)
        else:
            yield ok(f"{cite(reading)} is a possible pressure.", reading, computed=computed)
