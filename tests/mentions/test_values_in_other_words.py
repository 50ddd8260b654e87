"""Values of several with a bound, logs with times of day, minutes once more, and what a meter said exactly.

A row is the narration and its readings, in order, as in test_ways_of_saying.py. Sources: 1 Torr = 1000 micron of mercury
and 1 m3 = 1000 L are from NIST Special Publication 811, appendix B; that liquid stands near the head pressure, what a
megger and the letters of control terminals mean, and how a thermostat cycles is common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row

OF_SEVERAL = [
    ("Megger next: one and two both better than two hundred meg, and number three showed eleven K.",
     "200000000 ohm", "200000000 ohm", "11000 ohm"),
    ("Megged the compressor, all three pins over a thousand meg.", "1e9 ohm", "1e9 ohm", "1e9 ohm"),
    ("Heater one, two and three all read 44 ohms.", "44 ohm", "44 ohm", "44 ohm"),
    ("Then the fans, five of them: first three were all point one eight amps.", "0.18 A", "0.18 A", "0.18 A"),
    ("Fan 1, fan 2 and fan 3 all at 0.7 amps.", "0.7 A", "0.7 A", "0.7 A"),
    ("Windings are good: 1.6, 1.6, 1.7 ohms, nothing to the shell on any of them, over 200 megohms.",
     "1.6 ohm", "1.6 ohm", "1.7 ohm", "2e8 ohm|common-ground", "2e8 ohm|run-ground", "2e8 ohm|start-ground"),
    ("Breaker's off, I get zero volts both legs to ground and zero across.", "0 V", "0 V", "0 V"),
]  # fmt: skip

EMPTIED = [
    ("Got seventeen and a half ounces of R290 out, down to zero pounds.", "0 psi|pressure"),
    ("Pulled what was left into the jug, three pounds ten ounces, down to ten inches. Swept it with nitrogen.",
     "10 inHg|pressure"),
    ("Label on the receiver says nine and a half pounds is the full charge.", "9.5 lb|mass|rated"),
]  # fmt: skip

LOGS = [
    ("Vacuum: started eight ten. At nine it was twelve hundred. Changed the oil in the pump. Nine forty, four fifty.",
     "1200 micron|vacuum", "450 micron|vacuum"),
    ("Vacuum pump on at ten past eight. At nine it was twelve hundred. Nine thirty, eight hundred. Ten fifteen, "
     "four eighty.", "1200 micron", "800 micron", "480 micron"),
    ("Vacuum pump on. Pulled to nine thirty, eight hundred, seven ten.", "930 micron", "800 micron", "710 micron"),
    ("Legs to ground: one twenty, one nineteen. Pump on. A to B two ten, B to C two oh nine.",
     "120 V", "119 V", "210 V", "209 V"),
]  # fmt: skip

PRESSURES = [
    ("Suction forty-nine, head two twenty-two, liquid eighty-three at the receiver.",
     "49 psi", "222 psi", "83 degF|temperature|liquid"),
    ("Suction 34, head 250, liquid 241.", "34 psi", "250 psi", "241 psi|liquid"),
    ("Suction 0.7 bar, head 11, 2.1 amps.", "0.7 bar", "11 bar|discharge", "2.1 A"),
    ("Water pressure 2.4 bar in front of the strainer and 1.5 behind. Strainer cleaned. After that 2.3 in front and "
     "2.2 behind.", "2.4 bar", "1.5 bar", "2.3 bar|pressure", "2.2 bar|pressure"),
    ("Opened the expansion valve half a turn. Now it's 41 pounds and the line is 26 degrees, superheat 8.",
     "41 psi", "26 degF", "8 delta_degF"),
    ("Suction was twenty pounds, fifteen below on the chart.", "20 psi", "-15 degF|temperature"),
    ("Suction 1.4 bar, minus 12 on the slider.", "1.4 bar", "-12 degC|temperature"),
    ("The suction drier stays in. Drop across it today is one pound.", "1 psi"),
]  # fmt: skip

AGAIN = [
    ("Flow was 9 gpm, cleaned the strainer, now it's 17.", "9 gal/min", "17 gal/min"),
    ("The flow meter gives twenty-two litres in the minute.", "22 L/min"),
    ("Flow is 2 cubic metres in the hour.", "33.3333 L/min"),
    ("Glycol was at 22 percent, added two gallons, checks 31 now.", "22 %", "31 %"),
    ("Insulation tester to the shell, 0 meg, well the display said 0.02.", "0 ohm", "20000 ohm"),
    ("Superheat I got seven, then I moved the clamp and got eight.", "7 delta_degF", "8 delta_degF|superheat"),
    ("230, 231, 229 at the contactor, 9.2, 9.1, 9.4 running.",
     "230 V", "231 V", "229 V", "9.2 A", "9.1 A", "9.4 A"),
    ("Cabinet 44 and dropping, cut out at 35, came back on at 42. Second cycle cut out at 34.",
     "44 degF|box", "35 degF|box|measured", "42 degF|box", "34 degF|measured"),
]  # fmt: skip

METERS = [
    ("T one to T two reads one point nine ohms. T two to T three, nothing, meter just sits there on OL.",
     "1.9 ohm|L1-L2", "open ohm|L2-L3"),
    ("U to V 18.6 ohms, V to W over range and W to U over range. So one winding's open and that motor's had it.",
     "18.6 ohm", "open ohm", "open ohm"),
    ("Pump motor ohmed fourteen, wire to wire, and nothin' at all from the wires to the frame.",
     "14 ohm", "open ohm|ground"),
    ("Killed the breaker, and at the junction box there's no voltage leg to leg.", "0 V|L1-L2"),
    ("Line voltage at the contactor 229, across the fan terminals 0.", "229 V", "0 V"),
    ("228 volts across the reversing valve coil and the coil itself is one point two K.", "228 V", "1200 ohm"),
    ("Termination switch is 0.3 ohms with the coil at 19.", "0.3 ohm", "19 degF|coil"),
    ("Power on, forced it again. O terminal twenty-four point nine now.", "24.9 V"),
]  # fmt: skip

MINUTES = [
    ("Came out of defrost in twenty-two minutes and the fans waited another three.", "22 min", "3 min"),
    ("Demand defrost started by itself after 50 minutes, ran 4 and a half.", "50 min", "4.5 min"),
    ("Second batch came off at nineteen minutes flat, harvest a minute forty-five.", "19 min", "1.75 min"),
    ("Short cycling. She ran a bit, off for about three minutes, ran forty again.", "3 min"),
    ("I stood two hundred pounds on her for half an hour and at the end of the half hour it read two hundred.",
     "200 psi", "0.5 h", "200 psi"),
]  # fmt: skip

ROWS = [*OF_SEVERAL, *EMPTIED, *LOGS, *PRESSURES, *AGAIN, *METERS, *MINUTES]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0][:60])
def test_row(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)


RELATIONS = [
    ("New coil in, and it was left overnight under two hundred fifty pounds.", "="),
    ("Gauges say nineteen pounds standing.", "="),
    ("Megger says better than 200 meg to ground.", ">"),
]


@pytest.mark.parametrize(("text", "relation"), RELATIONS)
def test_relation(text: str, relation: str) -> None:
    """What a preposition in front of a value says of it, or does not."""
    from tests.mentions.case_files import readings

    assert [r.relation for r in readings(text)] == [relation]
