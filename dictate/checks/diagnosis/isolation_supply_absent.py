"""No voltage on the line side, before anything was switched off."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, order, phrases, value_in
from dictate.checks.rule import Finding, ok, rule, unsure

OFF = phrases("switched_off")


@rule(
    id="isolation.supply-absent",
    checks="A line side that reads nothing while the machine is meant to run is followed upstream.",
    applies="no voltage was read on a line side before anything was switched off",
    source="Fault isolation along the supply: what is dead on its line side is fed by something open "
    "upstream",
    tag="common practice",
    question="What does the breaker, fuse or disconnect upstream read on both sides?",
    caution="Live tests are for qualified persons only.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("voltage", point=("line", "L1-L2", "primary")):
        if not exact(reading) or reading.derived or value_in(reading, "V") > 2:
            continue
        offs = facts.steps("power_isolated", "absence_of_voltage_verified")
        tied = [s for s in offs if order(s) <= order(reading)]
        text = f" {facts.context(reading)} "
        if tied or any(w in text for w in OFF) or reading.stage == "as_left":
            continue
        upstream = [
            r
            for r in facts.readings("voltage", equipment=reading.equipment)
            if r.component in ("panel", "breaker", "disconnect switch", "fuse", "receptacle", "outlet")
            and r is not reading
        ]
        said = f"{reading.component or 'line side'} {cite(reading)}"
        if upstream:
            yield ok(f"{said}; upstream {', '.join(cite(r) for r in upstream)}.", reading, *upstream)
        elif any("tripped" in e.event or "blown" in e.event for e in facts.events()):
            yield ok(f"{said}; what had opened was said.", reading)
        else:
            yield unsure(f"{said}: nothing arrives there.", reading)
