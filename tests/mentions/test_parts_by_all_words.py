"""Parts and steps that the text encoder tells of: taken with a reason, never twice, never of a few words."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from dictate.mentions import find
from dictate.mentions.handled import by_all_words
from dictate.mentions.handled.by_all_words import NOTHING, SURE, UNLIKE, UNLIKE_IT, WHY, mentions_of
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.second_opinion import encoder, parts_by_encoder
from dictate.mentions.steps import second_opinion
from dictate.record.mentions import Mentions

NAMES = ["replaced|done", "cleaned|done", "replaced|planned", NOTHING]
VISIT = (
    "Bar cooler on the left, not cooling, the customer says since Friday. Box was at fifty one, suction at "
    "twelve, head one ninety. Compressor hums and drops out, so it is start gear. {} After that it started at "
    "once, six amps running, box came down to thirty nine and was still going down when I left the place."
)


def taken(said: str, monkeypatch: pytest.MonkeyPatch, kind: str, share: float, of: str) -> Mentions:
    """Read a visit with an encoder that says this share of a kind of every part whose words hold `of`."""

    def parts(narration: Narration, places: Any) -> tuple[list[str], list[list[float]]]:
        rows = []
        for start, end in places:
            row = [0.0] * len(NAMES)
            here = of in narration.lowers[start:end]
            row[NAMES.index(kind if here else NOTHING)] = share if here else 1.0
            rows.append(row)
        return NAMES, rows

    monkeypatch.setattr(by_all_words, "parts_by_encoder", parts)
    return find(list(segments_of([VISIT.format(said)], "c1")))


def test_a_part_that_no_pattern_took_is_taken_with_a_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    said = "Potential relay, I had its brother in the van, four spades and home."
    mentions = taken(said, monkeypatch, "replaced|done", SURE + 0.05, "relay")
    (part,) = [p for p in mentions.parts if p.action == "replaced"]
    assert "relay" in part.name
    assert WHY in part.review
    (step,) = [s for s in mentions.steps if s.step == "part_replaced"]
    assert (step.component, step.status) == (part.name, "done")
    assert WHY in step.review


def test_what_is_planned_is_a_step_and_no_part(monkeypatch: pytest.MonkeyPatch) -> None:
    said = "Potential relay is living on borrowed time, the office has the paperwork."
    mentions = taken(said, monkeypatch, "replaced|planned", SURE + 0.05, "relay")
    assert [p for p in mentions.parts if p.action == "replaced"] == []
    assert [(s.step, s.status) for s in mentions.steps if s.step == "part_replaced"] == [
        ("part_replaced", "planned")
    ]


@pytest.mark.parametrize(
    ("said", "kind", "share"),
    [
        # Not sure enough; nothing was done; a doing with that part was read already.
        ("Potential relay, I had its brother in the van.", "replaced|done", SURE - 0.05),
        ("Potential relay, I had its brother in the van.", NOTHING, 1.0),
        # Only found bad: nothing tells of another one.
        ("Bad potential relay, forty volts across it.", "replaced|done", 1.0),
    ],
)
def test_what_is_not_nearly_certain_stays_out(
    said: str, kind: str, share: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert [p for p in taken(said, monkeypatch, kind, share, "relay").parts if p.action == "replaced"] == []


def test_a_part_that_was_read_is_not_taken_again(monkeypatch: pytest.MonkeyPatch) -> None:
    said = "The relay rattled. Replaced the potential relay. Old relay is in the van."
    mentions = taken(said, monkeypatch, "replaced|done", 0.99, "relay")
    assert [(p.action, p.review) for p in mentions.parts if "relay" in p.name] == [("replaced", [])]
    assert len([s for s in mentions.steps if s.step == "part_replaced"]) == 1


def test_of_a_few_words_nothing_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(by_all_words, "parts_by_encoder", None)  # it would fail if it were asked
    monkeypatch.setattr(second_opinion, "steps_by_encoder", None)
    assert find(list(segments_of(["Potential relay, I had its brother in the van."], "c1"))).parts == []


def test_the_shares_of_a_part_add_up_to_one() -> None:
    narration = Narration.from_text(VISIT.format("Put a potential relay and a start capacitor in."))
    places, things = mentions_of(words_of(narration))
    names, shares = parts_by_encoder(narration, places)
    assert len(shares) == len(things) > 2
    assert NOTHING in names
    assert [sum(row) for row in shares] == pytest.approx([1.0] * len(shares), abs=1e-3)
    assert [round(sum(row), 3) for row in parts_by_encoder(narration, [])[1]] == []


def test_a_part_in_a_window_that_was_not_read_has_no_row(monkeypatch: pytest.MonkeyPatch) -> None:
    narration = Narration.from_text(VISIT.format("Put a potential relay in.") * 12)
    places, _ = mentions_of(words_of(narration))
    monkeypatch.setattr("dictate.mentions.second_opinion.encoder.model._FEWEST", 1)
    monkeypatch.setattr("dictate.mentions.second_opinion.encoder.model._AN_HOUR", 0)
    _, shares = parts_by_encoder(narration, places)
    assert [] in shares
    assert any(shares)
    read = encoder.read(narration, [1.0] * len(encoder.row_of(narration).numbers))
    odds = encoder.log_odds_of_steps(read, places)
    assert np.isnan(odds[:, 0]).tolist() == [row == [] for row in shares]


def test_a_doing_without_a_verb_is_asked_about_where_the_words_tell_of_none(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """ "Measures 410, new one is 420" compares, and fits nothing."""
    said = "Contactor coil measures four ten ohms, new one is four twenty, so it is not the coil."
    alone = taken(said, monkeypatch, NOTHING, UNLIKE + 0.01, "contactor")
    assert [UNLIKE_IT in p.review for p in alone.parts if "coil" in p.name] == [True]
    done = taken("Replaced the potential relay.", monkeypatch, NOTHING, 1.0, "relay")
    assert [(p.action, p.review) for p in done.parts] == [("replaced", [])]
