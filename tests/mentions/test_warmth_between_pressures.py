"""Temperatures told among pressures, pounds of a gauge, rows of megohms, volts of a vehicle, parts of a unit.

What the words say and what goes with what: a place around a machine has a temperature and no pressure, gas that
was drawn off leaves inches of vacuum, and meters show thousandths and thousands (common practice).
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

US = "Suction 22 psi, head 195, line volts 118.\n"

MEASURED = [
    ("Low side 31 and high side 128 with the hallway at 75.", [(31, "psi"), (128, "psi"), (75, "degF")]),
    ("Suction 18, head 215, 102 in that corner next to the press.", [(18, "psi"), (215, "psi"), (102, "degF")]),
    ("One twenty-eight suction, three sixty-five on the high side, ninety out.", [(128, "psi"), (365, "psi"), (90, "degF")]),
    ("Suction 32, head two ten, eighty four on the patio.", [(32, "psi"), (210, "psi"), (84, "degF")]),
    ("Air on 46, air off 40, 78 out.", [(46, "degF"), (40, "degF"), (78, "degF")]),
    ("I saw eleven pounds suction and only one seventy discharge.", [(11, "psi"), (170, "psi")]),
    ("There was 40 pounds standing on circuit 2.", [(40, "psi")]),
    ("CO2 is 75 pounds.", [(75, "psi")]),
    ("Recovered what was left in the coil, down to zero pounds.", [(0, "psi")]),
    ("Recovered first. Emptied her to twenty inches.", [(20, "inHg")]),
    ("Cut a piece down to ten inches of pipe.", []),
    ("Put in three pounds and it cleared.", []),
    ("Megged the motor: leg one two hundred meg, leg two two hundred, leg three a hundred eighty to ground.",
     [(2e8, "ohm"), (2e8, "ohm"), (1.8e8, "ohm")]),
    ("Two hundred meg to ground and the windings are one point four, one point four, one point five.",
     [(2e8, "ohm"), (1.4, "ohm"), (1.4, "ohm"), (1.5, "ohm")]),
    ("Reefer unit. Clutch pulls four amps, thirteen four at the clutch.", [(4, "A"), (13.4, "V")]),
    ("Two condenser fans: left four amps flat, right dead as a post, no amps.", [(4, "A"), (0, "A")]),
    ("Killed it, locked it, proved dead all three legs, zeroes.", [(0, "V"), (0, "V"), (0, "V")]),
    ("Subcooling half a kelvin.", [(0.5, "delta_degC")]),
    ("Heater one, four point six amps. Heater two, four point seven. Heater three, nothing.",
     [(4.6, "A"), (4.7, "A"), (0, "A")]),
    ("Top one fifty-eight ohms, middle one open, bottom one open.", [(58, "ohm"), (None, "ohm"), (None, "ohm")]),
    ("Box down to three after 35 minutes.", [(3, "degF")]),
    ("Superheat was nine, it is six degrees now.", [(9, "delta_degF"), (6, "delta_degF")]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "told"), MEASURED, ids=[t[:60] for t, _ in MEASURED])
def test_measured(text: str, told: list[tuple[float | None, str]]) -> None:
    """Each narration gives these measured values with these units, in this order, and no other."""
    readings = find(list(segments_of((US + text).splitlines(), "c1"))).readings[3:]
    assert [(r.value, r.unit) for r in readings if r.role == "measured"] == told


def test_what_a_rack_is_set_to_is_a_pressure() -> None:
    """What the pressure of a header is set to is a pressure as well, and no temperature."""
    text = "The suction header was thirty-nine pounds and it's set to run at thirty-two."
    readings = find(list(segments_of((US + text).splitlines(), "c1"))).readings[3:]
    assert [(r.value, r.unit, r.role) for r in readings] == [(39, "psi", "measured"), (32, "psi", "target")]
