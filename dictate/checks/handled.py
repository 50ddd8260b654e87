"""Parts that were handled so that what holds them was opened, and the class of each.

"swapped the run capacitor"    electrical
"new liquid line solenoid"     circuit; of "its coil" alone, electrical
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from dictate.checks.words import kind_of_part, type_is
from dictate.record.visit import Equipment, Part, Step

HANDLED = frozenset({"replaced", "installed", "removed", "repaired"})
"""Actions that open what holds the part; cleaning and adjusting do not."""


@dataclass(frozen=True)
class Handled:
    """A part that was replaced, installed, removed or repaired, from `parts` or from a step."""

    name: str
    action: str
    kind: str
    thing: Part | Step


def kind_handled(name: str, heard: str, machine: Equipment | None = None) -> str:
    """Return the class of a handled part; a valve of which only the coil was said is electrical."""
    kind = kind_of_part(name)
    if name.lower() == "shaft seal" and type_is(machine, "product_seal"):
        return "moving"  # the seal of a barrel or a beater: product on both sides of it, and no refrigerant
    if (
        kind == "circuit"
        and "valve" in name.lower()
        and re.search(r"\b(?:coil|solenoid coil)\b", heard.lower())
    ):
        return "electrical"
    if "capillary" in name.lower() and re.search(r"\b(?:well|bulb|control|clip|strap|sens)", heard.lower()):
        return "low_voltage"  # the sensing line of a thermostat holds no refrigerant of the circuit
    if name.lower() == "coil" and not re.search(r"\b(?:evaporator|condenser|evap|cooling)\b", heard.lower()):
        return "electrical"  # a bare coil is that of a valve or relay as a rule
    if name.lower() == "coil":
        return "circuit"
    return kind
