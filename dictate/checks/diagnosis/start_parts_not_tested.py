"""A compressor that does not start, and start parts that were not looked at."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.diagnosis._sequence import verdict
from dictate.checks.facts import Facts, words
from dictate.checks.rule import Finding, ok, rule, unsure

START_PARTS = ("capacitor", "relay", "hard start", "ptc")


@rule(
    id="start-parts.not-tested",
    checks="When a single-phase compressor hums, trips or does not start, its start parts were tested.",
    applies="a compressor was said to hum, trip or not to start while it had its voltage",
    source="Trade rule: a single-phase compressor that does not start with full voltage has bad start parts "
    "until they are proved good",
    tag="common practice",
    question="What do the start capacitor, run capacitor and start relay measure off the circuit?",
    caution="Discharge a capacitor through a resistor and prove it near zero before it is handled.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for event in facts.events():
        if event.component != "compressor" or (
            verdict(event.event) is not False and "trip" not in event.event
        ):
            continue
        if facts.said("three phase", "3 phase", "three-phase", "scroll", "inverter"):
            continue
        supplied = [
            r
            for r in facts.readings("voltage", equipment=event.equipment)
            if r.value and r.value > 100 and (r.component == "compressor" or r.point == "load")
        ]
        hums = "hum" in words(event.event, event.heard)
        if not supplied and not hums:
            continue
        tested = [
            r
            for r in facts.readings(equipment=event.equipment)
            if r.component and any(w in r.component for w in START_PARTS)
        ]
        handled = [p for p in facts.parts(equipment=event.equipment) if any(w in p.name for w in START_PARTS)]
        proved = [
            r
            for r in facts.readings("resistance", component="compressor", equipment=event.equipment)
            if r.state == "open" or (r.point and "ground" in r.point)
        ]
        if tested or handled:
            yield ok("The start parts were looked at.", event, *tested, *handled)
        elif proved:
            yield ok("The windings say why it does not start.", event, *proved)
        else:
            yield unsure("The compressor has its voltage and does not start.", event, *supplied)
