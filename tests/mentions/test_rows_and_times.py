"""Levels below zero, minutes with their seconds, rows of values in tenths, and words of no volts.

Arithmetic and the plain meaning of the words: a level "three below" is three degrees under zero, "one minute
fifty" is 110 seconds, and "all three ways" names the three pairs of three terminals (common practice).
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

US = "Suction 22 psi, line volts 118.\n"

MEASURED = [
    ("Walk-in freezer. Box was down to three below at quitting time with the suction at fifteen pounds.", [-3, 15]),
    ("The freezer's at twelve below zero, return air nine below.", [-12, -9]),
    ("Freezer room, it's four below with the fans running.", [-4]),
    ("Freezer pulled down to nine below before lunch.", [-9]),
    ("Walk-in freezer. Box eleven above. Stat set for ten below.", [11]),
    ("Suction 22, which is three below normal.", [22]),
    ("By 3:15 I had 40 on the rail and 37 below.", [40, 37]),
    ("The slab drops in one minute fifty.", [110 / 60]),
    ("It held for ten minutes thirty.", [10.5]),
    ("Ice machine: third batch, twenty minutes, harvest a minute five.", [20, 65 / 60]),
    ("Blast chiller. Ran a cycle with two trays, took eighty four minutes.", [84]),
    ("Changed the defrost heater, took forty minutes.", []),
    ("Pressure test two fifty for an hour, no drop.", [250, 1]),
    ("It drips 1 teaspoon an hour.", []),
    ("Locked rotor thirty eight amps for two seconds and then it trips.", [38, 2]),
    ("Windings are one point four all three ways, and better than two hundred meg to ground.", [1.4, 1.4, 1.4, 2e8]),
    ("Ohmed the compressor windings. Nine tenths, nine tenths, one point one.", [0.9, 0.9, 1.1]),
    ("The fan by the door one point six, the other one point nine.", [1.6, 1.9]),
    ("Evaporator fans, three of them: point eight, point eight, and the one by the door one point four.", [0.8, 0.8, 1.4]),
    ("Thermistor reads eleven and a half thousand ohms.", [11500]),
    ("I've got one eighteen on the water valve coil and nothing happens.", [118]),
    ("Two oh eight at the line side and nothing coming through the contactor.", [208, 0]),
    ("I killed the breaker, put my lock on it, and metered the fan leads, no volts.", [0]),
    ("Cond fan motor, pulled it, blew the coil out while I had it open.", []),
    ("Sensor reading jumped to 190K and then open.", [190000, None]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "values"), MEASURED, ids=[t[:60] for t, _ in MEASURED])
def test_measured(text: str, values: list[float | None]) -> None:
    """Each narration gives these measured values, in this order, and no other."""
    readings = find(list(segments_of((US + text).splitlines(), "c1"))).readings[2:]
    found = [r.value for r in readings if r.role == "measured"]
    assert len(found) == len(values)
    for got, wanted in zip(found, values, strict=True):
        assert got == (wanted if wanted is None else pytest.approx(wanted, rel=1e-3))


def test_arithmetic_answers_for_two_digits() -> None:
    """The largest winding is the sum of the two others, so "five one" is 5.1 and needs no question."""
    text = "Common run five one, common start fourteen three, run start nineteen four."
    readings = find(list(segments_of((US + text).splitlines(), "c1"))).readings[2:]
    assert [(r.value, r.review) for r in readings] == [(5.1, []), (14.3, []), (19.4, [])]
