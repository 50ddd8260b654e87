"""A value without its unit, where more than one unit is usual."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import to_ground
from dictate.checks.facts import Facts, cite_full
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.record.visit import Reading

INCHES = 30.0
"""Below this a bare number on a compound gauge may be psi above or inches below the atmosphere."""
METRIC = ("degC", "delta_degC", "bar", "mbar", "kPa", "Pa", "g", "kg", "mm")


def _doubtful(facts: Facts, reading: Reading) -> str | None:
    """Return which units are possible for a reading whose unit was not said; None when only one is."""
    same = [r for r in facts.readings(reading.quantity, role=None) if not r.unit_assumed]
    if reading.quantity == "vacuum":
        return None if same else "micron or millibar"
    if reading.quantity == "mass":
        if same or any(m.unit for m in facts.movements()):
            return None
        return "pounds, ounces, grams or kilograms"
    if reading.quantity == "resistance" and to_ground(reading, facts) and reading.value:
        return None if reading.state == "open" else "ohm, kilohm or megohm"
    if reading.quantity == "pressure" and reading.reference != "differential":
        low = reading.value is not None and abs(reading.value) <= INCHES
        if low and reading.point is None and _about_recovery(facts, reading):
            return "psi or inches of mercury"
        gauges = ("suction", "discharge", "liquid", None)
        said = {r.unit in METRIC for r in same if r.unit not in ("Pa", "inHg") and r.point in gauges}
        return "psi, bar or kPa" if len(said) == 2 else None
    if reading.quantity == "temperature":
        said = {r.unit in METRIC for r in facts.readings("temperature", role=None) if not r.unit_assumed}
        return "°F or °C" if len(said) == 2 else None
    return None


def _about_recovery(facts: Facts, reading: Reading) -> bool:
    before, _ = facts.around(reading, before=12)
    text = f"{before} {reading.heard.lower()}"
    return any(w in text for w in ("recover", "pulled", "pumped", "vacuum", "down to"))


@rule(
    id="reading.unit-not-stated",
    checks="A value has its unit where the trade uses more than one for it.",
    applies="a value was said without a unit",
    source="The BIPM brochure on the SI, 5.4: a value is a number and a unit; which bare numbers the trade "
    "takes for granted is common practice",
    tag="common practice",
    question="Which unit was it?",
)
def check(facts: Facts) -> Iterator[Finding]:
    assumed = [r for r in facts.readings() if r.unit_assumed]
    open_ = [(r, why) for r in assumed if (why := _doubtful(facts, r)) is not None]
    for quantity in dict.fromkeys(r.quantity for r, _ in open_):
        these = [(r, why) for r, why in open_ if r.quantity == quantity]
        said = ", ".join(cite_full(r) for r, _ in these)
        name = quantity.replace("_", " ")
        yield missing(
            f"The unit was not said of this {name}: {said}. Taken as {these[0][0].unit}; it may be "
            f"{these[0][1]}.",
            *(r for r, _ in these),
            question=f"Was that {these[0][1]}?",
        )
    for movement in facts.movements():
        if movement.value is not None and movement.unit is None:
            yield missing(
                f"The unit of the refrigerant {movement.direction} was not said: {movement.value:g}.",
                movement,
                question="Was that pounds, ounces, grams or kilograms?",
            )
    plain = [r for r in assumed if all(r is not o for o, _ in open_)]
    if plain:
        yield ok(f"{len(plain)} values without a unit have only one usual unit there.", *plain)
