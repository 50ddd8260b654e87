"""Numbers that are no reading (times, names, money, what is to come), and readings of the same shape."""

from __future__ import annotations

import pytest

from dictate.mentions.corrections.corrector import correct
from dictate.mentions.narration import Narration
from dictate.mentions.readings import find_readings
from dictate.pipeline import read_text

TIMES = [
    ("300 psi of nitrogen at ten oh five. At eleven oh five still 300.", [300, 300]),
    ("Nitrogen 150 psi. Back to 150 psi at one ten, and at two o'clock it reads 150.", [150, 150, 150]),
    ("Nitrogen at 300 psi, on at nine oh eight, off at nine forty.", [300]),
    ("At four thirty the left end of the box is 38.", [38]),
    ("Box at four thirty was 38 degrees.", [38]),
    ("Box was 41 at 25 after, 38 at ten of two.", [41, 38]),
    ("Head was 250 at one thirty, then 260 at two fifteen.", [250, 260]),
    ("At 10.05 the vacuum was 400 microns.", [400]),
    ("At five oh five I had 38 in the box.", [38]),
    ("By twelve oh six the box was down to 36.", [36]),
    # The same shape, and a value.
    ("Head is at two thirty, suction at sixty eight.", [230, 68]),
    ("Head pressure at four ten, suction at one eighteen.", [410, 118]),
    ("Voltage is at two oh eight, two oh nine.", [208, 209]),
    ("It was sitting at two oh five on the head.", [205]),
    ("Compressor draws 12 amps at two oh eight.", [12, 208]),
    ("Suction 68 at the unit, head at two ten.", [68, 210]),
    ("Discharge at two ten was high.", [210]),
]
NAMES = [
    ("This is trailer 47, the produce reefer. Box 38.", [38]),
    ("The open multi deck, case 12. Product 46.", [46]),
    ("Number one's the salad prep table, P T forty-eight, R two ninety. Rail 49.", [49]),
    ("Ice rink chiller, three compressors on one barrel, five oh seven in it. Suction 40.", [40]),
    ("Dairy case. Case is 38.", [38]),
    ("Reefer trailer. Trailer 38, ambient 90.", [38, 90]),
    ("The reach-in case 38, product 40.", [38, 40]),
]
OTHERS = [
    ("Suction 40, head 210. Two eighty for the labor.", [40, 210]),
    ("Suction 40, head 210. I quoted him twelve fifty for the compressor.", [40, 210]),
    ("Suction 40. Manager says 118 and 120 next week.", [40]),
    ("Weighed it in, not a gram over. Suction 40 psi.", [40]),
    ("It has tripped twice in the last twenty-four hours. Suction 40 psi.", [40]),
    ("Low side four pounds, the needle was never on zero.", [4]),
    ("Harvest took a minute and a half.", [1.5]),
    ("Suction is at zero psi.", [0]),
    ("Suction 68 for the job.", [68]),
]


@pytest.mark.parametrize(("text", "want"), [*TIMES, *NAMES, *OTHERS])
def test_values(text: str, want: list[float]) -> None:
    narration = Narration.from_text(text)
    found = correct(narration, find_readings(narration))
    assert [r.value for r in found if r.role != "retracted"] == want


def test_the_minutes_of_a_time_worked_are_no_value() -> None:
    """A time worked ends the job; "an hour, 38 in the box" goes on with a temperature."""
    text = "Supply's two three six. No gas touched. One hour fifty in all."
    assert [r.value for r in read_text(text).readings] == [236]
    assert [r.value for r in read_text("Ran it an hour, 38 in the box.").readings] == [38]


def test_a_doubted_value_of_a_working_time_is_left_out() -> None:
    assert [r.value for r in read_text("Hopper 38. I was here 10 to 1 30.").readings] == [38]
