"""A machine named by a general word and then by its kind; amps told behind a capacitor; cut-ins (invented talk)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading
from dictate.writeup.machines import Machines


def _machines(text: str) -> list[str | None]:
    found = find(list(segments_of([text], "c1")))
    return [m.type for m in Machines(found.equipment).machines]


@pytest.mark.parametrize(
    ("said", "types"),
    [
        ("Ice machine at the market, it's the big flaker. Suction is 28.", ["ice flaker"]),
        ("Freezer down at the school. Walk-in freezer, the one by the kitchen.", ["walk-in freezer"]),
        ("Cooler at the deli isn't cold. It's the sandwich prep table by the door.", ["prep table"]),
        ("AC at the dentist is not cooling. It's a five ton rooftop. Suction 98.", ["rooftop unit"]),
        ("Freezer's fine, the walk-in freezer is warm. Box 28.", ["freezer", "walk-in freezer"]),
        ("Walk-in freezer and the display case. The freezer's at minus 10, the case at 38.",
         ["walk-in freezer", "display case"]),
        ("Ice machine number one, head 215. Ice machine number two, head 240.", ["ice machine", "ice machine"]),
    ],
)  # fmt: skip
def test_a_closer_name_is_no_second_machine(said: str, types: list[str]) -> None:
    assert _machines(said) == types


def _readings(text: str) -> list[Reading]:
    return find(list(segments_of([text], "c1"))).readings


@pytest.mark.parametrize(
    "said",
    [
        "Fan motor draws two point one amps. The capacitor was weak. New capacitor, one point two now.",
        "Fans pull 1.9 and 2.1 amps. Swapped the cap. New capacitor, one point four now.",
    ],
)
def test_amps_told_behind_a_new_capacitor_are_asked_about(said: str) -> None:
    last = _readings(said)[-1]
    assert last.quantity == "current" or last.review


def test_a_new_capacitor_that_was_measured_is_not_asked_about() -> None:
    found = _readings("Fan 2.1 amps, the cap is marked 5 mic and reads 2.8, new capacitor 5.1 now.")
    assert [(r.value, r.review) for r in found if r.quantity == "capacitance"][-1] == (5.1, [])


def test_where_nothing_says_what_is_cut_in_and_out_it_is_asked() -> None:
    found = _readings("Suction is thirty psi. Cut in's at forty-five, cut out's twenty.")
    settings = [r for r in found if r.role == "target"]
    assert [(r.value, r.unit) for r in settings] == [(45, "psi"), (20, "psi")]
    assert all(r.review for r in settings)


def test_a_box_is_cut_in_and_out_in_degrees() -> None:
    found = _readings("Box at 38. Cut in 41, cut out 36.")
    assert [(r.value, r.unit, r.role) for r in found] == [
        (38, "degF", "measured"),
        (41, "degF", "target"),
        (36, "degF", "target"),
    ]
