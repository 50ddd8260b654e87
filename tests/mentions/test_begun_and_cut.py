"""Numbers begun twice, names of a letter and a digit, rows between phases, nothing told as "nil", kilopascals.

The sentences are believable ones written for this test; what they mean is common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row, readings

ROWS = [
    # begun, broken off and said in full; but a row without a pause
    ("Compressor six, six... six point four amps.", "6.4 A|current|compressor"),
    ("Suction thirty... thirty-eight psi.", "38 psi|suction"),
    ("Fan amps are seven, seven point two and seven point one.", "7 A", "7.2 A", "7.1 A"),
    # between three phases nothing is a range
    ("Supply between phases 402, 405 and 403 volts.", "402 V|L1-L2", "405 V|L2-L3", "403 V|L1-L3"),
    ("Vacuum holds between 400 and 450 microns.", "400 micron", "450 micron"),
    # a letter and a digit are a name
    (
        "Two compressors. A one pulling nineteen amps, A two nineteen point four.",
        "19 A|compressor", "19.4 A|compressor",
    ),
    # nil is nought of a quantity only
    ("Superheat twenty kelvin, subcooling nil, zero.", "20 delta_degC|superheat", "0 delta_degC|subcooling"),
    ("Superheat 9 kelvin. Leaks nil.", "9 delta_degC|superheat"),
    # kilopascals are said once
    ("Ambient 29 Celsius. Suction 760, discharge 2,100 kilopascals.", "29 degC", "760 kPa|suction", "2100 kPa"),
    ("Ambient 29 Celsius. Suction 3.2, discharge 14 bar.", "29 degC", "3.2 bar|suction", "14 bar"),
    # ... also of all gauges at once, and spelled by its letters
    ("All pressures in kPa. Suction eighty, head eleven sixty.", "80 kPa|suction", "1160 kPa|discharge"),
    ("Back pressure one ten, head thirteen ninety, all kilopascals.", "110 kPa|suction", "1390 kPa|discharge"),
    ("Low side twenty-five kay pee ay. Ran it, low side ninety.", "25 kPa|suction", "90 kPa|suction"),
    ("I read everything in bar. Suction 3, head 15.", "3 bar|suction", "15 bar|discharge"),
    ("Landlord was in the bar. Suction 64, head 228.", "64 psi|suction", "228 psi|discharge"),
    # a side with its pressure beside the degrees of something else
    ("Suction 18 pounds, head 205, and 91 degrees in the store room.", "18 psi", "205 psi|discharge", "91 degF"),
    ("Head 250, and 88 degrees outside.", "250 psi|discharge", "88 degF"),
    # a control that acts both ways, in words that a comer and a goer has as well
    (
        "Suction 22 psi. Low pressure switch cutting out at 12 and in at one ten.",
        "22 psi|suction", "12 psi|low pressure switch", "110 psi|low pressure switch",
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_row(row: tuple[str, ...]) -> None:
    assert_row(row)


def test_relation_between_phases() -> None:
    assert [r.relation for r in readings("Supply between phases 402, 405 and 403 volts.")] == ["=", "=", "="]


def test_a_point_in_pieces_is_asked_about() -> None:
    (reading,) = readings("Back on, the drive motor 2 .6 amps.")
    assert reading.value == 2.6
    assert reading.review
    assert 0.6 in [c.value for c in reading.candidates]
    row = readings("Fan motors. Motor 1 .9 amps, motor 2 .8 amps.")
    assert [(r.value, bool(r.review)) for r in row] == [(0.9, False), (0.8, False)]


@pytest.mark.parametrize(
    "text",
    [
        "Air off the coil thirty-eight. That's four oh four A so, well, twelve saturated.",
        "The tank was at 8.2. I told you the tank was 8.2. It's 3.9 at four o'clock.",
    ],
)
def test_nothing_is_taken_back(text: str) -> None:
    assert "retracted" not in [r.role for r in readings(text)]
