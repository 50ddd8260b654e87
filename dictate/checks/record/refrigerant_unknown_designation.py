"""A refrigerant name that the standard does not have."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerants import known
from dictate.checks.rule import Finding, ok, rule, unsure

OTHERS = {"R-1233ZD(E)", "R-1336MZZ(Z)", "R-1234ZE(Z)", "R-161", "R-170", "R-1150", "R-41", "R-115", "R-116",
          "R-218", "R-227EA", "R-236FA", "R-245CA", "R-514A", "R-515B", "R-516A"}  # fmt: skip
"""Designations that exist and whose properties are not asked for here."""


@rule(
    id="refrigerant.unknown-designation",
    checks="Each refrigerant that was said has a designation of ASHRAE Standard 34.",
    applies="a refrigerant was said",
    source="ANSI/ASHRAE Standard 34-2022, tables 4-1 and 4-2: the designations and their letters",
    tag="published",
    question="Which refrigerant does the plate or the cylinder name?",
)
def check(facts: Facts) -> Iterator[Finding]:
    names: dict[str, list[int]] = {}
    for n, movement in enumerate(facts.movements()):
        if movement.refrigerant:
            names.setdefault(movement.refrigerant, []).append(n)
    for machine in facts.record.equipment:
        if machine.refrigerant:
            names.setdefault(machine.refrigerant, [])
    for name, places in names.items():
        used = [facts.movements()[n] for n in places]
        equipment = next((e.id for e in facts.record.equipment if e.refrigerant == name), None)
        if known(name) or name.upper() in OTHERS:
            yield ok(f"{name} is a designation of the standard.", *used, equipment=equipment)
        else:
            yield unsure(f"{name} is not a designation that is known here.", *used, equipment=equipment)
