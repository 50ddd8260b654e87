"""States of several points or things at once, in the words of a row, an answer or a heading.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: nothing to ground and no amps are what meters say of sound insulation and of what does not run; common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

CLEAR = ("open|common-ground", "open|run-ground", "open|start-ground")

ROWS = [
    ("Fans, amps. Left motor pulls point six, the other two not a thing.",
     "0.6 A|fan motor", "0 A|fan motor", "0 A|fan motor"),
    ("Heater amps: 1.5 on the first one, the third and the fifth, and two and four are dead.",
     "1.5 A|heater", "0 A|heater", "0 A|heater"),
    ("Heaters pulled eleven, eleven and nothing on the third one.", "11 A|heater", "11 A|heater", "0 A|heater"),
    ("There's 4 case fans. 0.38 amps, 0.37, 0.38 and the last one nothing.",
     "0.38 A", "0.37 A", "0.38 A", "0 A"),
    ("What do the heaters draw? Zero on the first one, 4.6 on the second, 4.5 on the third.",
     "0 A|heater", "4.6 A|heater", "4.5 A|heater"),
    ("Bank one nineteen amps, bank two nothing.", "19 A", "0 A"),
    ("Out of the drive, voltage is one ninety on two pairs and nothing on the third.", "190 V", "0 V"),
    ("Compressor two, amps until it tripped. A: thirty-one. B: thirty-three. C: nothing.",
     "31 A|compressor", "33 A|compressor", "0 A|compressor"),
    ("Amps 8.2 and 8.1, leg three zip.", "8.2 A", "8.1 A", "0 A"),
]  # fmt: skip

OPEN = [
    ("Common to run 2.9 ohms. Terminals to shell, over limit on the meter, every one of the three.",
     ("2.9 ohm|common-run", *(f"open ohm{p[4:]}" for p in CLEAR))),
    ("Run to start 13.3. Anything to ground? No sir, all three clear.",
     ("13.3 ohm|run-start", *(f"open ohm{p[4:]}" for p in CLEAR))),
    ("Run to start fourteen. Ground, no, no and no.",
     ("14 ohm|run-start", *(f"open ohm{p[4:]}" for p in CLEAR))),
    ("Heater 1 is 44 ohms, heater 3 45 ohms. 1 and 3 clear to earth.",
     ("44 ohm|heater", "45 ohm|heater", "open ohm|ground", "open ohm|ground")),
    ("Top heater 34.8 ohms, bottom 35. Nothing to ground from the top or the bottom.",
     ("34.8 ohm|heater", "35 ohm|heater", "open ohm|ground", "open ohm|ground")),
    ("Common to run had no continuity and none common to start, run to start 13.3.",
     ("open ohm|common-run", "open ohm|common-start", "13.3 ohm|run-start")),
    ("Ohmed the middle motor and it's wide open.", ("open ohm|motor",)),
    ("Fuse A point two ohms. Fuse C point two. B is open.", ("0.2 ohm|fuse", "0.2 ohm|fuse", "open ohm|fuse")),
    ("Ohmed the heaters, 31 and 33, and the third is wide open.",
     ("31 ohm|heater", "33 ohm|heater", "open ohm|heater")),
]  # fmt: skip

COUNTED = [
    ("Amps on the fans, point nine, point nine, one flat.", "0.9 A", "0.9 A", "1 A"),
    ("Four fans in that case, point six amps on every one of them.", "0.6 A", "0.6 A", "0.6 A", "0.6 A"),
    ("Evaporator fans 1 and 2 are 0.5 amps, fan 3 is 0.6.", "0.5 A", "0.5 A", "0.6 A"),
    ("Six fans, all but the end one draw 0.4 amps.", *["0.4 A"] * 5),
    ("Fans: four. All but the third draw two point two amps, the third one two point nine.",
     "2.2 A", "2.2 A", "2.2 A", "2.9 A"),
    ("Heaters 1, 2 and 4 are 31 ohms, 3 is open.", "31 ohm", "31 ohm", "31 ohm", "open ohm"),
    ("Voltage at the compressor plug, one sixteen. Amps, nothing. Pulled the cord.", "116 V", "0 A"),
]  # fmt: skip

DEAD = [
    ("Isolated at the board, tested dead at the contactor, nil volts.", ("0 V|contactor",)),
    ("Isolator off and locked, tested dead, all three zero.", ("0 V", "0 V", "0 V")),
    ("Locked it out, tested dead, 0 volts 3 ways.", ("0 V", "0 V", "0 V")),
    ("Disconnect's pulled. Meter on the line side of the contactor, dead, good.", ("0 V|contactor|line",)),
    ("Isolator off, padlock. Voltage tester, nothing between all three and earth.", ("0 V", "0 V", "0 V")),
    ("Power was off for that, the disconnect, checked it, dead both legs.", ("0 V|L1", "0 V|L2")),
    ("Disconnect off, lock, meter reads nothing on three legs.", ("0 V", "0 V", "0 V")),
    ("Fan two is dead. The display is dead. Dead battery in the remote.", ()),
]

NONE = [
    "Compressor pulls 8 amps. The other one is dead, seized.",
    "Pulls 6 amps. I looked at the other two and found nothing.",
    "Head 210, suction 60, leak check nothing.",
]


@pytest.mark.parametrize("row", ROWS, ids=[r[0] for r in ROWS])
def test_nothing_on_one_of_a_row(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize("row", COUNTED, ids=[r[0] for r in COUNTED])
def test_one_value_of_several(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize(("text", "wanted"), OPEN, ids=[r[0] for r in OPEN])
def test_open_at_several_points(text: str, wanted: tuple[str, ...]) -> None:
    assert_row((text, *wanted))


@pytest.mark.parametrize(("text", "wanted"), DEAD, ids=[r[0] for r in DEAD])
def test_a_circuit_proved_dead_in_a_clause_of_its_own(text: str, wanted: tuple[str, ...]) -> None:
    assert_row((text, *wanted))


@pytest.mark.parametrize("text", NONE)
def test_no_nought_of_a_row(text: str) -> None:
    assert not [r for r in read_text(text).readings if r.value == 0]
