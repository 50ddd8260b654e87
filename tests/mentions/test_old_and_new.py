"""Old and new told beside each other: which part, which value, before or after."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.mentions.word_lists import phrase_at, word_list
from dictate.pipeline import read_text
from dictate.record.mentions import Mentions


def mentions_of(text: str) -> Mentions:
    return find(list(segments_of([text], "c1")))


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("New fan's in, an evaporator one, with the blade.", {"fan motor"}),
        ("New motor in, the condenser one.", {"motor"}),
    ],
)
def test_which_one_a_part_is_names_no_part(text: str, parts: set[str]) -> None:
    assert {p.name for p in mentions_of(text).parts} & {"evaporator coil", "condenser coil", *parts} == parts


@pytest.mark.parametrize(
    "text",
    [
        "New fan's in. It's drawing point four eight amps now, I said point nine earlier, that was the old.",
        "It's drawing point four eight amps now. I said point nine amps before, that was on the old motor.",
    ],
)
def test_what_was_said_of_the_old_part_takes_nothing_back(text: str) -> None:
    assert {r.value: r.role for r in mentions_of(text).readings}[0.48] == "measured"


def test_what_was_said_before_is_taken_back_where_nothing_is_old() -> None:
    roles = [(r.value, r.role) for r in mentions_of("Suction 31. I said 33 before, it was 31.").readings]
    assert (33.0, "retracted") in roles


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Fan one fine at two point three amps. Control fuse blown, two amp.", [2.3]),
        ("Fuse was gone, 5 amp. Compressor pulls 6 amps.", [6.0]),
        # A current that a fuse was read at, and a part's own rating, stay.
        ("Through the fuse I have 5 amps.", [5.0]),
    ],
)
def test_the_size_of_a_fuse_is_no_current(text: str, values: list[float]) -> None:
    assert [r.value for r in mentions_of(text).readings] == values


def test_a_heading_sets_against_what_was_told_before_it() -> None:
    record = read_text(
        "Walk-in freezer. Changed the defrost timer. Suction was 4 pounds, head 190. After: suction 12, head 215."
    )
    assert [(r.value, r.stage) for r in record.readings if r.quantity == "pressure"] == [
        (4.0, "as_found"), (190.0, "as_found"), (12.0, "as_left"), (215.0, "as_left"),
    ]  # fmt: skip


@pytest.mark.parametrize("text", ["Topped nothing up.", "Nothing topped up.", "Nothing was added."])
def test_nothing_topped_up_is_no_charge(text: str) -> None:
    assert [s.status for s in mentions_of(text).steps if s.step == "charged"] == ["not_done"]


def test_a_phrase_stands_at_no_place_outside_of_the_words() -> None:
    """A place before the first word is none, and not counted from the end."""
    assert phrase_at("self_correction_paused", [], -1) == 0
    assert all(
        phrase_at(name, [word], -1) == 0
        for name, word in [("stage_worked", w) for w in word_list("stage_worked")]
    )
