"""A value that no such part or place has."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from dictate.checks.facts import Facts, bounds, cite, number_in, same_part, show, value_in
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.record.visit import Reading
from dictate.vocabulary.load import table

BETWEEN = ("L1-L2", "L2-L3", "L1-L3")
TIMES_RATED = 8.0
"""A locked rotor draws about four to six times the rated load: more is a lost decimal point."""


def _limits(reading: Reading) -> Iterator[tuple[float, float, str, str]]:
    """Yield (low, high, unit, why) that hold for a reading, the narrowest first."""
    for entry in table("check_limits")["limit"]:
        if entry["quantity"] != reading.quantity:
            continue
        if "component" in entry and entry["component"] not in (reading.component or ""):
            continue
        if "points" in entry and reading.point not in entry["points"]:
            continue
        yield entry["low"], entry["high"], entry["unit"], entry["why"]
    wide: dict[str, Any] = table("quantities").get("plausible", {}).get(reading.quantity, {})
    if wide:
        low, high = wide.get("points", {}).get(reading.point, (wide["low"], wide["high"]))
        yield (
            low,
            high,
            wide["unit"],
            f"a {reading.quantity.replace('_', ' ')} like that is not plausible here",
        )


def _against_rating(facts: Facts, reading: Reading) -> tuple[Reading, str] | None:
    """Return the rating that a current or a capacitance cannot be true beside, and why."""
    if reading.quantity not in ("current", "capacitance") or not reading.value:
        return None
    rated = [
        r
        for r in facts.readings(reading.quantity, role="rated")
        if r.value and same_part(r.component, reading.component) and r.equipment == reading.equipment
    ]
    if not rated:
        return None
    top = max(rated, key=lambda r: value_in(r, r.unit))
    times = value_in(reading, top.unit) / value_in(top, top.unit)
    if reading.quantity == "current" and times >= TIMES_RATED:
        return top, f"{times:.0f} times the rating, more than a locked rotor draws"
    if reading.quantity == "capacitance" and times >= 1.5:
        return top, f"{times:.1f} times the print, and a capacitor loses with age, it does not gain"
    return None


@rule(
    id="reading.implausible",
    checks="Each measured value is one that such a part or place can have.",
    applies="a value was measured",
    source="Physical limits (no resistance, capacitance or absolute pressure below nil; superheat never "
    "below "
    "nil) and the span that parts of refrigeration equipment have, in vocabulary/check_limits.toml",
    tag="common practice",
    question="What did the meter show, and in which unit?",
)
def check(facts: Facts) -> Iterator[Finding]:
    fine: list[Reading] = []
    for reading in facts.readings():
        if reading.value is None or reading.state == "open":
            continue
        verdict = _first_problem(facts, reading)
        if verdict is None:
            fine.append(reading)
        else:
            yield verdict
    if fine:
        yield ok(f"{len(fine)} measured values are plausible for what they were read at.", *fine)


def _first_problem(facts: Facts, reading: Reading) -> Finding | None:
    for low, high, unit, why in _limits(reading):
        try:
            least, greatest = bounds(reading, unit)
        except (ValueError, TypeError):  # a unit of another kind, which the reading's own review names
            continue
        # A pressure below vacuum is another rule's; a bound says nothing about its own side.
        if reading.quantity == "pressure" and number_in(reading.value or 0, reading.unit, "psi") < -14:
            return None
        if greatest < low or least > high:
            span = f"{show(low, unit)} to {show(high, unit)}"
            computed = {"least plausible": (low, unit), "greatest plausible": (high, unit)}
            name = f"{reading.component} " if reading.component else ""
            heard = f', heard as "{reading.heard}"' if reading.heard else ""
            return problem(
                f"{name}{cite(reading)}{heard}: outside {span}; {why}.", reading, computed=computed
            )
    if reading.quantity == "current" and reading.point in BETWEEN:
        return problem(
            f"{reading.component or ''} {cite(reading)}: a current flows in one line and is not read between "
            "two; volts are.".strip(),
            reading,
            question="Was that volts?",
        )
    beside = _against_rating(facts, reading)
    if beside is not None:
        rated, why = beside
        return problem(
            f"{reading.component} {cite(reading, reading.quantity)} beside {cite(rated, 'a rated')}: {why}.",
            reading,
            rated,
        )
    return None
