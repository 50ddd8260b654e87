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


@pytest.mark.parametrize("row", [*NAMES, *VALUES, *SCALES], ids=lambda r: r[0])
def test_readings(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)
