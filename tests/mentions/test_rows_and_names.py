"""Rows of values that are counted off or said short, names that are numbers, and times said without their unit.

A row is the narration and its readings, in order: "value unit | quantity, component, point or role | ...".
Sources: ways of speaking are common practice; that mains are 115 to 120, 200 to 240 or 380 to 480 volt is in
ANSI C84.1 and IEC 60038.
"""

from __future__ import annotations

import pytest

from dictate.mentions.spoken_numbers import parse
from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

ROWS = [
    ("Amps on the heaters, A leg six four, B leg six and a half, C leg six point six.",
     "6.4 A|L1", "6.5 A|L2", "6.6 A|L3"),
    ("Fan amps, five point nine, five point eight, six flat.", "5.9 A", "5.8 A", "6 A"),
    ("Heaters pull twenty point four, twenty point one, twenty flat.", "20.4 A", "20.1 A", "20 A"),
    ("Element ohms eleven two, eleven five, eleven flat.", "11.2 ohm", "11.5 ohm", "11 ohm"),
    ("Compressor amps: one twenty-two four, two twenty-one nine, three twenty-one eight.", "22.4 A", "21.9 A", "21.8 A"),
    ("Compressor one draws twenty-one point four, two is twenty-two even, three twenty-one eight.",
     "21.4 A|compressor", "22 A|compressor", "21.8 A|compressor"),
    ("Superheats, one is eight, two is ten, three nine.",
     "8 delta_degF|superheat", "10 delta_degF|superheat", "9 delta_degF|superheat"),
    ("Breaker on. Line's two oh six, two oh nine, two oh eight.", "206 V|voltage", "209 V|voltage", "208 V|voltage"),
    ("Suction line's forty one, box 36.", "41 degF|suction", "36 degF|box"),
    ("Volts on the legs one nineteen, one twenty, one twenty-one.", "119 V", "120 V", "121 V"),
    ("Checked it dead, leg to ground, zero, zero, zero.", "0 V", "0 V", "0 V"),
]  # fmt: skip

NAMES = [
    ("The condensing unit is a CU nine hundred, head 210.", "210 psi|discharge"),
    ("Outdoor section says CR forty-two. Ambient 80.", "80 degF|ambient"),
    ("The condensing unit is W F three oh. Suction 22.", "22 psi|suction"),
    ("Evaporator is a KV two four, box 36.", "36 degF|box"),
    ("Valve's a BX dash four four eight dash one, superheat 8.", "8 delta_degF|superheat"),
    ("Fan is an EM sixteen, 0.9 amps.", "0.9 A|fan motor"),
    ("TD ten, box 38.", "10 delta_degF", "38 degF|box"),
    ("A B four eighty, B C four seventy nine, A C four eighty-one.", "480 V|L1-L2", "479 V|L2-L3", "481 V|L1-L3"),
    ("SUCTION 62 HEAD 210", "62 psi|suction", "210 psi|discharge"),
    ("Put a half inch shim under it. Vacuum pulled to 400.", "400 micron"),
]  # fmt: skip

TIMES = [
    ("Freeze time thirteen and a half, harvest a minute forty.", "13.5 min|freeze", "1.6667 min|harvest"),
    ("Freeze took 14, harvest 2.", "14 min|freeze", "2 min|harvest"),
    ("Fill takes fifty seconds now.", "50 s|duration"),
    ("Pulled a vacuum, four eighty in an hour and ten.", "480 micron", "70 min"),
    ("Pulled 430, isolated 15, went to 450.", "430 micron", "15 min", "450 micron"),
    ("Pulled it down to 380. Valved off ten, 410.", "380 micron", "10 min", "410 micron"),
    ("Pressured it to 300 with nitrogen, held thirty, still 300.", "300 psi", "30 min", "300 psi"),
]  # fmt: skip


@pytest.mark.parametrize("row", [*ROWS, *NAMES, *TIMES], ids=lambda r: r[0])
def test_readings(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("one twenty-two four, two twenty-one nine, three twenty-one eight", [22.4, 21.9, 21.8]),
        ("one is thirty-two, two is thirty, three thirty-five", [32, 30, 35]),
        ("two thirty, two thirty-one, two twenty-nine", [230, 231, 229]),
        ("volts one eighteen, two eighteen", [118, 218]),
        ("one point four, two point five, three point four", [1.4, 2.5, 3.4]),
        ("zero zero zero", [0, 0, 0]),
    ],
)
def test_counted_off(text: str, values: list[float]) -> None:
    assert [n.value for n in parse(text) if n.form != "counted"] == pytest.approx(values)


@pytest.mark.parametrize(
    ("text", "amounts"),
    [
        ("Put one fifty of nitrogen on it, no I'm lying, two hundred fifty pounds. Held twenty minutes.", []),
        ("R404A system. Pressure test: put in two hundred fifty pounds, let it stand.", []),
        ("Put nitrogen in it, two hundred pounds, then another hundred pounds.", []),
        ("Put 250 pounds in it, dry nitrogen, over lunch. 404A", []),
        ("Broke the vacuum with nitrogen, weighed in 60 pounds.", [60]),
        ("Nitrogen in at 300 pounds, then bled it and charged 45 pounds of 404A.", [45]),
        ("Tested tight at two fifty on nitrogen. Vacuum to 300. Charged 85 pounds.", [85]),
    ],
)
def test_pounds_of_nitrogen_are_no_charge(text: str, amounts: list[float]) -> None:
    assert [m.value for m in read_text(text).refrigerant] == amounts
