"""Numbers that tell things apart are no values, and what a meter shows on a dead circuit is one."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def _values(text: str) -> list[str]:
    readings = find(list(segments_of([text], "c1"))).readings
    return ["open" if r.state == "open" else f"{r.value:g} {r.unit}" for r in readings]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Case 5 is at 34 and case 6 is at 41.", ["34 degF", "41 degF"]),
        ("The middle one of three is warm. Box 46.", ["46 degF"]),
        ("Discharge air on 3 now 35, on 4 it's 33.", ["35 degF", "33 degF"]),
        ("Freezer 3 had ice. Freezer 3 is at minus 4.", ["-4 degF"]),
        ("Unit 2 on the roof, head 310. Unit 4, head 290.", ["310 psi", "290 psi"]),
        ("Left side of case 9 is 40 and the right side is 36.", ["40 degF", "36 degF"]),
        # Such a noun has a temperature as well.
        ("Box 38, ambient 88.", ["38 degF", "88 degF"]),
    ],
)
def test_which_one(text: str, values: list[str]) -> None:
    assert _values(text) == values


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Disconnect off and locked and tested dead on all three legs.", ["0 V"] * 3),
        ("Breaker off, lock on it, checked the terminals, dead.", ["0 V"]),
        ("Shut the breaker off and checked at the terminal block with the meter and that's dead.", ["0 V"]),
        ("Power off at the breaker, meter says dead at the contactor.", ["0 V"]),
        # The step alone.
        ("Isolated it and proved it dead.", []),
    ],
)
def test_dead(text: str, values: list[str]) -> None:
    assert _values(text) == values


def test_over_range_on_all_three() -> None:
    text = "Took the heaters loose, and to the frame none of them leak, it's over range on all three."
    assert _values(text) == ["open"] * 3
