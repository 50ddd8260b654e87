"""A valve or relay coil, a transformer or a heater that is open."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dictate.checks.electrical._windings import is_motor, to_ground
from dictate.checks.facts import Facts, cite, same_part, value_in, words
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.record.visit import Reading

OPEN_COIL = re.compile(
    r"\b(coil|winding|primary|secondary|element|heater)(?:'?s)? "
    r"(is |was |reads |read |measured |measures |tests |tested |are |came up |comes up |shows |showed )?"
    r"(burned |burnt |wide |dead |completely )?(open|infinite|o l|ol)\b"
)
ALWAYS = ("valve", "solenoid", "heater", "transformer", "element", "coil")
ONLY_WHERE_COIL_WAS_SAID = ("relay", "contactor", "starter", "timer")
NOT = ("sensor", "switch", "thermostat", "evaporator coil", "condenser coil")


def is_coil(facts: Facts, reading: Reading) -> bool:
    """True for a resistance across a coil or an element; contacts of a relay are none."""
    name = reading.component or ""
    if to_ground(reading, facts) or any(word in name for word in NOT):
        return False
    if not name:
        return reading.point in ("coil", "primary", "secondary") or (
            reading.state == "open" and "coil" in _before(facts, reading)
        )
    if any(word in name for word in ONLY_WHERE_COIL_WAS_SAID):
        said = f"{reading.point or ''} {reading.heard} {reading.which or ''} {name}".lower()
        return "coil" in said or "coil" in _before(facts, reading)
    return any(word in name for word in ALWAYS)


def _before(facts: Facts, reading: Reading) -> list[str]:
    """Return the words before a reading in its sentence: "coil between two and five reads open"."""
    if reading.at.first_word is None:
        return []
    said = facts.around(reading, before=8, after=0, sentence=True)[0].split()
    return [] if {"contact", "contacts", "evaporator", "condenser"} & set(said) else said


@rule(
    id="coil.open",
    checks="A coil, a transformer winding or a heating element that was measured conducts.",
    applies="the resistance of a valve coil, relay coil, transformer or heater was measured",
    source="Vocational HVACR textbooks, chapter on control devices: infinite resistance across a coil or an "
    "element is an open one",
    tag="published",
    question="Was it measured with one lead off, and was a thermal cut-out in series with it closed?",
    caution="Power off, locked out and proved dead before measuring resistance.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance"):
        if not is_coil(facts, reading):
            continue
        said = f"{reading.component or 'coil'}, {cite(reading)}"
        if reading.state == "open":
            done = facts.replaced(reading.component, reading.equipment)
            yield problem(f"{said}: it is open.", reading, resolved=done)
        elif reading.value is not None:
            computed = {"resistance": (value_in(reading, "ohm"), "ohm")}
            yield ok(f"{said}: it conducts.", reading, computed=computed)
    for conclusion in facts.conclusions():
        if not OPEN_COIL.search(words(conclusion.text)) or is_motor(conclusion.component):
            continue
        if any(
            r.state == "open" and same_part(r.component, conclusion.component)
            for r in facts.readings("resistance", equipment=conclusion.equipment)
        ):
            continue  # the reading says it already
        done = facts.replaced(conclusion.component, conclusion.equipment)
        yield problem(f"{conclusion.component}: said to be open.", conclusion, resolved=done)
