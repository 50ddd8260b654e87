"""Parts that are put off to another day, and work in words that only lead to it: "did the drier", "an offset"."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def steps(text: str) -> list[tuple[str, str]]:
    return [(s.step, s.status) for s in find(list(segments_of([text], "c1"))).steps]


@pytest.mark.parametrize(
    "said",
    [
        "Filters are shot, six of them, changing those next trip.",
        "The belt's worn, replacing it tomorrow.",
        "The upstairs unit gets a new contactor tomorrow.",
        "Both evaporators get new fan motors on the next visit.",
    ],
)
def test_what_comes_another_day_is_planned(said: str) -> None:
    assert steps(said) == [("part_replaced", "planned")]


def test_what_is_done_now_is_done() -> None:
    assert ("part_replaced", "done") in steps("Pulled the old belt, changing it now, and it runs quiet.")
    assert steps("The manager gets a new invoice tomorrow.") == []
    assert steps("The compressor gets hot when it runs tomorrow's load.") == []


@pytest.mark.parametrize("said", ["so that gets changed in the fall", "and it gets replaced next visit"])
def test_what_gets_changed_another_day_is_of_the_part_before_it(said: str) -> None:
    found = find(list(segments_of([f"The run cap reads forty-one, {said}."], "c1"))).steps
    assert [(s.step, s.status, s.component) for s in found] == [("part_replaced", "planned", "run capacitor")]


@pytest.mark.parametrize(
    "said", ["Dale did the drier because he was closer.", "Did the drier while it was open."]
)
def test_a_drier_that_somebody_did_was_exchanged(said: str) -> None:
    assert steps(said) == [("filter_drier_replaced", "done")]


@pytest.mark.parametrize(
    "said",
    [
        "The drier did its job.",
        "Did the drier get hot?",
        "I did the coil with the hose.",
        "Did the paperwork.",
    ],
)
def test_what_else_was_done_exchanges_nothing(said: str) -> None:
    assert {"part_replaced", "filter_drier_replaced"}.isdisjoint(code for code, _ in steps(said))


@pytest.mark.parametrize(
    "said",
    [
        "An offset of plus 8 was entered on the controller.",
        "The probe says 29, should be 32, so I gave it an offset of 3.",
        "Entered an offset of two degrees in the controller.",
    ],
)
def test_an_offset_that_was_entered_is_an_adjustment(said: str) -> None:
    assert ("adjusted", "done") in steps(said)
    assert ("adjusted", "done") not in steps("The offset of the probe was 3 when I came.")


def test_a_new_part_that_goes_in_another_day_is_planned_and_nothing_was_put_in() -> None:
    text = "New compressor goes in Thursday, the boss has to agree. Put it in nitrogen at fifty pounds."
    told = steps(text)
    assert ("part_replaced", "planned") in told
    assert {("part_replaced", "done"), ("charged", "done")}.isdisjoint(told)
    assert ("part_replaced", "done") in steps(
        "Old contactor's out. New contactor goes in, four screws, done."
    )
    assert ("filter_drier_replaced", "done") in steps(
        "Old drier is off. Got a new one, put it in with nitrogen."
    )
