"""Pressures left to stand that no word of gas or of a test goes with, and numbers that are none of them.

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: a repaired circuit is filled, left to stand and read again: common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text
from tests.mentions.case_files import assert_row

STOOD = [
    ("Fixed the flare. Two hundred fifty on it for half an hour, two forty nine at the end.",
     "250 psi", "0.5 h", "249 psi"),
    ("Sweated the bend back in. Two seventy five in it, forty minutes, two seventy five.",
     "275 psi", "40 min", "275 psi"),
    ("Brazed it. Threw one eighty on it, went for lunch, one seventy nine.", "180 psi", "179 psi"),
    ("New schrader core. Took it up to 300 and left it over lunch, 300 dead on.", "300 psi"),
    ("Repaired the pinhole. Bottled up 250 and came back to 244, that's forty minutes.",
     "250 psi", "244 psi", "40 min"),
    ("Reflared it. Shut in 22 bar over the weekend, 22 still there.", "22 bar", "22 bar"),
    ("Flare remade, 350 on the lines for twenty minutes, lost nothing.", "350 psi", "20 min"),
    ("Leak was the union. 18 bar on the circuit for an hour, 17.4 at the end.", "18 bar", "1 h", "17.4 bar"),
    ("Flare remade. Filled it to 300, half an hour, still 300.", "300 psi", "0.5 h", "300 psi"),
    ("Joint made. 40 bar in it overnight, 39.5 in the morning.", "40 bar", "39.5 bar"),
    ("Swapped the valve. Left 400 pounds in it while we ate, 400 when we got back.", "400 psi", "400 psi"),
    ("Soldered it up. Let it stand for an hour at three hundred, no drop.", "1 h|duration|hold", "300 psi"),
]  # fmt: skip

OTHER = [
    ("Flare tightened. Fed from 240, ran for an hour and never moved.",),
    ("Repair on the valve, paid two hundred for it, half an hour lost.",),
    ("Leak on the flare. They want 300 for an hour on these.",),
    ("Flare in. The motor had two thirty on it for ten minutes and still didn't turn.",),
    ("Brazed it. Left the meter on the coil for half an hour, still 208.",),
]


@pytest.mark.parametrize("row", STOOD, ids=[r[0] for r in STOOD])
def test_levels_of_a_standing_pressure(row: tuple[str, ...]) -> None:
    assert_row(row)


@pytest.mark.parametrize("row", STOOD, ids=[r[0] for r in STOOD])
def test_a_standing_pressure_is_a_pressure_test(row: tuple[str, ...]) -> None:
    steps = {(s.step, s.status) for s in read_text(row[0]).steps}
    assert ("pressure_tested", "done") in steps
    assert ("run_checked", "done") not in steps


@pytest.mark.parametrize("row", OTHER, ids=[r[0] for r in OTHER])
def test_no_standing_pressure(row: tuple[str, ...]) -> None:
    record = read_text(row[0])
    assert not [r for r in record.readings if r.quantity == "pressure" and not r.review]
    assert "pressure_tested" not in {s.step for s in record.steps if s.status == "done"}
