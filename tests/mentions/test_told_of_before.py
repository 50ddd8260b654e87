"""Values of before and of somebody else, kinds of rooms, and goals: none of them was read now.

The sentences are our own; that a complaint is told only to be denied, and that a note on a machine is read out,
is common practice.
"""

from __future__ import annotations

import pytest

from dictate.mentions.movements import find_movements
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.steps import find_steps
from tests.mentions.case_files import readings

ROLES = [
    # somebody's account that the next sentence denies
    ("The cook figures it's five below in the freezer. It isn't. My probe says 18 degrees.", 18, "measured"),
    ("The waiter says she's humming all day and it's sixty in the box. Sixty it is not. Box is at 47.",
     60, "earlier"),
    ("The clerk says it's sixty in the box. Sixty it is not. Box is at 47.", 47, "measured"),
    ("Box is at 61, it is not cooling.", 61, "measured"),
    # papers of before
    ("Common to ground showed 300 ohms on yesterday's ticket. Compressor draws 6 amps.", 300, "earlier"),
    ("Receiver is at 40 percent, it was at 60 percent on my July visit.", 60, "earlier"),
    # on its way to what it will be
    ("The box is at 43 degrees on the way to 37.", 37, "expected"),
    ("The box is at 43 degrees on the way to 37.", 43, "measured"),
    # a kind of room, for which something is wished; a room that was read
    ("For a 50 degree room I'd expect 24 psi on the suction, and it's 16.", 50, "target"),
    ("Suction is 24 psi for an 80 degree kitchen.", 24, "measured"),
    # somebody else's machine
    ("Box is at 51. The neighbor's is at 38 degrees.", 38, "expected"),
    # what is printed, and what is in it
    ("Six microfarad is what's printed, 4.1 is what's in it.", 6, "rated"),
    ("Six microfarad is what's printed, 4.1 is what's in it.", 4.1, "measured"),
    # what was is nothing to come
    ("Nitrogen to 160 psi. I'm gonna lie if I say it held, it was 158 psi.", 158, "measured"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value", "role"), ROLES)
def test_what_was_not_read_now(text: str, value: float, role: str) -> None:
    assert [r.role for r in readings(text) if r.value == value][:1] == [role]


UNITS = [
    ("Vacuum pump on at nine. I won't quit until it gets to 450, and it went to 290.", 450, "micron"),
    ("R-404A. I was looking for 28 pounds or so on the suction.", 28, "psi"),
]


@pytest.mark.parametrize(("text", "value", "unit"), UNITS)
def test_of_what_a_goal_is(text: str, value: float, unit: str) -> None:
    assert [r.unit for r in readings(text) if r.value == value] == [unit]


AMOUNTS = [
    ("Reach-in, R-404A. Plate says a pound fourteen.", []),
    ("R-404A. Weighed in a pound fourteen.", [("charged", 1.875)]),
    # a note that somebody left, and a note of one's own
    ("R-404A. There's a sticker from their man inside, added 7 ounces, no date.", []),
    ("R-404A. Some guy left a tag on it. Added seven ounces, it says, May.", []),
    ("R-404A. I left a note on the door. Added seven ounces.", [("charged", 7)]),
    ("R-404A. Filled by my scale, added seven ounces, it says 7.0 exact.", [("charged", 7)]),
    # the plate of what is in it, and what went in by the plate
    ("Ice machine with R-404A in it, 30 ounces by the plate.", []),
    ("R-404A. Weighed in 30 ounces by the plate.", [("charged", 30)]),
    ("R-32. Then the whole label's worth by weight, 900 grams.", [("charged", 900)]),
    # taken back by a sentence of its own, and another movement behind
    ("R-449A. Recovered 3.1 kilos. No. Recovered 2.7.", [("recovered", 2.7)]),
    ("R-449A. Recovered 3.1 kilos. Weighed in 2.7.", [("recovered", 3.1), ("charged", 2.7)]),
]


@pytest.mark.parametrize(("text", "want"), AMOUNTS)
def test_amounts_of_others_and_of_plates(text: str, want: list[tuple[str, float]]) -> None:
    movements = find_movements(Narration(list(segments_of([text], "c1"))))
    assert [(m.direction, m.value) for m in movements] == want


def test_what_a_note_tells_is_no_step() -> None:
    text = "There's a note from the night man on the panel, added six ounces. I cleaned the coil."
    steps = find_steps(Narration(list(segments_of([text], "c1"))))
    assert [s.step for s in steps] == ["cleaned"]
