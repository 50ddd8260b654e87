"""One phase of three is missing."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import LEGS, LINES
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule


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
    for group in facts.by_machine(facts.readings("voltage", point=LINES)).values():
        for moment in facts.same_moment(group):
            pairs = {r.point: r for r in moment if exact(r)}
            if len(pairs) < 3:
                continue
            used = [pairs[p] for p in LINES]
            values = [value_in(r, "V") for r in used]
            said = ", ".join(cite(r) for r in used)
            if max(values) < 60:
                continue  # nothing anywhere: switched off
            low = [r for r in used if value_in(r, "V") < 0.75 * max(values)]
            computed = {"highest": (max(values), "V"), "lowest": (min(values), "V")}
            done = any(r.stage == "as_left" for r in group) and moment[0].stage == "as_found"
            if low:
                yield problem(f"A phase is missing: {said}.", *used, computed=computed, resolved=done)
            else:
                yield ok(f"All three phases are there: {said}.", *used, computed=computed)
    for group in facts.by_machine(facts.readings("current", point=LEGS)).values():
        for name in dict.fromkeys(r.component for r in group):
            if "heater" in (name or ""):
                continue  # a dead leg of a heater is an open element
            for moment in facts.same_moment([r for r in group if r.component == name]):
                legs = {r.point: r for r in moment if exact(r)}
                if len(legs) < 3:
                    continue
                used = [legs[p] for p in LEGS]
                values = [value_in(r, "A") for r in used]
                if max(values) > 0 and min(values) <= 0.05 * max(values):
                    computed = {"highest": (max(values), "A"), "lowest": (min(values), "A")}
                    done = any(r.stage == "as_left" for r in group) and moment[0].stage == "as_found"
                    yield problem(
                        f"{name or 'motor'}: one leg carries no current: {', '.join(cite(r) for r in used)}.",
                        *used,
                        computed=computed,
                        resolved=done,
                    )
