"""A capacitor that measures outside its print."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._capacitors import LOOSE_TOLERANCE, RUN_TOLERANCE, measured, print_of
from dictate.checks.facts import Facts, bounds, cite, show, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure


@rule(
    id="capacitor.out-of-tolerance",
    checks="A measured capacitor lies within the tolerance printed on it (6 % for a run capacitor whose "
    "tolerance was not said; a start capacitor within its printed range, or from its print to 20 % above).",
    applies="a capacitance was measured",
    source="Capacitor marking: IEC 60252-1 for run and 60252-2 for start capacitors; prints of 5, 6 and 10 % "
    "are in use, and 6 % where none can be read is common practice",
    tag="published",
    question="What capacitance and what tolerance are printed on it?",
    caution="A capacitor can hold its charge for days: discharge it through a resistor and prove it near "
    "zero "
    "with a meter before it is handled.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in measured(facts):
        if reading.value is None:
            continue
        name = reading.component or "capacitor"
        if reading.value == 0 or reading.state == "open":
            done = facts.replaced(name, reading.equipment)
            yield problem(f"{name}, {cite(reading)}: it has no capacitance.", reading, resolved=done)
            continue
        marked = print_of(facts, reading)
        if marked is None:
            yield unsure(f"{name}, {cite(reading)}: what is printed on it was not said.", reading)
            continue
        low, high = bounds(reading, "uF")
        value = value_in(reading, "uF")
        percent = 100 * (value - marked.nominal) / marked.nominal
        computed = {
            "deviation": (percent, "%"),
            "least": (marked.low, "uF"),
            "greatest": (marked.high, "uF"),
        }
        text = f"{name}, {cite(reading)} against a print of {show(marked.nominal, 'uF')}"
        text += f" ({show(marked.low, 'uF')} to {show(marked.high, 'uF')}): {percent:+.1f} %"
        assumed = marked.tolerance is None and "start" not in name
        used = [reading, *marked.on]
        below, above = high < marked.low, low > marked.high
        inside = low >= marked.low and high <= marked.high
        if inside:
            yield ok(f"{text}.", *used, computed=computed)
        elif not (below or above):
            yield unsure(f"{text}, and only a bound was said.", *used, computed=computed)
        elif value > 1.5 * marked.nominal:
            yield unsure(
                f"{text}. A capacitor does not gain, so one of the two is another's.",
                *used,
                computed=computed,
                question="Which print belongs to this value?",
            )
        elif assumed and RUN_TOLERANCE < abs(percent) <= LOOSE_TOLERANCE:
            yield unsure(
                f"{text}. Outside the usual 6 %, inside a print of 10 %.",
                *used,
                computed=computed,
                question="What tolerance is printed on it: 5, 6 or 10 %?",
            )
        else:
            tail = ", by the usual 6 % (no tolerance was said)" if assumed else ""
            done = below and facts.replaced(name, reading.equipment) and reading.stage != "as_left"
            yield problem(f"{text}{tail}.", *used, computed=computed, resolved=done)
