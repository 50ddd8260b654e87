"""A supply voltage away from the plate."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import at_start, is_supply, ratings
from dictate.checks.facts import Facts, bounds, cite_full, show, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

SHARE = 0.10
ONE_PHASE_DUAL = 197.0
"""Volt: usual lower limit of a single-phase welded hermetic compressor rated 208/230 V."""


@rule(
    id="voltage.out-of-tolerance",
    checks="A supply voltage lies within 10 % of the rating on the plate.",
    applies="a supply voltage was measured and the rated voltage was said",
    source="NEMA MG 1-2016, 12.44.1: motors run within 10 % of rated voltage at rated frequency",
    tag="published",
    question="What is the voltage at the terminals while it runs, and what does the plate allow?",
    caution="Line voltage is measured live: by qualified persons only, under the employer's rules.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine([r for r in facts.readings("voltage") if is_supply(r)]).values():
        left = None
        found = []
        for reading in group:
            value = value_in(reading, "V")
            # A reading far from every rating is of another circuit (control, one leg, none at all).
            near = [v for v in ratings(facts, reading) if 0.65 * v <= value <= 1.6 * v]
            if not near:
                continue
            low, high = (1 - SHARE) * near[0], (1 + SHARE) * near[-1]
            least, greatest = bounds(reading, "V")
            inside = low - 0.05 <= least and greatest <= high + 0.05
            outside = greatest < low - 0.05 or least > high + 0.05
            plate = "/".join(f"{v:.0f}" for v in near)
            text = (
                f"{cite_full(reading)} against a plate of {plate} V ({show(low, 'V')} to {show(high, 'V')})"
            )
            nearest = min(near, key=lambda v: abs(v - value))
            computed = {
                "deviation": (100 * (value / nearest - 1), "%"),
                "least": (low, "V"),
                "greatest": (high, "V"),
            }
            if inside and reading.stage == "as_left":
                left = reading
            found.append((reading, inside, outside, text, computed, near))
        for reading, inside, outside, text, computed, near in found:
            value = value_in(reading, "V")
            if inside and 187 <= value < ONE_PHASE_DUAL and near[0] == 208 and near[-1] == 230:
                yield ok(
                    f"{text}. Below the {ONE_PHASE_DUAL:.0f} V that is usual for a single-phase compressor.",
                    reading,
                    computed=computed,
                )
            elif inside:
                yield ok(f"{text}.", reading, computed=computed)
            elif outside and reading.stage == "as_found" and left is not None:
                yield problem(
                    f"As found {text}: outside. As left it is within: {cite_full(left)}.",
                    reading,
                    left,
                    computed=computed,
                    resolved=True,
                )
            elif outside and at_start(facts, reading):
                yield unsure(
                    f"{text}: outside while it started.",
                    reading,
                    computed=computed,
                    question="What is the voltage at the terminals once it runs, and how long is the wire?",
                )
            elif outside:
                yield problem(f"{text}: outside.", reading, computed=computed)
            else:
                yield unsure(f"{text}: only a bound was said.", reading, computed=computed)
