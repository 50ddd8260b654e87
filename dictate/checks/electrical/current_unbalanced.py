"""Three line currents that differ."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import LEGS
from dictate.checks.electrical.voltage_unbalanced import unbalance
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, rule, unsure

LIMIT = 10.0


@rule(
    id="current.unbalanced",
    checks="The three line currents of a motor lie within 10 % of their mean.",
    applies="the current in each of the three legs of one motor was measured",
    source="Trade rule: look into 10 % or more, worked out as NEMA MG 1-2016, 12.45 works out voltages; a "
    "small "
    "voltage unbalance makes several times as much in the currents",
    tag="common practice",
    question="With all three leads rotated one step: does the high leg stay with the supply or move along?",
    caution="Live work: qualified persons only.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine(facts.readings("current", point=LEGS)).values():
        for name in dict.fromkeys(r.component for r in group):
            for moment in facts.same_moment([r for r in group if r.component == name]):
                legs = {r.point: r for r in moment if exact(r)}
                if len(legs) < 3 or min(value_in(r, "A") for r in legs.values()) <= 0:
                    continue
                used = [legs[p] for p in LEGS]
                percent = unbalance([value_in(r, "A") for r in used])
                computed = {"unbalance": (percent, "%")}
                text = f"{name or 'motor'}: currents differ by {percent:.1f} % of their mean"
                text += f" ({', '.join(cite(r) for r in used)})"
                if percent >= LIMIT:
                    yield unsure(f"{text}, which the trade looks into.", *used, computed=computed)
                else:
                    yield ok(f"{text}.", *used, computed=computed)
