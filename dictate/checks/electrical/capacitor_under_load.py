"""A capacitor worked out from the current and the voltage while it runs."""

from __future__ import annotations

import math
from collections.abc import Iterator

from dictate.checks.electrical._capacitors import LOOSE_TOLERANCE, RUN_TOLERANCE, prints_of
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading


def microfarad(amps: float, volts: float, hertz: float = 60.0) -> float:
    """Return the capacitance in µF that passes a current at a voltage: C = I / (2 pi f V)."""
    return 1e6 * amps / (2 * math.pi * hertz * volts)


def _hertz(facts: Facts) -> float:
    said = [r for role in ("measured", "rated") for r in facts.readings("frequency", role=role) if exact(r)]
    return value_in(said[-1], "Hz") if said else 60.0


@rule(
    id="capacitor.under-load",
    checks="A run capacitor worked out from its current and voltage in operation agrees with its print.",
    applies="a current and a voltage were measured at one capacitor while it ran",
    source="Alternating-current theory: C = I / (2 pi f V), that is 2652 I / V in µF at 60 Hz",
    tag="published",
    question="What is printed on the capacitor, and what does it measure off the circuit?",
    caution="Measured live: by qualified persons only, and with the capacitor's terminals out of reach.",
)
def check(facts: Facts) -> Iterator[Finding]:
    amps = [
        r
        for r in facts.readings("current")
        if exact(r) and r.value and ("capacitor" in (r.component or "") or r.point == "start")
    ]
    for current in amps:
        same: list[Reading] = [
            r
            for r in facts.readings("voltage", equipment=current.equipment)
            if exact(r)
            and r.stage == current.stage
            and value_in(r, "V") > 50
            and "capacitor" in (r.component or "")
        ]
        volts = facts.nearest(current, same)
        if volts is None:
            continue
        hertz = _hertz(facts)
        value = microfarad(value_in(current, "A"), value_in(volts, "V"), hertz)
        computed = {"capacitance under load": (value, "uF"), "frequency": (hertz, "Hz")}
        text = f"{cite(current)} at {cite(volts)} and {hertz:.0f} Hz make {value:.1f} µF"
        rated = prints_of(facts, current)
        if not rated:
            yield unsure(f"{text}; what is printed on it was not said.", current, volts, computed=computed)
            continue
        marked = min(rated, key=lambda r: abs(value_in(r, "uF") - value))
        percent = 100 * (value / value_in(marked, "uF") - 1)
        computed["deviation"] = (percent, "%")
        text += f" against {cite(marked)}: {percent:+.1f} %"
        if abs(percent) <= RUN_TOLERANCE:
            yield ok(f"{text}.", current, volts, marked, computed=computed)
        elif abs(percent) <= LOOSE_TOLERANCE:
            yield unsure(f"{text}. Outside the usual 6 %.", current, volts, marked, computed=computed)
        else:
            done = facts.replaced(current.component, current.equipment)
            yield problem(f"{text}.", current, volts, marked, computed=computed, resolved=done)
