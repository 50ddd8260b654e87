"""One phase of three is missing."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._legs import LEGS, LINES, in_threes
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.record.visit import Reading


@rule(
    id="supply.single-phasing",
    checks="All three phases are present at a three-phase motor.",
    applies="three line voltages or the currents of three legs were measured",
    source="NEMA MG 1-2016, 12.45 (a lost phase is the limit of unbalance); the voltage of the lost phase is "
    "missing or fed back through the motor, its current is nil",
    tag="published",
    question="Which fuse, breaker pole, contact or lead of that leg is open?",
    caution="Switch off at once: a motor on two phases overheats. Isolate and prove dead before a fuse is "
    "drawn.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for used in in_threes(facts, "voltage", LINES):
        values = [value_in(r, "V") for r in used]
        said = ", ".join(cite(r) for r in used)
        if max(values) < 60:
            continue  # nothing anywhere: switched off
        computed = {"highest": (max(values), "V"), "lowest": (min(values), "V")}
        if min(values) < 0.75 * max(values):
            done = _seen_later(facts, "voltage", used)
            yield problem(f"A phase is missing: {said}.", *used, computed=computed, resolved=done)
        else:
            yield ok(f"All three phases are there: {said}.", *used, computed=computed)
    for used in in_threes(facts, "current", LEGS):
        if "heater" in (used[0].component or ""):
            continue  # a dead leg of a heater is an open element
        values = [value_in(r, "A") for r in used]
        if max(values) > 0 and min(values) <= 0.05 * max(values):
            computed = {"highest": (max(values), "A"), "lowest": (min(values), "A")}
            name = used[0].component or "motor"
            yield problem(
                f"{name}: one leg carries no current: {', '.join(cite(r) for r in used)}.",
                *used,
                computed=computed,
                resolved=_seen_later(facts, "current", used),
            )


def _seen_later(facts: Facts, quantity: str, used: list[Reading]) -> bool:
    """True when a later set of the same machine has all three legs."""
    for other in in_threes(facts, quantity, LINES if quantity == "voltage" else LEGS, unnamed=True):
        values = [r.value or 0.0 for r in other]
        after = facts.place(other[0]) > facts.place(used[0])
        if after and other[0].equipment == used[0].equipment and min(values) > 0.75 * max(values):
            return used[0].stage != "as_left"
    return False
