"""Voltage is there and no current flows."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, same_part, value_in
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.record.visit import Reading

FEEDS = {
    "contactor": ("compressor", "condenser fan motor"),
    "defrost timer": ("defrost heater",),
    "terminal block": ("defrost heater", "compressor"),
}
"""What a device usually feeds, for a load side that was read at the device and a current at what it feeds."""


def _voltages(facts: Facts, current: Reading) -> list[Reading]:
    """Return the live voltages that reach the part whose current is nil."""
    found = []
    for r in facts.readings("voltage", equipment=current.equipment):
        if (
            not exact(r)
            or r.derived
            or r.stage != current.stage
            or value_in(r, "V") < 18
            or r.point == "line"
        ):
            continue
        at = r.component or ""
        feeds = at in FEEDS and any(same_part(f, current.component) for f in FEEDS[at]) and r.point == "load"
        if same_part(r.component, current.component) or feeds:
            found.append(r)
    return found


@rule(
    id="isolation.open-downstream",
    checks="Where voltage is present at a load, current flows in it.",
    applies="a current of nil and a live voltage were read at the same load",
    source="Ohm's law: voltage across a load without current means that its circuit is open after that point",
    tag="published",
    question="With power off and one lead off: what is the resistance of the load and of its protector?",
    caution="Isolate, prove dead and take a lead off before measuring resistance.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for current in facts.readings("current"):
        if not exact(current) or current.component is None or value_in(current, "A") > 0.05:
            continue
        volts = facts.nearest(current, _voltages(facts, current))
        if volts is None:
            continue
        opened = [
            r
            for r in facts.readings("resistance", equipment=current.equipment)
            if r.state == "open"
            and same_part(r.component, current.component)
            and "ground" not in (r.point or "")
        ]
        text = f"{current.component}: {cite(volts, 'voltage')} present, {cite(current, 'current')}"
        if opened:
            yield ok(f"{text}; what is open was found: {cite(opened[0])}.", current, volts, opened[0])
        elif facts.replaced(current.component, current.equipment):
            yield ok(f"{text}; it was replaced.", current, volts)
        else:
            yield unsure(f"{text}: the circuit is open after that point.", current, volts)
