"""The second opinion on what a number is: how it is asked, and that its weights fit the code."""

from __future__ import annotations

import numpy as np
import pytest

from dictate.errors import RecordError
from dictate.mentions import second_opinion
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import features, opinions
from dictate.pipeline import read_text
from tests.narrations.labels import all_of


def test_the_weights_were_made_from_the_features_of_this_code() -> None:
    """Renamed features would leave the opinion without grounds, and silently so."""
    known = second_opinion._model().row
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
        assert 0 <= opinion.measured <= 1


def test_weights_that_do_not_fit_are_refused() -> None:
    names = np.frombuffer(b"a\nb", dtype=np.uint8)
    data = {
        "features": names, "quantities": names, "meanings": names, "weights": np.zeros((2, 3), np.int8),
        "scale": np.float32(1), "bias": np.zeros(4, np.float32),
    }  # fmt: skip
    with pytest.raises(RecordError, match="does not fit"):
        second_opinion._Model(data)


@pytest.mark.parametrize(
    "text",
    [
        "Compressor amps, fifty eight on the start. Voltage sags. Two thirty six before and two eleven during.",
        "I watched the compressor try. Seventy one amps, maybe four seconds, off. Two thirty six before, two eleven during.",
    ],
)
def test_a_number_that_is_no_current_is_taken_for_what_the_words_say(text: str) -> None:
    """Left out or carried on from amps by the rules; no motor of such a machine draws 236 A. A person is asked."""
    found = [r for r in read_text(text).readings if r.value in (236, 211)]
    assert [(r.value, r.unit) for r in found] == [(236, "V"), (211, "V")]
    assert all(r.review and r.unit_assumed for r in found)


def test_an_opinion_takes_no_reason_away_from_what_it_finds_unlikely() -> None:
    """A bare number behind amps that sounds like a count keeps its reason."""
    readings = read_text(
        "Fan's drawing one point two amps. Then I sat there and had four of my sandwiches."
    ).readings
    assert [r.value for r in readings if not r.review] == [1.2]
