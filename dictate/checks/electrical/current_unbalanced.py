"""Three line currents that differ."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._legs import LEGS, in_threes
from dictate.checks.electrical.voltage_unbalanced import unbalance
from dictate.checks.facts import Facts, cite, value_in
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
    for used in in_threes(facts, "current", LEGS, unnamed=True):
        values = [value_in(r, "A") for r in used]
        if min(values) <= 0:
            continue
        percent = unbalance(values)
        computed = {"unbalance": (percent, "%")}
        text = f"{used[0].component or 'motor'}: currents differ by {percent:.1f} % of their mean"
        text += f" ({', '.join(cite(r) for r in used)})"
        if percent < LIMIT:
            yield ok(f"{text}.", *used, computed=computed)
            continue
        later = [
            s
            for s in in_threes(facts, "current", LEGS, unnamed=True)
            if s[0].equipment == used[0].equipment
            and facts.place(s[0]) > facts.place(used[0])
            and unbalance([value_in(r, "A") for r in s]) < LIMIT
        ]
        if later and used[0].stage != "as_left":
            text += f". Measured again: {', '.join(cite(r) for r in later[-1])}."
            yield ok(text, *used, *later[-1], computed=computed)
        else:
            yield unsure(f"{text}, which the trade looks into.", *used, computed=computed)
