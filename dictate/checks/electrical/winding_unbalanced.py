"""The three windings of a three-phase motor read differently."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._legs import in_threes
from dictate.checks.electrical._windings import PHASES, is_motor
from dictate.checks.electrical.voltage_unbalanced import unbalance
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

INVESTIGATE, LIMIT = 3.0, 5.0
METER = 0.1
"""Ohm: what leads and a hand-held meter add or take; below that a difference says nothing."""


@rule(
    id="winding.unbalanced",
    checks="The three windings of a three-phase motor lie within 5 % of their mean.",
    applies="all three pairs of a three-phase motor were measured with a number",
    source="Vocational HVACR textbooks: three equal readings; 3 to 5 % of the mean is a usual trade limit",
    tag="common practice",
    question="Do they read alike with the leads zeroed, all three within a minute of one another?",
    caution="Power off, locked out and proved dead; leads removed before measuring.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for used in in_threes(facts, "resistance", PHASES):
        name = used[0].component
        values = [value_in(r, "ohm") for r in used]
        if not is_motor(name) or min(values) <= 0:
            continue
        percent = unbalance(values)
        off = percent / 100 * sum(values) / 3
        computed = {"unbalance": (percent, "%")}
        text = f"The windings differ from their mean by {percent:.1f} %"
        text += f" ({', '.join(cite(r) for r in used)})"
        if percent <= INVESTIGATE or off <= METER:
            yield ok(f"{text}.", *used, computed=computed)
        elif percent <= LIMIT:
            yield unsure(f"{text}: at the edge of the usual limit.", *used, computed=computed)
        else:
            done = facts.replaced(name or "compressor", used[0].equipment)
            yield problem(f"{text}: over the usual 5 %.", *used, computed=computed, resolved=done)
