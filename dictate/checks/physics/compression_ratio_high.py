"""A compression ratio too high for one stage."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure

LIMIT = 10.0
LOW = 1.6


@rule(
    id="compression.ratio-unusual",
    checks="Head over suction, both absolute, is about 2 to 10 on a single-stage compressor.",
    applies="suction and head pressure of one machine were measured while it ran",
    source="Compression ratio is head over suction in absolute pressures (definition); about 10:1 as the "
    "limit "
    "of a single stage is common practice",
    tag="common practice",
    question="Is the condenser clean, is the suction low for a reason, and how hot is the discharge line?",
    caution="A high ratio means a hot discharge, which breaks down the oil.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        for low, high in moment.with_nearest(moment.pressures("suction"), moment.pressures("discharge")):
            suction, discharge = absolute_psi(low), absolute_psi(high)
            if suction is None or discharge is None or suction <= 0.5 or discharge <= suction:
                continue
            ratio = discharge / suction
            computed = {"compression ratio": (ratio, "")}
            text = f"Compression ratio {ratio:.2f} ({cite(high)} over {cite(low)}, absolute at sea level)"
            if ratio > LIMIT:
                yield unsure(f"{text}: high for a single stage.", low, high, computed=computed)
            elif ratio < LOW:
                yield unsure(
                    f"{text}: low.",
                    low,
                    high,
                    computed=computed,
                    question="Do the valves of the compressor hold, or is a bypass open?",
                )
            else:
                yield ok(f"{text}.", low, high, computed=computed)
