"""A current that stays many times the rated load: the rotor does not turn."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import is_spike, load_ratings, locked_rotor_ratings
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="current.locked-rotor",
    checks="No current near locked rotor stays without the motor coming up to speed.",
    applies="a current of three times the rated load or more was measured",
    source="Trade rule: locked rotor is about four to six times the rated load; a steady current near it "
    "means "
    "seized, a failed start circuit or low voltage",
    tag="common practice",
    question="Does it hum and trip, what is the voltage at the terminals while it tries, and are the start "
    "capacitor and relay good?",
    caution="Each try heats the winding: let it cool between tries.",
)
def check(facts: Facts) -> Iterator[Finding]:
    measured = [r for r in facts.readings("current") if exact(r) and r.value]
    for reading in measured:
        if "heater" in (reading.component or ""):
            continue
        value = value_in(reading, "A")
        rated = [a for a, _ in load_ratings(facts, reading)]
        locked = locked_rotor_ratings(facts, reading)
        steady_after = [
            r
            for r in measured
            if r.component == reading.component
            and r.equipment == reading.equipment
            and facts.place(r) > facts.place(reading)
            and value_in(r, "A") < 0.5 * value
        ]
        high = bool(rated) and value >= 3 * max(rated)
        if reading.review or (rated and value >= 8 * max(rated)):
            continue  # no motor draws that much: reading.implausible asks about it
        if not high and not (locked and value >= 0.8 * min(locked)):
            continue
        computed = {"current": (value, "A")}
        if rated:
            computed["times rated"] = (value / max(rated), "")
        name = reading.component or "motor"
        if steady_after:
            text = f"{name} {cite(reading, 'current')} at the start, then {cite(steady_after[0], 'current')}."
            yield ok(text, reading, steady_after[0], computed=computed)
        elif is_spike(facts, reading) and not locked:
            yield ok(f"{name} {cite(reading, 'current')}: said to be the start.", reading, computed=computed)
        else:
            against = f"locked rotor is {locked[0]:.0f} A" if locked else f"the plate says {max(rated):.3g} A"
            yield unsure(
                f"{name} {cite(reading, 'current')} and {against}: it may not be turning.",
                reading,
                computed=computed,
            )
