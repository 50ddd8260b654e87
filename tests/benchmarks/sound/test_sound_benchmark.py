"""The benchmark's own arithmetic, and that its sets are apart. The benchmark itself is a command, not a test."""

from __future__ import annotations

import math

import pytest

from dictate.record.transcript import Segment, Word
from tests.benchmarks.sound import human, plan
from tests.benchmarks.sound.score import auroc, figures, from_text, score, wilson


@pytest.mark.parametrize(
    ("right", "of", "low", "high"),
    # Newcombe, Two-sided confidence intervals for the single proportion, Statistics in Medicine 17 (1998), table I,
    # method 3 (Wilson's score interval without correction).
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_is_the_published_one(right, of, low, high):
    a, b = wilson(right, of)
    assert a == pytest.approx(low, abs=5e-5)
    assert b == pytest.approx(high, abs=5e-5)


def test_auroc_counts_pairs():
    good, bad = [0.9, 0.8, 0.5], [0.5, 0.2]
    pairs = sum(1.0 if g > b else 0.5 if g == b else 0.0 for g in good for b in bad)
    assert auroc(good, bad) == pytest.approx(pairs / 6)
    assert math.isnan(auroc([], bad))


def test_word_errors_are_the_edit_distance():
    assert human.word_errors(["a", "b", "c"], ["a", "x", "c", "d"]) == 2
    assert human.word_errors([], ["a"]) == 1
    assert human.normal("Press 21, please.") == ["press", "twenty", "one", "please"]


def test_the_sets_share_no_voice_and_no_narration():
    assert not set(plan.FIT_VOICES) & set(plan.RUN_VOICES)
    assert not {n.name for n in plan.fit_narrations()} & {n.name for n in plan.run_narrations()}


def test_the_run_set_is_as_large_as_promised():
    jobs = plan.run_jobs()
    assert len({j.voice for j in jobs}) >= 8
    assert len(plan.run_narrations()) >= 6
    labels = [
        r for j in jobs for r in (*j.narration.readings, *j.narration.movements) if not r.get("optional")
    ]
    assert len(labels) >= 300
    sexes = {about.split(",")[0] for about in plan.RUN_VOICES.values()}
    assert sexes == {"man", "woman"}
    for level in ("15dB", "10dB", "5dB"):
        assert {c.noise for j in jobs for c in j.conditions if c.name == level} == set(plan.NOISES)


def test_true_words_score_well_and_damaged_ones_do_not():
    narration = plan.run_narrations()[0]
    assert figures([from_text(narration)]).right >= 17
    spans = [(0.0, 10.0, line) for line in narration.lines]
    spans = [(i * 12.0, i * 12.0 + 10, line) for i, (_, _, line) in enumerate(spans)]
    words = [
        Word(text=w, start_s=13 + i, end_s=13.5 + i, probability=0.9)
        for i, w in enumerate(["It", "pulled", "39", "amps"])
    ]
    segment = Segment(clip="c1", text="It pulled 39 amps", words=words, start_s=13, end_s=18)
    done = score("x", "careful", narration, spans, [segment])
    assert [f.outcome for f in done.found] == ["wrong"]
    assert sum(label["state"] == "missed" for label in done.labels) == len(done.labels) - 1
