"""Times and lengths that were read off a machine, beside those that people waited, worked, drove and cut.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: what is timed and measured on a refrigerating machine is common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

TIMED = [
    ("Put it in defrost by hand, it ended by itself at forty-eight degrees after seventeen minutes.",
     "48 degF", "17 min"),
    ("Watched the coil, and it kicked out at fifty six degrees. Eleven minutes.", "56 degF", "11 min"),
    ("Cord back in and the water on, it filled in 40 seconds and ice was there in about 5 minutes.",
     "40 s", "5 min"),
    ("Slow to fill. Timed it, six minutes forty.", "6.6667 min"),
    ("Compressor hums 8 seconds and clicks off.", "8 s"),
    ("It terminated on its own at nineteen minutes.", "19 min"),
    ("Compressor tries, hums for six seconds and the overload drops it out.", "6 s"),
    ("It starts, runs forty seconds and trips out.", "40 s"),
    ("Oil switch tripped at ninety-two seconds.", "92 s"),
    ("The flow switch stopped the machine after 8 seconds.", "8 s"),
    ("Slab let go in ninety seconds.", "90 s"),
    ("It pumped down in a minute and a half.", "1.5 min"),
    ("Short cycling, 40 seconds on and two minutes off.", "40 s", "2 min"),
    ("Fans came back on after four minutes.", "4 min"),
    ("Freeze 24 minutes, harvest 2 minutes. Second one 21 minutes flat.", "24 min", "2 min", "21 min"),
]  # fmt: skip

NOT_TIMED = [
    ("I let it run 20 minutes before taking readings.",),
    ("Customer says it trips after ten minutes.",),
    ("It quits after 20 minutes, she told me.",),
    ("I stopped for 15 minutes.",),
    ("Pulled the disconnect, came back after 20 minutes.",),
    ("Shut down the unit for ten minutes to let it equalize.",),
    ("It should trip within 60 seconds.",),
    ("I ran the machine for ten minutes and it tripped.",),
    ("Fell asleep for 20 minutes.",),
    ("The board comes out in two minutes once you get the cover off.",),
    ("Breaker tripped two hours ago.",),
]

LENGTHS = [
    ("Ice machine. Bridge came out an eighth of an inch once I had turned the probe in.", "0.125 in"),
    ("Three eighths of an inch of ice on the left half of the plate.", "0.375 in"),
    ("Frost 5 eighths of an inch thick on the back wall.", "0.625 in"),
    ("The belt's at half an inch now.", "0.5 in"),
    ("Belt's alright, 12 mm of play in it.", "12 mm"),
    ("Coil had a quarter inch of grease on it.", "0.25 in"),
]
NO_LENGTHS = [
    ("Cut out eight inches of the five eighths suction line.",),
    ("Quarter inch copper to the pressure switch.",),
    ("A 6 mm hex key did it.",),
    ("Ice on the five eighths suction line.",),
    ("Cut an inch and a half off the belt guard.",),
    ("Bridge the gap with a half inch strap.",),
    ("Belt is a half inch wide.",),
]
FLOWS = [
    ("I'm getting about a quart a minute.", "0.25 gal/min|flow"),
    ("Caught the drain in a bucket, that was point four of a gallon in a minute.", "0.4 gal/min|flow"),
]


ICE = [
    ("Ice machine. First batch 4.6 pounds.", "4.6 lb|mass"),
    ("Sheet weighs 3.2 pounds.", "3.2 lb|mass"),
    ("I'm getting 3.2 pounds a cycle.", "3.2 lb|mass"),
    ("Ten minutes of nuggets came to three pounds two ounces.", "3.125 lb|mass"),
    ("Caught what it made in 10 minutes, 3 pounds 2 ounces.", "3.125 lb|mass"),
]
DRAWS_NOTHING = [
    ("Left fan runs, 0.22 amps. Right fan isn't turning and draws nothing.", "0.22 A", "0 A"),
    ("Drain heater draws zip.", "0 A|drain heater"),
    ("208 at the contactor coil and the compressor draws nothing.", "208 V|coil", "0 A|compressor"),
]
NO_ICE = [
    ("Makes 400 pounds a day.",),
    ("Evaporator: two kilos of ice knocked off.",),
    ("Threw out 20 pounds of ice.",),
]


@pytest.mark.parametrize(
    "row",
    [*TIMED, *NOT_TIMED, *LENGTHS, *NO_LENGTHS, *FLOWS, *ICE, *NO_ICE, *DRAWS_NOTHING],
    ids=lambda row: row[0][:60],
)
def test_read_off_the_machine(row: tuple[str, ...]) -> None:
    assert_row(row)


def test_a_time_alone_behind_the_end_of_a_defrost_is_no_labour() -> None:
    record = read_text("Watched the coil, and it kicked out at fifty six degrees. Eleven minutes.")
    assert record.labour is None or record.labour.hours is None


def test_an_amount_at_the_very_end_of_the_words_breaks_nothing() -> None:
    assert read_text("two pounds of").readings == []


def test_ice_that_was_caught_is_no_refrigerant() -> None:
    assert read_text("Caught what it made in 10 minutes, 3 pounds 2 ounces.").refrigerant == []
    assert len(read_text("Pulled 2.2 pounds out of it, and the slab weighs 4.1 pounds.").refrigerant) == 1
