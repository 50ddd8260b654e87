"""The same winding measured twice with different results."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import PAIRS, PHASES
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="reading.repeated-apart",
    checks="A winding that was measured twice reads the same both times.",
    applies="the same pair of terminals was measured twice on one side of the repair",
    source="Copper changes its resistance by about 0.4 % per kelvin (IEC 60028), so 10 % in one visit is the "
    "leads, the meter or another winding",
    tag="published",
    question="Which of the two counts?",
)
def check(facts: Facts) -> Iterator[Finding]:
    seen: dict[tuple[object, ...], list[int]] = {}
    readings = [
        r
        for r in facts.readings("resistance", point=(*PAIRS, *PHASES))
        if exact(r) and r.state == "value" and "heater" not in (r.component or "")
    ]
    for n, r in enumerate(readings):
        seen.setdefault((r.equipment, r.component, r.point, r.which, r.stage), []).append(n)
    for (equipment, component, *_), places in seen.items():
        if len(places) < 2:
            continue
        first, last = readings[places[0]], readings[places[-1]]
        one, two = value_in(first, "ohm"), value_in(last, "ohm")
        apart = abs(one - two)
        computed = {"apart": (apart, "ohm")}
        text = f"{component or 'motor'}: {cite(first)}, and again {cite(last)}"
        replaced = facts.replaced(
            str(component or "compressor"), equipment if equipment is None else str(equipment)
        )
        if apart <= max(0.1 * max(one, two), 0.3) or replaced:
            yield ok(f"{text}.", first, last, computed=computed)
        else:
            yield unsure(f"{text}.", first, last, computed=computed)
