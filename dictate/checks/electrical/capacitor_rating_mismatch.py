"""A new capacitor that is not what the old one was."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

_MICROFARAD = re.compile(r"(\d+(?:\.\d+)?)\s*(?:uf|µf|mfd|microfarads?)", re.IGNORECASE)
_VOLTS = re.compile(r"(\d{3})\s*(?:v\b|vac|volts?)", re.IGNORECASE)


@rule(
    id="capacitor.rating-mismatch",
    checks="A replaced capacitor has the same capacitance as the old one, and no lower voltage rating.",
    applies="a capacitor was replaced and its rating was said along with the old one's",
    source="Capacitor makers' application guides: same capacitance; the voltage rating may be higher, never "
    "lower",
    tag="published",
    question="What are the capacitance and the voltage rating of the old and of the new one?",
    caution="A capacitor below the voltage it sees can burst.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for part in facts.parts("replaced", "installed"):
        if "capacitor" not in part.name or not part.rating:
            continue
        numbers = [float(x) for x in _MICROFARAD.findall(part.rating)]
        volts = [float(x) for x in _VOLTS.findall(part.rating)]
        old_farads = [
            r
            for r in facts.readings("capacitance", role="rated")
            if exact(r) and r.equipment == part.equipment and r.stage != "as_left"
        ]
        old_volts = [
            r
            for r in facts.readings("voltage", role="rated")
            if exact(r) and "capacitor" in (r.component or "") and r.stage != "as_left"
        ]
        text = f"New capacitor {part.rating}"
        if volts and old_volts and max(volts) < value_in(old_volts[0], "V"):
            computed = {"new": (max(volts), "V"), "old": (value_in(old_volts[0], "V"), "V")}
            yield problem(
                f"{text}: the old one is {cite(old_volts[0])}.", part, old_volts[0], computed=computed
            )
        elif numbers and old_farads:
            near = min(old_farads, key=lambda r: abs(value_in(r, "uF") - numbers[0]))
            computed = {"new": (numbers[0], "uF"), "old": (value_in(near, "uF"), "uF")}
            if abs(numbers[0] - value_in(near, "uF")) > 0.01:
                yield unsure(f"{text}: the old print is {cite(near)}.", part, near, computed=computed)
            else:
                yield ok(f"{text}, like the old one.", part, near, computed=computed)
