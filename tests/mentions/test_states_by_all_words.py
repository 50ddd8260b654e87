"""What a meter showed without a number, where only all the words around it tell."""

from __future__ import annotations

from typing import Any

import pytest

from dictate.mentions.by_all_words import states
from dictate.mentions.by_all_words.states import (
    OTHER_TALK,
    STATE_NOT_TAKEN,
    doubt_states,
    is_state,
    with_states,
)
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import NO_STATE, Told, encoder, told_of_words
from dictate.mentions.second_opinion.state_words import state_places
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading


def narration_of(text: str) -> Narration:
    return Narration(list(segments_of([text], "c1")))


def saying(word: str, state: str, share: float, component: str = "contactor", sure: float = 0.9) -> Any:
    """Return an encoder that says of one word what it is told to say, and of all others that they are talk."""

    def of(narration: Narration) -> dict[str, dict[tuple[int, int], Told]]:
        out: dict[str, dict[tuple[int, int], Told]] = {"state": {}, "component": {}, "point": {}}
        for place in state_places(narration):
            mine = narration.lowers[place[0]] == word
            names = [state, NO_STATE] if state != NO_STATE else [NO_STATE, "open"]
            out["state"][place] = Told(names, [share, 1 - share] if mine else [0.0, 1.0], 0 if mine else 1)
            out["component"][place] = Told([component, ""], [sure, 1 - sure], 0 if sure > 0.5 else 1)
            out["point"][place] = Told(["", "line"], [1.0, 0.0], 0)
        return out

    return of


def test_words_of_a_meter_are_found_but_in_numbers() -> None:
    narration = narration_of(
        "Goose chase, nothing there. Not a thing on it, O. L., and oh well, 0 volts. Dead."
    )
    words = narration.lowers
    assert [" ".join(words[a:b]) for a, b in state_places(narration)] == [
        "nothing", "not a thing", "o . l .", "oh well", "dead",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "word", "state", "wanted"),
    [
        ("Tried the coil, zilch.", "zilch", "open", [("resistance", None, "open")]),
        ("Top of it 240, below it zilch.", "zilch", "voltage", [("voltage", 0.0, "value")]),
        ("Clamped the fan and nada.", "nada", "current", [("current", 0.0, "value")]),
        ("Out of all three of the pins, zilch.", "zilch", "open", [("resistance", None, "open")] * 3),
        ("Neither of the elements. Both zilch", "zilch", "open", [("resistance", None, "open")] * 2),
        ("Three trucks outside. Zilch.", "zilch", "open", [("resistance", None, "open")]),
    ],
)
def test_what_no_rule_took_is_taken_with_a_reason(
    monkeypatch: pytest.MonkeyPatch, text: str, word: str, state: str, wanted: list[Any]
) -> None:
    narration = narration_of(text)
    monkeypatch.setattr(states, "told_of_words", saying(word, state, 0.95))
    readings = with_states(narration, Mentions())
    assert [(r.quantity, r.value, r.state) for r in readings] == wanted
    assert all(r.review == [STATE_NOT_TAKEN] and r.confidence <= 0.5 for r in readings)
    assert all(r.component == "contactor" and r.point is None and r.unit_assumed for r in readings)


def test_what_is_not_nearly_certain_is_left_out_and_so_is_a_place_that_is_not_likely(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    narration = narration_of("Tried the coil, zilch.")
    monkeypatch.setattr(states, "told_of_words", saying("zilch", "open", 0.8))
    assert with_states(narration, Mentions()) == []
    monkeypatch.setattr(states, "told_of_words", saying("zilch", NO_STATE, 1.0))
    assert with_states(narration, Mentions()) == []
    monkeypatch.setattr(states, "told_of_words", saying("zilch", "open", 0.95, sure=0.3))
    assert [r.component for r in with_states(narration, Mentions())] == [None]


def test_a_state_that_was_taken_is_not_taken_again_but_asked_about_where_it_sounds_like_other_talk(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    narration = narration_of("Ohmed the coil: open.")
    start = narration.lowers.index("open")
    taken = Reading(
        quantity="resistance", value=None, unit="ohm", state="open",
        at=narration.at(start, start + 1), heard="open", confidence=1.0,
    )  # fmt: skip
    monkeypatch.setattr(states, "told_of_words", saying("open", "open", 0.99))
    assert with_states(narration, Mentions(readings=[taken])) == [taken]
    doubt_states(narration, [taken])
    assert taken.review == []
    monkeypatch.setattr(states, "told_of_words", saying("open", NO_STATE, 0.95))
    doubt_states(narration, [taken])
    assert taken.review == [OTHER_TALK]


def test_of_a_few_words_nothing_is_said() -> None:
    assert told_of_words(narration_of("Ohmed the coil: open.")) == {}


def test_the_shares_of_each_word_add_up() -> None:
    text = "Ohmed the coil of the contactor and it was open. Nothing wrong with the door. " * 5
    heads = told_of_words(narration_of(text))
    assert len(heads["state"]) == 10
    for shares in heads.values():
        assert all(sum(read.shares) == pytest.approx(1, abs=1e-3) for read in shares.values())
    assert NO_STATE in encoder.trained().names["state"]


@pytest.mark.parametrize(
    ("state", "share", "sure"),
    [("open", 0.96, True), ("open", 0.9, False), ("voltage", 0.99, False), (NO_STATE, 0.99, False)],
)
def test_what_the_encoder_hears_as_well_is_not_asked_about_for_its_words_alone(
    monkeypatch: pytest.MonkeyPatch, state: str, share: float, sure: bool
) -> None:
    monkeypatch.setattr(states, "told_of_words", saying("zilch", state, share))
    narration = narration_of("Tried the coil, zilch.")
    reading = Reading(quantity="resistance", unit="ohm", state="open", at=narration.at(4, 5), heard="zilch")
    assert is_state(narration, reading, 4, 5) is sure
    assert not is_state(narration, reading, 1, 2)  # its words are no state at all
