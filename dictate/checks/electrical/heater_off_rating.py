"""A heater whose resistance or current does not fit its rated power."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, same_part, value_in
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.record.visit import Reading

USUAL, ODD = 15.0, 25.0
"""Per cent: what elements and meters spread, and where half a heater or a wrong one is nearer."""


def _rated(facts: Facts, reading: Reading, quantity: str) -> Reading | None:
    same = [
        r
        for r in facts.readings(quantity, role="rated")
        if exact(r) and r.component == reading.component and r.equipment == reading.equipment
    ]
    return facts.nearest(reading, same)


@rule(
    id="heater.off-rating",
    checks="A heater's resistance or current fits its rated power and voltage.",
    applies="a heater was measured and its rated power and voltage were said",
    source="Ohm's law: R = V² / P and I = P / V; the 15 % for elements and meters is common practice",
    tag="common practice",
    question="Is it one element or several in parallel, and is the right one fitted?",
    caution="Resistance is measured with power off, locked out and proved dead.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance", "current"):
        if "heater" not in (reading.component or "") or not exact(reading) or reading.state == "open":
            continue
        if reading.point and "ground" in reading.point:
            continue
        watt, volt = _rated(facts, reading, "power"), _rated(facts, reading, "voltage")
        if watt is None or volt is None or not reading.value or not watt.value or not volt.value:
            continue
        ohms = value_in(volt, "V") ** 2 / value_in(watt, "W")
        used = [reading, watt, volt]
        if reading.quantity == "resistance":
            expected, unit = ohms, "ohm"
        else:
            live = [
                r
                for r in facts.readings("voltage", equipment=reading.equipment)
                if same_part(r.component, reading.component) and exact(r) and value_in(r, "V") > 60
            ]
            at = facts.nearest(reading, [r for r in live if r.stage == reading.stage] or live)
            used += [at] if at is not None else []
            expected, unit = (value_in(at, "V") if at is not None else value_in(volt, "V")) / ohms, "A"
        value = value_in(reading, unit)
        percent = 100 * (value / expected - 1)
        computed = {"expected": (expected, unit), "deviation": (percent, "%")}
        text = f"{reading.component} {cite(reading)}; {cite(watt, 'rated')} at {cite(volt, 'rated')} make "
        text += f"{expected:.3g} {unit}: {percent:+.0f} %"
        if abs(percent) <= USUAL:
            yield ok(f"{text}.", *used, computed=computed)
        elif abs(percent) <= ODD:
            yield unsure(f"{text}: more than elements usually spread.", *used, computed=computed)
        else:
            yield unsure(
                f"{text}: that is another heater, part of one, or several in parallel.",
                *used,
                computed=computed,
            )
