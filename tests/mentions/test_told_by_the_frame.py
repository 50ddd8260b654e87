"""Bare numbers that the frame of their clause tells: times of the machine, sides, ends, the supply.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: what is timed and read on a refrigerating machine is common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

ROWS = [
    ("Left barrel froze in 11 minutes, right in 13.", "11 min|freeze", "13 min|freeze"),
    ("First defrost ran 31 minutes, second one 24, third 22.",
     "31 min|defrost", "24 min|defrost", "22 min|defrost"),
    ("Freeze 16 minutes this morning, 14 now.", "16 min|freeze", "14 min|freeze"),
    ("Freeze down took 9 minutes left and 8 right.", "9 min|freeze", "8 min|freeze"),
    ("First batch, freeze time 14 minutes 40, harvest 95 seconds. Second batch 13 minutes 50 and 90.",
     "14.6667 min|freeze", "95 s|harvest", "13.8333 min", "90 s|harvest"),
    ("It ran a defrost by itself and dropped out in twenty two. Fans came back.", "22 min|defrost"),
    ("The freeze was fifteen and a half, harvest a minute ten.", "15.5 min|freeze", "1.1667 min|harvest"),
    ("70 to 3 degrees took 85 minutes with a full trolley.", "70 degF", "3 degF", "85 min"),
    ("Box went from 58 to 36 in two hours.", "58 degF|box", "36 degF|box", "2 h"),
    ("Rinse is ninety seconds, fill is 70.", "90 s", "70 s"),
    ("It short cycles, on for ninety seconds, off for three minutes.", "90 s", "3 min"),
    ("Locked up for four seconds, then clicks off.", "4 s"),
    ("Pump down takes forty seconds.", "40 s"),
    ("Compressor pulls 12.4 amps, in is 22, out is 29 now.",
     "12.4 A|compressor", "22 degF", "29 degF"),
    ("Condenser fan two amps, on is 30, off is 41.",
     "2 A|condenser fan motor", "30 degF|ambient", "41 degF|condenser air out"),
    ("It went into defrost, heaters on, terminated at fifty eight.", "58 degF"),
    ("Defrost ended at fifty two, coil was clear.", "52 degF"),
    ("Overload's good and line voltage is 231.", "231 V|line"),
    ("Overload is ohmed out fine, line voltage two oh nine.", "209 V|line"),
    ("Twenty six degrees out, roof's dry.", "26 degF|ambient"),
    ("Coil sensor 16.2 k, defrost sensor 15.9, and the spare 10.",
     "16200 ohm|temperature sensor", "15900 ohm|temperature sensor", "10000 ohm|temperature sensor"),
    ("Eleven ounces says the sticker.", "11 oz|rated"),
    ("Nineteen ounces of 290 according to the sticker.", "19 oz|rated"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=[r[0] for r in ROWS])
def test_told_by_the_frame(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize(
    "text",
    [
        "We were there two hours, second one three.",
        "Took me two hours. Box from 58 to 36.",
        "Stopped at the shop after 20.",
        "Recovery took an hour.",
    ],
)
def test_no_time_of_the_machine(text: str) -> None:
    assert not [r for r in read_text(text).readings if r.quantity == "duration"]


def test_a_side_behind_degrees_is_no_pressure_without_a_question() -> None:
    """A discharge in degrees makes the suction behind it a temperature as likely as a pressure."""
    record = read_text("Prep fridge. Discharge 70 degrees Fahrenheit, suction 15.")
    assert [bool(r.review) for r in record.readings] == [False, True]
