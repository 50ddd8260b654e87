"""What a meter said is one reading, however often it is told; and what no meter said is none.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: how windings, heaters and leaks are told is common practice; an insulation tester puts 250, 500 or 1000 V
on what it tests (IEEE 43-2013, table 1, gives the test voltages).
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

ROWS = [
    ("Top heater 24 ohms. The bottom one, I got nothing, wide open, no continuity whatsoever.",
     "24 ohm|heater", "open ohm|heater"),
    ("Top heater 58 ohms, bottom one reads open. Like, dead open.", "58 ohm|heater", "open ohm|heater"),
    ("T1 to T2 is 18.4 ohms, T2 to T3 OL, T1 to T3 OL. Open winding. To ground nothing.",
     "18.4 ohm|L1-L2", "open ohm|L2-L3", "open ohm|L1-L3", "open ohm|ground"),
    ("Contactor coil open. Fan motor open.", "open ohm|contactor", "open ohm|fan motor"),
    ("Voltage there 117. Winding is open, nothing between any of the leads. Clear to the frame.",
     "117 V", "open ohm", "open ohm|ground"),
    ("Three heaters. First fifty three ohms. All three clear to earth, above two hundred megohms.",
     "53 ohm|heater", "200000000 ohm|ground", "200000000 ohm|ground", "200000000 ohm|ground"),
    ("Compressor to ground 300 megohms, so it's not grounded.", "300000000 ohm|compressor|ground"),
    ("Compressor clear to ground. Fan motor clear to ground, 100 megohms.",
     "open ohm|compressor|ground", "100000000 ohm|fan motor|ground"),
    ("Motor resistance on the left 41 ohms. No ground, meter says OL to the frame.",
     "41 ohm|motor", "open ohm|motor|ground"),
    ("Compressor silent, nothing on the clamp, a flat zero.", "0 A|compressor"),
    ("Breaker off, meter says nothing line to line. Both dead heaters out.", "0 V|L1-L2"),
    ("Compressor 6.2 amps at 230 volts. Leak search. Nothing at the condenser, nothing at the compressor stubs.",
     "6.2 A|compressor", "230 V"),
    ("Went over it with the detector, nothing on the evaporator, nothing on the valve. Voltage at the fan 118.",
     "118 V"),
    ("Nothing in the electrical box was touched. 24 volts at the contactor coil.", "24 V|contactor"),
    ("Compressor windings 1.1, 1.1 and 1.2 ohms. 500 volt megger to the shell, 180 meg.",
     "1.1 ohm|compressor", "1.1 ohm|compressor", "1.2 ohm|compressor", "180000000 ohm|compressor|ground"),
    ("Amps, 19.8 on 1, 24.4 on 2, scratch that, 22.4 on 2, and 18.1 on the third.",
     "19.8 A", "24.4 A|retracted", "22.4 A", "18.1 A"),
    ("Fans, 0.9 on 1, 1.1 on 2, no sorry 1.2 on 2, 0.9 on 3.",
     "0.9 A", "1.1 A|retracted", "1.2 A", "0.9 A"),
    ("Current 41 on the first phase, 42 on the second, 40.", "41 A", "42 A", "40 A"),
    ("Amps 2.1 on heater 1, 2.2 on 2. Front seal drip was 1 teaspoon an hour, that's okay.", "2.1 A", "2.2 A"),
    ("Product was 5.8 degrees at half 11 and still going down.", "5.8 degC|product"),
    ("Freeze down took 9 minutes left, and 10 right. No, that's flipped, 10 left and 9 right.",
     "9 min|retracted", "10 min|retracted", "10 min", "9 min"),
    ("Amps now. High stage six point eight. Compressor two stage.", "6.8 A"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=[r[0][:60] for r in ROWS])
def test_told_once(row: tuple[str, ...]) -> None:
    """Each narration gives these readings and no other."""
    assert_row(row)


DOUBTED = [
    ("New fans both pulling point four amps, actually the left one's point four two.", 0.4),
    ("The valve coil ohmed fifteen, but the slide hung: sixty-one on the center tube.", 61),
    ("New capacitor, thirty-five at four hundred and fifty volt. The old one was four hundred.", 400),
    ("0.3 volts across pole one, 0.4 across pole two, and on the third one twenty-nine volts.", 129),
]


@pytest.mark.parametrize(("text", "value"), DOUBTED, ids=[t[:60] for t, _ in DOUBTED])
def test_asked_about(text: str, value: float) -> None:
    """A value whose words may belong to something else has a reason to look at it."""
    found = [r for r in read_text(text).readings if r.value == value]
    assert found and all(r.review or r.role != "measured" for r in found)


def test_two_amps_said_together_and_far_apart_are_asked_about() -> None:
    """Pressures behind amps are often told so; amps of a row that are alike need no question."""
    text = "Condenser fans 3.4, 3.5, 3.3 amps. Now two runs at 3.0 and 15.2."
    assert all(r.review for r in read_text(text).readings if r.value in (3.0, 15.2))
    assert not any(r.review for r in read_text("Condenser fans 3.4 amps. Now 3.0 and 3.2.").readings[1:])
