"""The second opinion on what a number is: how it is asked, and that its weights fit the code."""

from __future__ import annotations

import numpy as np
import pytest

from dictate.errors import RecordError
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import Opinion, features, opinions
from dictate.mentions.second_opinion.net import Net, trained
from dictate.pipeline import read_text
from tests.narrations.labels import all_of


def test_the_weights_were_made_from_the_features_of_this_code() -> None:
    """Renamed features would leave the opinion without grounds, and silently so."""
    known = trained().rows
    seen = [
        name
        for labelled in all_of("develop")[::12]
        for _, one in features(Narration.from_text(labelled.text))
        for name in one
    ]
    assert sum(name in known for name in seen) > 0.85 * len(seen)


def test_chances_add_up() -> None:
    for opinion in opinions(
        Narration.from_text("Suction 68, head 210. Box at thirty eight, two fans.")
    ).values():
        assert sum(opinion.quantities.values()) == pytest.approx(1)
        assert 0 <= sum(opinion.now.values()) <= 1 + 1e-6
        assert all(opinion.of(q) <= opinion.quantities[q] + 1e-6 for q in opinion.now)


def test_weights_that_do_not_fit_are_refused() -> None:
    names = np.frombuffer(b"a\nb", dtype=np.uint8)
    classes = np.frombuffer(b"pressure|measured\nnone|none", dtype=np.uint8)
    data = {
        "features": names, "classes": classes, "hidden": np.zeros((2, 3), np.int8),
        "scale": np.ones(3, np.float32), "hidden_bias": np.zeros(3, np.float32),
        "out": np.zeros((4, 2), np.float32), "out_bias": np.zeros(2, np.float32),
    }  # fmt: skip
    with pytest.raises(RecordError, match="not fit"):
        Net(data)


def _say(monkeypatch: pytest.MonkeyPatch, shares: dict[str, float]) -> None:
    """Put an opinion of one's own in the place of the trained one: what is asked of it is under test here."""
    opinion = Opinion(shares, {q: 0.97 * share for q, share in shares.items() if q != "none"})

    def all_alike(narration: Narration) -> dict[int, Opinion]:
        return dict.fromkeys(range(len(narration.tokens)), opinion)

    monkeypatch.setattr("dictate.mentions.weighing.opinions", all_alike)
    monkeypatch.setattr("dictate.mentions.doubts.second_look.opinions", all_alike)
    monkeypatch.setattr("dictate.mentions.doubts.trust.opinions", all_alike)


def test_a_number_carried_to_what_it_cannot_be_is_taken_for_what_the_words_say(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """No motor of such a machine draws 160 A; a person is asked, and the first reading of it is kept."""
    _say(monkeypatch, {"temperature": 0.8, "current": 0.2})
    text = "I watched the compressor try. Seventy one amps, maybe four seconds, off. One sixty before."
    last = read_text(text).readings[-1]
    assert (last.value, last.unit) == (160, "degF")
    assert "it may be a current" in last.review[0]
    assert (last.candidates[0].value, last.candidates[0].unit) == (160, "A")


@pytest.mark.parametrize(("share", "values"), [(0.94, [119.0]), (0.5, [])])
def test_a_number_that_nothing_ties_is_taken_only_where_there_is_little_doubt(
    monkeypatch: pytest.MonkeyPatch, share: float, values: list[float]
) -> None:
    _say(monkeypatch, {"voltage": share, "none": 1 - share})
    readings = read_text("Then one nineteen over there.").readings
    assert [r.value for r in readings] == values
    assert all("because of the words around it" in r.review[0] for r in readings)


def test_a_bare_value_that_sounds_like_something_else_gets_a_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    _say(monkeypatch, {"none": 0.98, "temperature": 0.02})
    assert "do not sound like a value" in read_text("Box is at thirty eight.").readings[0].review[0]
    _say(monkeypatch, {"pressure": 0.05, "temperature": 0.95})
    assert read_text("Box is at thirty eight.").readings[0].review == []


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Locked in, eleven amps then three point four. Supply one sixteen.", True),
        ("Gas heat on, supply air one sixteen.", False),
        ("Return seventy six, supply fifty five.", False),
    ],
)
def test_a_supply_of_the_size_of_mains_is_asked_about(text: str, asked: bool) -> None:
    """Warm supply air and a supply voltage are said alike (mains of 105 to 127 V: ANSI C84.1)."""
    assert bool(read_text(text).readings[-1].review) == asked
