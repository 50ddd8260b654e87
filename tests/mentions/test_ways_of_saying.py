"""Ways of saying a value, each kind in many wordings: what it is of, in which unit, where, in which role.

A row is the narration and its readings, in order: "value unit | quantity, component, point or role | ...".
What stands behind the unit has to be one of those four of the reading; nothing else is looked at.
Sources: what is usual in speech is common practice; the units follow from what each thing is measured in.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row, readings

VOLTS_AT_A_PLACE = [
    ("Walk-in cooler, box temperature 38, 41 at the door. One twenty at the plug.",
     "38 degF|box", "41 degF", "120 V|receptacle"),
    ("Box 37. One nineteen at the terminals, one eighteen at the wire nuts.", "37 degF", "119 V", "118 V"),
    ("Box 37. Two oh four at the junction box.", "37 degF", "204 V"),
    ("Ambient 85. Plug's got one nineteen.", "85 degF|ambient", "119 V|receptacle"),
    ("Box 37. 119 at the wall.", "37 degF", "119 V|receptacle"),
    ("Suction 22. 230 at the isolator.", "22 psi|suction", "230 V|disconnect switch"),
    ("480 in and 212 out on L2.", "480 V|L2", "212 V|L2"),
    ("Contactor L1 480 in, 479 out. L3 481 in, 480 out.", "480 V|L1", "479 V|L1", "481 V|L3", "480 V|L3"),
    ("208 in, 208 out.", "208 V|line", "208 V|load"),
    ("Fan 2 stopped. 460 volt supply, measured 471, 468, 470. Between the control and motor 2 it's 0 on all three.",
     "460 V|rated", "471 V", "468 V", "470 V", "0 V", "0 V", "0 V"),
]  # fmt: skip

AMPS_BY_THE_VERB = [
    ("Head fan's drawing point two eight.", "0.28 A|condenser fan motor"),
    ("High side fan 1.2.", "1.2 A|condenser fan motor"),
    ("Low side fan pulling two point two.", "2.2 A|evaporator fan motor"),
    ("Cabinet fan pulling point four.", "0.4 A|evaporator fan motor"),
    ("Head's pulling 210.", "210 psi|discharge"),
    ("Box 40. Coil fans, four of 'em, number three's at one point three where the others are point eight.",
     "40 degF|box", "1.3 A|evaporator fan motor", "0.8 A|evaporator fan motor"),
    ("Fan motor two hundred and twenty nine volts and nought point two.", "229 V", "0.2 A|fan motor"),
    ("Compressor R.L.A. 4.2, drawing 3.9.", "4.2 A|rated|compressor", "3.9 A|measured|compressor"),
    ("M.C.A. 21, M.O.P. 30.", "21 A|rated", "30 A|rated"),
]  # fmt: skip

DIFFERENCES = [
    ("Subcool 10, 18 degree split.", "10 delta_degF|subcooling", "18 delta_degF|temperature_difference"),
    ("Superheat 8, 20 degree TD.", "8 delta_degF|superheat", "20 delta_degF|temperature_difference"),
    ("Subcooling 9, 15 degree rise across the condenser.",
     "9 delta_degF|subcooling", "15 delta_degF|temperature_difference"),
    ("Superheat 14 degrees, 19 degrees of split.",
     "14 delta_degF|superheat", "19 delta_degF|temperature_difference"),
    ("Superheat 11 and 12 degrees.", "11 delta_degF|superheat", "12 delta_degF|superheat"),
    ("Superheat 12, 8 degrees of subcooling.", "12 delta_degF|superheat", "8 delta_degF|subcooling"),
]  # fmt: skip

TIMES = [
    ("Freeze 16 minutes 40.", "16.6667 min|freeze"),
    ("Freeze cycle 18 min 30, harvest in 1 minute 35.", "18.5 min|freeze", "1.58333 min|harvest"),
    ("Freeze sixteen forty.", "16.6667 min|freeze"),
    ("Box was 52, and half an hour later 44.", "52 degF|box", "44 degF|box"),
    ("Suction at 5 minutes in 52, end of freeze 34.", "52 psi|suction", "34 psi|suction"),
    ("Box 44 after 45 minutes and 39 when I left.", "44 degF|box", "39 degF|box"),
    ("Box was 50, after an hour forty one, two hours thirty seven.", "50 degF", "41 degF|box", "37 degF|box"),
    ("Vacuum to 0.4 mbar, isolated the pump, after 10 minutes 0.5.", "0.4 mbar", "10 min|hold", "0.5 mbar"),
]

PULLS = [
    ("First pull twelve hundred, broke with nitrogen, second pull six hundred, broke it again, third pull two eighty.",
     "1200 micron", "600 micron", "280 micron"),
    ("Triple evac. First one 1500, second 800, third 350.", "1500 micron", "800 micron", "350 micron"),
    ("Pulled a vacuum on the low side, got to three ninety, closed it off, fifteen minutes, four sixty.",
     "390 micron", "15 min", "460 micron"),
    ("Pull down to 600, leaking hose, changed the hose, then to 310 microns.", "600 micron", "310 micron"),
    ("Vacuum: first pull got to nine hundred and came back to two thousand, second got to four hundred and held.",
     "900 micron", "2000 micron", "400 micron"),
    ("Pressured to 300, an hour later 300, two hours later 299.",
     "300 psi", "1 h", "300 psi", "2 h", "299 psi"),
]  # fmt: skip

WANTED = [
    ("I put it to 3 degrees.", "3 degF|target"),
    ("Set it at 36.", "36 degF|target"),
    ("Turned it down to 34.", "34 degF|target"),
    ("Wound it back to 4 degrees.", "4 degF|target"),
    ("It was set at 40, moved it down to 36.", "40 degF|target", "36 degF|target"),
    ("Controller I put at minus 20.", "-20 degF|target"),
    ("Product's at 26 and the right is at nineteen, nineteen's where you want it.",
     "26 degF|measured", "19 degF|measured", "19 degF|target"),
    ("Superheat 14, ten is what I'd want.", "14 delta_degF|measured", "10 delta_degF|target"),
    ("Box is at 38, it wants to be 35.", "38 degF|measured", "35 degF|target"),
    ("Box 38, these are happiest at 36.", "38 degF|measured", "36 degF|target"),
]  # fmt: skip

AIR = [
    ("Air 81, air coming off 58.", "81 degF|return", "58 degF|supply"),
    ("Off the coil 28, onto the coil 38.", "28 degF|supply", "38 degF|return"),
    ("Condenser: air on 30, air off 41.", "30 degF|ambient", "41 degF|condenser air out"),
    ("Air across the condenser 90, leaving 108.", "90 degF|ambient", "108 degF|condenser air out"),
    ("Return 75, off the coil 56.", "75 degF|return", "56 degF|supply"),
]

SIDES = [
    ("Low side left sixteen, right eighteen.", "16 psi|suction", "18 psi|suction"),
    ("Hopper on the left thirty nine, right forty.", "39 degF", "40 degF"),
    ("Beater motor left pulls three point one, right one's four point four.",
     "3.1 A|beater motor", "4.4 A|beater motor"),
    ("Capacitor on the beater, it's a thirty, I got eighteen. New one's thirty, reads thirty point four.",
     "30 uF|rated", "18 uF|measured", "30 uF|rated", "30.4 uF|measured"),
    ("Superheat 9. Cap for the compressor forty five reads forty four.",
     "9 delta_degF", "45 uF|rated", "44 uF|measured"),
]  # fmt: skip

GOES_ON = [
    ("Glycol 54 in, 44 out, ten degrees.", "54 degF", "44 degF", "10 delta_degF|temperature_difference"),
    ("Supply ninety seven, return sixty nine, twenty eight degrees.",
     "97 degF|supply", "69 degF|return", "28 delta_degF|temperature_difference"),
    ("The two lines are now inside of two degrees.", "2 delta_degF|temperature_difference"),
    ("Ten bar of nitrogen, it's nineteen degrees in here. Forty minutes later nine point nine, nineteen still.",
     "10 bar", "19 degC|temperature", "40 min", "9.9 bar", "19 degC|temperature"),
    ("Probe in ice water, forty two kilohms. New one in ice water, thirty two point four.",
     "42000 ohm", "32400 ohm"),
    ("Outlet gives me one twenty one, and one nineteen down at the compressor.", "121 V", "119 V"),
    ("Windings 2.6, 2.7 and 2.6.", "2.6 ohm", "2.7 ohm", "2.6 ohm"),
    ("The two good heaters are forty one ohms. Drain heater reads two hundred ten.", "41 ohm", "210 ohm"),
    ("It is ninety-one out and no cooling since yesterday.", "91 degF|ambient"),
    ("Superheat about six kelvin, nought point nine of an amp.", "6 delta_degC|superheat", "0.9 A"),
    ("Start relay clicks fine. I did check before I closed the box up, common to start 7.8.", "7.8 ohm|common-start"),
]  # fmt: skip

TAKEN_BACK = [
    ("Suction's one oh two, head's three eighty, three one eight, sorry, supply ninety four.",
     "102 psi", "380 psi|retracted", "318 psi|measured", "94 degF"),
    ("Fan's on six point five, nought point six five I should say.", "6.5 A|retracted", "0.65 A|measured"),
    ("Gear motor's three point one amps, no, that's the label, it's pulling two point four.",
     "3.1 A|rated", "2.4 A|measured"),
    ("Clutch coil three point six K, rubbish, three point six ohms.", "3600 ohm|retracted", "3.6 ohm|measured"),
    ("Box 38, 36, 41 in the three doors.", "38 degF|measured", "36 degF|measured", "41 degF|measured"),
]  # fmt: skip

STATES = [
    ("The coil ohms at open, nothing through it.", "open ohm"),
    ("Reversing valve coil's open, nothing going through it.", "open ohm"),
]

ALL = [
    row
    for rows in (
        VOLTS_AT_A_PLACE, AMPS_BY_THE_VERB, DIFFERENCES, TIMES, PULLS, WANTED, AIR, SIDES, STATES, GOES_ON,
        TAKEN_BACK,
    )
    for row in rows
]  # fmt: skip


@pytest.mark.parametrize("row", ALL, ids=lambda row: row[0][:60])
def test_row(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Pumped nitrogen to 250 at 11.40 and it was 250 still at 12.10.", [250, 250]),
        ("By 3.40 the display said 44 and it was 36 at the shelf when I left at 4.30.", [44, 36]),
        ("Box was 38 at 10.05, 36 by 10.30 and 35 when I left at 11.12.", [38, 36, 35]),
        ("Fired it up at 1.30. Suction 27, head 215.", [27, 215]),
        ("Compressor amps at 2.15, 2.20 and 2.10.", [2.15, 2.2, 2.1]),
        ("Amps settled at 11.25.", [11.25]),
    ],
)
def test_a_time_of_day_written_with_a_dot_is_no_value(text: str, values: list[float]) -> None:
    """What a recogniser makes of "twelve ten": behaviour of ours."""
    assert [r.value for r in readings(text)] == values
