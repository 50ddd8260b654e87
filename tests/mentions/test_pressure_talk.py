"""Pounds that are a pressure, and inches that are a vacuum, by what stands around them.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: water, pumps and strainers are read in pounds per square inch on US jobs; common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

ROWS = [
    ("Swapped both filter cartridges. 34 pounds with the valve open now.", "34 psi"),
    ("Pulled out eleven pounds six. Down to fifteen inches and it stood.", "15 inHg"),
    ("Inlet water fifty eight degrees and forty five pounds at the hose bib.", "58 degF", "45 psi"),
    ("Suction while freezing left was 21 pounds, head 255.", "21 psi|suction", "255 psi|discharge"),
    ("Superheat at the evaporator seven. Suction drier drop is one and a half pounds.", "7 delta_degF", "1.5 psi"),
    ("Right pump four point one amps, forty-eight pounds.", "4.1 A", "48 psi"),
    ("Broke it with nitrogen to three pounds. Changed the pump oil.", "3 psi"),
    ("Suction 2 inches. No, that's 2 pounds.", "2 inHg|suction", "2 psi"),
]  # fmt: skip

MOVED = [
    ("Weighed in nine pounds. Water in the pan. It took two pounds more.", 9.0),
    ("Gauges across the strainer 31 in and 12 out so 19 pounds gone in the strainer.", None),
]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_pounds_and_inches_by_what_stands_around(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize(("text", "amount"), MOVED, ids=[r[0] for r in MOVED])
def test_what_is_lost_in_a_strainer_is_no_refrigerant(text: str, amount: float | None) -> None:
    found = [m.value for m in read_text(text).refrigerant]
    assert (amount in found) if amount else not found


PERCENT = [
    ("Anti-sweat controller says 62% duty.", "62 %"),
    ("Now valve is at 46%, superheat 7.5K.", "46 %", "7.5 delta_degC"),
    ("Humidity 61 percent. My hygrometer says 79 percent.", "61 %", "79 %"),
    ("Receiver twenty-two percent. Charged two bottles, now it shows forty-one percent.", "22 %", "41 %"),
    ("LFL meter on the deck reading 0%.", "0 %"),
    ("I am 100 percent sure. He gave me ten percent off. Half the coil, fifty percent, was blocked.",),
]  # fmt: skip


@pytest.mark.parametrize("row", PERCENT, ids=lambda row: row[0])
def test_percentages_that_are_read_off(row: tuple[str, ...]) -> None:
    assert_row(row)


AROUND = [
    ("Pressure was 0.9 bar, so gas is there, no, wait, that's with 23 in the room.", "0.9 bar", "23 degC|ambient"),
    ("Suction was 22 pounds, no wait, that's with 95 outside.", "22 psi|suction", "95 degF|ambient"),
    ("Head two ninety-two, that's fine for ninety-six out.", "292 psi", "96 degF|ambient"),
    ("Head is 231. That is a high head for 134.", "231 psi"),
    ("Head 190, no, 290 at 75 in the kitchen.", "190 psi|retracted", "290 psi|measured", "75 degF|ambient"),
]  # fmt: skip


@pytest.mark.parametrize("row", AROUND, ids=lambda row: row[0])
def test_the_air_around_puts_no_pressure_right(row: tuple[str, ...]) -> None:
    assert_row(row)


TIMES = [
    ("Freeze twenty minutes. Harvest two oh five.", "20 min", "2.0833 min"),
    ("Made two batches after, freeze twenty one and a half, harvest two minutes ten.", "21.5 min", "2.1667 min"),
    ("Coil got to 58 and she came off, 5 minutes 20.", "58 degF", "5.3333 min"),
    ("Condensate pump: float pulled up, starts, sixteen seconds to empty.", "16 s"),
    ("Let it go till it kicked off, twenty-two minutes.", "22 min"),
    ("Low stage starts, runs 3 minutes, stops.", "3 min"),
    ("Took me 20 minutes to clear. I left, came back, 20 minutes.",),
]  # fmt: skip


@pytest.mark.parametrize("row", TIMES, ids=lambda row: row[0])
def test_times_that_the_machine_took(row: tuple[str, ...]) -> None:
    assert_row(row)
