"""Numbers by which things are called are no values; where such a thing has a value, that is one.

Ways of speaking: common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row

NAMES = [
    ("Case nine is at minus seven, case ten minus nine. Case ten has one fan stopped.", "-7 degF", "-9 degF"),
    ("It's on breaker fourteen, room twelve down in the basement. Suction thirty-eight, head two ten.",
     "38 psi", "210 psi"),
    ("Freezer room, room 12, there's room 11 beside it. Room 12 is -14. Room 11 is -21. The coil in 12 is iced.",
     "-14 degC", "-21 degC"),
    ("Breaker 14 was off when I got here, I put that back and it held. Suction 104.", "104 psi"),
    ("Cold room 4 at the fish market, room 4 is at plus three.", "3 degF"),
    ("Freezer 1 minus 2, freezer 2 minus 4, freezer 3 is plus 9. Freezer 3 had a bad fan.",
     "-2 degF", "-4 degF", "9 degF"),
    ("Dairy lineup, cases 21 through 26. Case 21 is 34, case 22 35, case 23 is 44.", "34 degF", "35 degF", "44 degF"),
    ("Trailer 31 came in at 20.", "20 degF"),
    ("Reefer 12 on dock 5. Return air 31.", "31 degF"),
    ("Case 14 needs a defrost clock. Case 14 is 12 degrees.", "12 degF"),
    ("Pulled fuse 2 and fuse 3, both blown. Box 38.", "38 degF"),
    ("In cooler 2 the fans are off, cooler 2 is 46. Cooler 1 is 37.", "46 degF", "37 degF"),
    ("Case six superheat nine, case seven superheat four. Box 38.", "9 delta_degF", "4 delta_degF", "38 degF"),
    ("Valve 3 is stuck open. Superheat on 3 is 2, on 4 it's 9.", "2 delta_degF", "9 delta_degF"),
    ("Walk-in 2 reads 44. In walk-in 1 the fans are fine.", "44 degF"),
    ("Pump 2 is off on overload, pump 1 draws 6.1.", "6.1 A"),
    ("RTU 5 is the problem. RTU 5 head 290, ambient 96.", "290 psi", "96 degF"),
]  # fmt: skip

VALUES = [
    ("Compressor 12 amps, fan 1.1.", "12 A", "1.1 A"),
    ("Suction 40. Case at 38, discharge air 31.", "40 psi", "38 degF", "31 degF"),
    ("Room 72, box 36.", "72 degF", "36 degF"),
    ("Case 34 now, was 45 this morning.", "34 degF", "45 degF"),
    ("Freezer 4 above.", "4 degF"),
    ("Cooler 39 and falling.", "39 degF"),
    (
        "Plug back in. Chamber seven at a quarter of an hour, five point six an hour later.",
        "7 degF",
        "5.6 degF",
    ),
    ("Trailer was 20 when it came in.", "20 degF"),
]

SCALES = [
    ("Clamp on the 200 range, compressor pulls 22.4 amps.", "22.4 A"),
    ("The clamp was on the 600, so it rounds. Compressor 14.2.", "14.2 A"),
    ("I had it on the 20 volt scale, it read 4.8 amps.", "4.8 A"),
    ("Meter was on the 200 ohm scale. 44 ohms.", "44 ohm"),
    # A gauge is in a range, and that is its value.
    ("Suction in the 60 range, head 220.", "60 psi", "220 psi"),
]


MORE = [
    ("Went to 1450 Harbor Street, second floor, suite 12. Box 41.", "41 degF"),
    ("I worked shift 2 with Tom. Suction 40.", "40 psi"),
    ("Changed 4 fan blades and 2 motors, fans 0.6 amps.", "0.6 A"),
    ("Order number 5541, ticket 88. Head 220.", "220 psi"),
    ("Store 14 on route 9. Case 3 is 41.", "41 degF"),
    ("Used 3 sticks of silfos and 2 cans of nitrogen. Suction 62.", "62 psi"),
    ("Heater 2 45 ohms, heater 3 46.", "45 ohm", "46 ohm"),
    ("Heater 1 reads 45 ohms, heater 2 46.", "45 ohm", "46 ohm"),
    ("Fan 1 0.6 amps, fan 2 0.7, fan 3 0.6.", "0.6 A", "0.7 A", "0.6 A"),
    ("Machine 2 of 5, head 245.", "245 psi"),
    ("Level 3 parking, unit 17. Suction 118.", "118 psi"),
    ("Freezer 2's box is at 4.", "4 degF"),
    ("Box in 12 is 38.", "38 degF"),
    ("Room 204 fridge at 38.", "38 degF"),
    ("Gas bottle 3 empty. Head 210.", "210 psi"),
    ("Year 2019 unit, head 220.", "220 psi"),
    ("Fans 1 and 2 run, fan 3 doesn't. Fan 3 winding 22 ohms.", "22 ohm"),
    ("Circuits one and two both at 40 suction.", "40 psi", "40 psi"),
    ("Compressor 3 is down, compressors 1 and 2 pull 14.2 each.", "14.2 A", "14.2 A"),
    ("Evap 1 superheat 8, evap 2 superheat 22.", "8 delta_degF", "22 delta_degF"),
    ("Zone 1 valve 24 volts, zone 2 valve zero volts.", "24 V", "0 V"),
    ("Rack 2 suction 24, rack 3 suction 31.", "24 psi", "31 psi"),
    ("Trailer 4471 set to minus 10, return air 2.", "-10 degF", "2 degF"),
    ("Keg cooler 2, box 36.", "36 degF"),
    ("Pump 3 amps 6.2, pump 4 amps 6.4.", "6.2 A", "6.4 A"),
    ("Motor 2 windings 12, 12.1, 12. Motor 2 is fine.", "12 ohm", "12.1 ohm", "12 ohm"),
    ("Sensor 4 reads 12.1 K, sensor 5 reads 9.8 K.", "12100 ohm", "9800 ohm"),
    ("Valve 7 superheat 3. Valve 7 replaced.", "3 delta_degF"),
]


@pytest.mark.parametrize("row", [*NAMES, *VALUES, *SCALES, *MORE], ids=lambda r: r[0])
def test_readings(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)
