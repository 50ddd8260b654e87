"""A gauge that is read aloud while it moves (invented talk; no outside source)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

Row = list[tuple[float, str]]

READ_ALOUD: list[tuple[str, Row]] = [
    ("Pump on. Fifteen hundred... nine hundred... five eighty... three ninety. Valve off. Four ten. Four thirty.",
     [(1500, "micron"), (900, "micron"), (580, "micron"), (390, "micron"), (410, "micron"), (430, "micron")]),
    ("Vac. 2,400. 1,100. 640. I'm having my coffee. 380. Isolate it. 10 minutes. 420.",
     [(2400, "micron"), (1100, "micron"), (640, "micron"), (380, "micron"), (420, "micron")]),
    ("It's fourteen degrees in the cabinet. Vacuum. Seven millibar. Two. Nought point eight... nought point five. "
     "Shut. Nought point six.",
     [(7, "mbar"), (2, "mbar"), (0.8, "mbar"), (0.5, "mbar"), (0.6, "mbar")]),
    ("Nitro. One hundred. Two hundred. Three ten. Shut the bottle. Twenty minutes. Three ten.",
     [(100, "psi"), (200, "psi"), (310, "psi"), (310, "psi")]),
    ("Head two ten, suction forty. Recovering now. Ninety. Forty-five. Twelve. Three... and that's inches. Six. Ten.",
     [(90, "psi"), (45, "psi"), (12, "psi"), (3, "psi"), (6, "inHg"), (10, "inHg")]),
    ("Head two ten, suction forty. I take everything out, ninety. Forty-five. Twelve. Zero. Eight inch. Shut.",
     [(90, "psi"), (45, "psi"), (12, "psi"), (0, "psi"), (8, "inHg")]),
    ("Pump on. Two thousand. Eleven hundred. Isolate. Sixteen hundred, that's wet. Break it with nitrogen. Again. Seven "
     "hundred. Three ninety. Two seventy. Isolate. Three ten.",
     [(2000, "micron"), (1100, "micron"), (1600, "micron"), (700, "micron"), (390, "micron"), (270, "micron"),
      (310, "micron")]),
]  # fmt: skip


@pytest.mark.parametrize(("said", "row"), READ_ALOUD)
def test_the_row_is_of_what_was_begun(said: str, row: Row) -> None:
    found = find(list(segments_of([said], "c1")))
    read = [(r.value, r.unit) for r in found.readings if r.quantity in {"vacuum", "pressure"}]
    assert [r for r in read if r in row] == row


def test_a_number_that_was_cut_short_is_asked_about() -> None:
    said = "Pump. Fourteen hundred... seven... three sixty. Valve shut. Three ninety."
    found = find(list(segments_of([said], "c1")))
    (cut,) = [r for r in found.readings if r.value == 700]
    assert cut.unit == "micron"
    assert any("hundreds were not said" in r for r in cut.review)


NO_ROW = [
    ("The water pump's noisy. Twelve hundred... nine hundred dollars, he reckons.", "micron"),
    ("Pumped it down. Thirty, twenty, two pounds on the low side.", "micron"),
    ("Pump on at ten forty. Back at eight thirty.", "micron"),
    ("Nitrogen just trickling. Joint one, two, three.", "psi"),
    ("Out she comes, the old motor. Ninety bucks. Forty for the blade. Twelve for the screws.", "psi"),
    ("The vacuum on the sheet, 350 it wants. 300 is better.", "micron"),
]


@pytest.mark.parametrize(("said", "unit"), NO_ROW)
def test_what_is_begun_otherwise_makes_no_row(said: str, unit: str) -> None:
    found = find(list(segments_of([said], "c1")))
    numbers = [r for r in found.readings if r.unit == unit and r.role == "measured" and not r.review]
    assert not [r for r in numbers if r.value not in {20.0, 30.0, 2.0}]


def test_inches_below_nought_are_as_deep_as_inches() -> None:
    (depth,) = find(list(segments_of(["Pulled it down to minus six inches."], "c1"))).readings
    assert (depth.value, depth.unit, depth.reference) == (6, "inHg", "vacuum_depth")
