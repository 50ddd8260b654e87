"""Bare numbers and states that the frame of their words tells: saturation, torr, "same thing", legs and pins.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: what is read on a refrigerating machine, and how it is told, is common practice; a torr is 1,000 micron
of mercury (ISO 80000-4).
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

ROWS = [
    ("Suction 71 psi. High side is 105 saturated, that's 10 of subcooling.", "71 psi", "105 degF", "10 delta_degF"),
    ("Suction fifty one, which is twenty four, line thirty two, eight superheat.",
     "51 psi|suction", "24 degF", "32 degF|suction", "8 delta_degF"),
    ("Head is 220 pounds, which is 105, liquid line's 95, ten subcooling.",
     "220 psi|discharge", "105 degF", "95 degF|liquid", "10 delta_degF"),
    ("Suction 33, suction line at the case 24. Dew point at 33 is 10.",
     "33 psi|suction", "24 degF|suction", "33 psi|suction", "10 degF"),
    ("Evaporating at 2.7 bar now. Condensing at 15.4.", "2.7 bar|suction", "15.4 bar|discharge"),
    ("Suction was 0.9 bar near the end, condensing 14.2.", "0.9 bar|suction", "14.2 bar|discharge"),
    ("Suction 0.5 bar, condensing 38.", "0.5 bar|suction", "38 degC"),
    ("Vacuum: down to point six of a torr, second time round I got point two five. Shut the valve, point three one.",
     "600 micron", "250 micron", "310 micron"),
    ("Common to ground, twelve ohms. Tried again when it's cold, seventy degrees the shell, same thing, twelve.",
     "12 ohm", "70 degF", "12 ohm"),
    ("Comp two, 1.1, 1.1, 1.2, and earth, that's a hundred and fifty meg.",
     "1.1 ohm", "1.1 ohm", "1.2 ohm", "150000000 ohm"),
    ("One nineteen at the plug, total draw five point four.", "119 V", "5.4 A"),
    ("Compressor 1 amps were 15.1 on leg 1, 14.8 on leg 2 and 17.9 on leg 3.", "15.1 A", "14.8 A", "17.9 A"),
    ("Turned the isolator off, locked it, proved dead across all three.", "0 V", "0 V", "0 V"),
    ("Locked out the disconnect. Tried the meter on a live one, then dead on all legs.", "0 V", "0 V", "0 V"),
    ("Shut it down at the breaker, checked for voltage at the contactor, and all three came up nothing.",
     "0 V", "0 V", "0 V"),
    ("Run to start 4.1 ohms. Nothing to ground from common, run or start.",
     "4.1 ohm|run-start", "open ohm|common-ground", "open ohm|run-ground", "open ohm|start-ground"),
    ("Top heater reads 34 ohms. Checked all three to ground and all three are clear.",
     "34 ohm", "open ohm|ground", "open ohm|ground", "open ohm|ground"),
    ("Middle fuse is open circuit on the meter, the two outside ones are 0.1 ohm.",
     "open ohm|fuse", "0.1 ohm|fuse", "0.1 ohm|fuse"),
    ("The case has 4 evaporator fans. 120 volts at all of them.", "120 V", "120 V", "120 V", "120 V"),
    ("Compressor 9.8 amps a leg, all three legs.", "9.8 A|L1", "9.8 A|L2", "9.8 A|L3"),
    ("Killed the breaker and put the meter on the coil, it don't read nothing, wide open.", "open ohm"),
    ("Suction 2.1 bar. Air on 25, off 13. Room was at 22 degrees when I left, 13.00, 2.75 hours.", "2.1 bar", "25 degC", "13 degC", "22 degC"),
    ("Switched back on at 12.20. Supply 231 volts.", "231 V"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=[r[0] for r in ROWS])
def test_frames(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize(
    "text",
    [
        "Contacts on the C leg are burnt right down to nothing.",
        "Monday, 6.40 on site. The tanker had been.",
    ],
)
def test_no_value(text: str) -> None:
    assert not [r for r in read_text(text).readings if r.role == "measured"]


@pytest.mark.parametrize(
    ("text", "whole"), [("Label says, one 15 volt.", 115), ("Suction 34. Room was 80 one.", 81)]
)
def test_half_of_a_number_is_looked_at(text: str, whole: float) -> None:
    reading = read_text(text).readings[-1]
    assert reading.review
    assert whole in [c.value for c in reading.candidates]
