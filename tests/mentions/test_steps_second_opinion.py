"""The second opinion on steps: what it may add and doubt, and that its weights fit the code."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dictate.errors import RecordError
from dictate.mentions.narration import Narration
from dictate.mentions.patterns import words_of
from dictate.mentions.steps import find_steps
from dictate.mentions.steps.second_opinion import BY_WORDS, UNLIKE_IT
from dictate.mentions.steps.second_opinion.stretches import features, stretches_of
from dictate.mentions.steps.second_opinion.weights import Weights, trained
from dictate.record.visit import Step
from tests.narrations.labels import all_of


def made(classes: str, told: dict[str, list[tuple[int, float]]], bias: list[float]) -> Weights:
    rows = [(i, column, own) for i, of in enumerate(told.values()) for column, own in of]
    return Weights({
        "features": np.frombuffer("\n".join(told).encode(), dtype=np.uint8),
        "classes": np.frombuffer(classes.encode(), dtype=np.uint8),
        "rows": np.array([r for r, _, _ in rows]), "columns": np.array([c for _, c, _ in rows]),
        "weights": np.array([w for _, _, w in rows]), "bias": np.array(bias),
    })  # fmt: skip


def steps(text: str) -> list[Step]:
    return find_steps(Narration.from_text(text))


@pytest.fixture
def one_word(monkeypatch: pytest.MonkeyPatch) -> None:
    """Weights that know one word, "squeezed", as a pressure test, and nothing else."""
    own = made("pressure_tested|done", {"squeezed": [(0, 12.0)], "behind: squeezed": [(0, 40.0)]}, [-6.0])
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.trained", lambda: own)


@pytest.mark.usefixtures("one_word")
def test_a_step_that_no_phrase_tells_is_taken_with_a_reason() -> None:
    (step,) = steps("Suction 68. I squeezed the lot. Box at 38.")
    assert (step.step, step.status, step.heard) == ("pressure_tested", "done", "I squeezed the lot.")
    assert BY_WORDS in step.review


@pytest.mark.usefixtures("one_word")
@pytest.mark.parametrize(
    "text",
    [
        "If it drops again it gets squeezed.",
        "The last guy squeezed the lot.",
        "Back in March they squeezed the lot.",
        "It will be squeezed on Friday.",
    ],
)
def test_what_was_planned_or_done_by_others_is_not_taken(text: str) -> None:
    assert steps(text) == []


@pytest.mark.usefixtures("one_word")
def test_the_words_of_its_own_stretch_must_tell_it() -> None:
    """ "squeezed" in the next sentence makes the one before it look like a test: that is not enough."""
    assert [s.heard for s in steps("Suction 68. I squeezed the lot.")] == ["I squeezed the lot."]


@pytest.mark.usefixtures("one_word")
def test_a_step_told_by_a_phrase_is_doubted_where_the_words_are_unlike_it() -> None:
    (step,) = steps("Pressure tested it at 300 with nitrogen.")
    assert step.step == "pressure_tested"
    assert UNLIKE_IT in step.review


PLAIN = "Suction was 62 and head 210 with the box at 38, compressor 6.4 amps, supply 208. "


@pytest.mark.parametrize(("odds", "kept"), [(-9.0, False), (-4.0, True)])
def test_a_step_that_nothing_in_the_whole_visit_is_like_is_none(
    odds: float, kept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    def judge(narration: Narration, stretches: list[tuple[int, int]]) -> tuple[list[str], np.ndarray]:
        return ["pressure_tested|done"], np.full((len(stretches), 1), odds)

    own = made("pressure_tested|done", {"squeezed": [(0, 1.0)]}, [odds])
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.trained", lambda: own)
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.steps_by_encoder", judge)
    said = PLAIN * 3 + "Pressure tested it at 300 with nitrogen. " + PLAIN
    assert [s.step for s in steps(said)].count("pressure_tested") == kept
    # Of a few words the judges know too little to leave one out.
    assert "pressure_tested" in [s.step for s in steps("Pressure tested it at 300 with nitrogen.")]


def _by_both(monkeypatch: pytest.MonkeyPatch, name: str, word: str, odds: float) -> None:
    """Let both judges give a step these odds where a word is said, and hardly any elsewhere."""

    def judge(narration: Narration, stretches: list[tuple[int, int]]) -> tuple[list[str], np.ndarray]:
        said = [[odds if word in narration.lowers[start:end] else -9.0] for start, end in stretches]
        return [name], np.array(said)

    own = made(name, {word: [(0, odds + 9.0)]}, [-9.0])
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.trained", lambda: own)
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.steps_by_encoder", judge)


@pytest.mark.parametrize(
    ("name", "odds", "taken"),
    [
        ("run_checked|done", -1.9, True),  # that it ran is told by what was read meanwhile
        ("run_checked|done", -3.0, False),
        ("leak_checked|done", -1.9, False),
        ("leak_checked|done", -0.5, True),
        ("cleaned|done", -0.5, False),  # of some part, which nothing else tells
        ("cleaned|done", 1.5, True),
    ],
)
def test_how_sure_both_must_be_of_a_step_that_no_phrase_told(
    name: str, odds: float, taken: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    _by_both(monkeypatch, name, "wibbled", odds)
    found = [s for s in steps(PLAIN * 4 + "Then I wibbled all of it. " + PLAIN) if BY_WORDS in s.review]
    assert [(s.step, s.status) for s in found] == [(*name.split("|"),)] * taken


@pytest.mark.parametrize(("odds", "taken"), [(1.5, False), (2.6, True)])
def test_only_what_is_certain_is_taken_against_the_grammar_of_tense(
    odds: float, taken: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    _by_both(monkeypatch, "leak_checked|done", "wibbled", odds)
    said = PLAIN * 4 + "They would have wibbled it. " + PLAIN
    assert ("leak_checked" in [s.step for s in steps(said)]) == taken


def test_a_feature_counts_once_however_often_it_stands_there() -> None:
    own = made("pressure_tested|done", {"squeezed": [(0, 1.0)]}, [0.0])
    once, often = (
        own.judge(stretches_of(words_of(Narration.from_text(text))))[0, 0]
        for text in ("squeezed it", "squeezed it then squeezed that")
    )
    assert once == often


def test_what_is_looked_up_is_what_is_learned_from() -> None:
    """The features are made by name to learn from, and looked up word by word to judge."""
    own = trained()
    for labelled in all_of("develop")[::12]:
        rows = stretches_of(words_of(Narration.from_text(labelled.text)))
        for k, known in enumerate(own.known(rows)):
            told = {name: weight for name, weight, _ in features(rows, k, own.begins)}
            assert known == {own.row[name]: weight for name, weight in told.items() if name in own.row}


def test_the_weights_were_made_from_the_features_of_this_code() -> None:
    """Renamed features would leave the opinion without grounds, and silently so: many are met in few visits."""
    known = set(trained().of)
    for labelled in all_of("develop")[::12]:
        rows = stretches_of(words_of(Narration.from_text(labelled.text)))
        for k in range(len(rows)):
            known -= {name for name, _, _ in features(rows, k, trained().begins)}
    assert len(known) < 0.6 * len(trained().of)


@given(
    st.lists(st.sampled_from(["pulled", "the", "breaker", ",", ".", "and", "38", "so", "fan"]), max_size=120)
)
def test_stretches_cover_every_word_once_and_in_order(some: list[str]) -> None:
    words = words_of(Narration.from_text(" ".join(some)))
    covered = [i for row in stretches_of(words) for i in range(row.start, row.end)]
    assert covered == [i for start, end in words.sentences for i in range(start, end)]


def test_weights_that_do_not_fit_are_refused() -> None:
    with pytest.raises(RecordError, match="not fit"):
        made("pressure_tested|done", {"squeezed": [(1, 8.0)]}, [-4.0])


def test_the_change_of_a_drier_is_no_other_part_as_well(monkeypatch: pytest.MonkeyPatch) -> None:
    told = {"squeezed": [(0, 12.0)], "behind: squeezed": [(0, 40.0)]}
    own = made("part_replaced|done", told, [-6.0])
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.trained", lambda: own)
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.BY_PART", frozenset[str]())
    (other,) = steps("Suction 68. I squeezed the lot. Box at 38.")
    assert other.step == "part_replaced"
    found = steps("Suction 68. I squeezed and swapped the filter drier. Box at 38.")
    assert [s.step for s in found] == ["filter_drier_replaced"]


def test_what_was_told_as_done_is_not_denied_by_the_words_of_another_stretch(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    words = {"squeezed": [(0, 12.0)], "behind: squeezed": [(0, 40.0)]}
    own = made("charged|not_done", words, [-6.0])
    monkeypatch.setattr("dictate.mentions.steps.second_opinion.trained", lambda: own)
    told = [(s.step, s.status) for s in steps("Suction 68. Never squeezed the other circuit. Box at 38.")]
    assert told == [("charged", "not_done")]
    told = [(s.step, s.status) for s in steps("Charged it. Never squeezed the other circuit. Box at 38.")]
    assert told == [("charged", "done")]
