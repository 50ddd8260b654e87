"""Suction above discharge while the machine ran."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="pressure.sides-reversed",
    checks="The head pressure is above the suction pressure.",
    applies="suction and head pressure of one machine were measured",
    source="A compressor raises pressure: definition of the compression ratio (ASHRAE terminology); equal "
    "pressures are those of a machine at rest, or of a compressor that does not pump",
    tag="published",
    question="Was it running, and were the two gauges named the right way round?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        for low, high in moment.with_nearest(moment.pressures("suction"), moment.pressures("discharge")):
            suction, discharge = absolute_psi(low), absolute_psi(high)
            if suction is None or discharge is None:
                continue
            computed = {"head less suction": (discharge - suction, "psi")}
            text = f"{cite(low)}, {cite(high)}"
            if discharge < suction - 1:
                yield unsure(f"{text}: suction lies above head.", low, high, computed=computed)
            elif discharge < suction * 1.1 + 2:
                yield unsure(
                    f"{text}: nearly the same.",
                    low,
                    high,
                    computed=computed,
                    question="Was it running? If it was, does the compressor pump?",
                )
            else:
                yield ok(f"{text}.", low, high, computed=computed)
