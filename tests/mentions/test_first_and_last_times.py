"""The start and the end of a visit that no words name: the first time of day that is told, and the last."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.labour.first_and_last import NO_END, NO_START
from dictate.mentions.narration import segments_of

BETWEEN = "Box was at 6. Suction 2 bar and head 11 bar. I changed the fan motor. It ran fine. Box came down to 3. Caps on."


def times(first: str, last: str) -> dict[str, tuple[str | None, list[str]]]:
    said = find(list(segments_of([f"{first} {BETWEEN} {last}"], "c1")))
    return {m.kind: (m.clock, m.review) for m in said.labour if m.kind in ("start", "end")}


@pytest.mark.parametrize(
    ("first", "last", "start", "end"),
    [
        ("Moseyed up at about five to ten.", "One thirty, home.", "09:55", "13:30"),
        (
            "Shop door unlocked itself at quarter of two, me behind it.",
            "Three forty, gone.",
            "13:45",
            "15:40",
        ),
        ("Half eight, kettle not even on.", "Quarter tae one and I was doon the road.", "08:30", "12:45"),
        ("Ten past seven and freezing.", "Ambled off nine twenty.", "07:10", "09:20"),
    ],
)
def test_a_time_that_no_words_name_is_taken_with_a_reason(
    first: str, last: str, start: str, end: str
) -> None:
    told = times(first, last)
    assert {kind: clock for kind, (clock, _) in told.items()} == {"start": start, "end": end}
    reasons = [why for _, review in told.values() for why in review]
    assert NO_START in reasons or NO_END in reasons


@pytest.mark.parametrize(
    ("first", "last"),
    [
        ("They rang at half six, it was warm.", "Set the defrost for half two."),
        ("Cellar cooler in the village.", "I'm coming back Thursday at half eight."),
        ("The alarm was at ten past four.", "The shop opens at half nine."),
        ("Suction four ten this time.", "Head two fifteen."),
    ],
)
def test_times_of_others_and_numbers_are_no_work(first: str, last: str) -> None:
    assert times(first, last) == {}


def test_a_named_start_keeps_its_time_and_no_end_lies_before_it() -> None:
    told = times("The milk was warm, I got here at eight thirty.", "Forty-five, and eight twenty.")
    assert told == {"start": ("08:30", [])}


def test_a_few_words_have_neither_begin_nor_end() -> None:
    said = find(list(segments_of(["Ten past seven. Box at 3."], "c1")))
    assert said.labour == []
