"""Readings: what was measured, where, how it was said, and what is no reading."""

from __future__ import annotations

import time
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import dictate.mentions
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.transcript import Segment, Word
from tests.mentions.case_files import cases, check, readings, short


@pytest.mark.parametrize("case", cases("readings"), ids=lambda c: c["name"])
def test_case(case: dict[str, Any]) -> None:
    """Every reading of the narration, and no other."""
    check(case)


@pytest.mark.parametrize("case", cases("published"), ids=lambda c: c["name"])
def test_published_example(case: dict[str, Any]) -> None:
    """Values that a standard or a handbook prints, said aloud; the name of the case is the source."""
    check(case)


def test_the_unit_system_is_inferred() -> None:
    """Units that belong to one system decide; none said is an assumption."""
    metric = dictate.mentions.find(list(segments_of(["Suction 3.2 bar. Box 4."], "c1")))
    assert metric.units == "metric"
    assert [r.unit for r in metric.readings] == ["bar", "degC"]
    us = dictate.mentions.find(list(segments_of(["Suction 32 psi. Box 38."], "c1")))
    assert us.units == "us"
    silent = dictate.mentions.find(list(segments_of(["Compressor is pulling 6.2 amps."], "c1")))
    assert (silent.units, silent.units_assumed) == ("us", True)


def test_every_reading_points_at_its_words() -> None:
    """`at` and `heard` give the place; the words hold the number."""
    for reading in readings("Suction is at twenty two psi. Head 210."):
        assert reading.at.segment == 0
        assert reading.at.first_word is not None and reading.at.last_word is not None
        assert reading.heard


def test_a_recogniser_that_was_unsure_lowers_the_confidence() -> None:
    """The lowest probability of the words bounds the confidence of the value."""
    words = [Word(text=t, probability=p) for t, p in (("Suction", 0.9), ("22", 0.4), ("psi.", 0.9))]
    found = dictate.mentions.find([Segment(clip="c1", text="Suction 22 psi.", words=words)])
    assert [r.confidence for r in found.readings] == [0.4]


def test_decimal_ounces_from_a_recogniser_are_doubted() -> None:
    """The words "2.6 ounces" are how two pounds six ounces come out of a recogniser, so a reason says so."""
    words = [Word(text=t, probability=0.9) for t in ["Nameplate", "charge", "is", "2.6", "ounces."]]
    (found,) = dictate.mentions.find([Segment(clip="c1", text="", words=words)]).readings
    assert found.review
    assert (2.375, "lb") in [(c.value, c.unit) for c in found.candidates]


WORDS = [
    "suction",
    "head",
    "is",
    "at",
    "22",
    "208",
    "two",
    "fifty",
    "point",
    "eight",
    "volts",
    "amps",
    "psi",
    "degrees",
    "the",
    "box",
    "superheat",
    "and",
    ",",
    ".",
    "no",
    "wait",
    "to",
    "ground",
    "open",
    "nothing",
    "on",
    "line",
    "side",
    "contactor",
    "compressor",
    "common",
    "run",
    "start",
    "should",
    "be",
    "plate",
    "says",
    "last",
    "year",
    "if",
    "below",
    "about",
    "microns",
    "vacuum",
    "minutes",
    "between",
    "six",
    "seven",
    "percent",
    "inches",
    "nitrogen",
    "L1",
    "L2",
    "cap",
    "45/5",
    "R404A",
    "minus",
    "a",
    "half",
    "pounds",
    "ounces",
    "OL",
    "sorry",
    "I",
    "said",
]


@given(st.lists(st.sampled_from(WORDS), max_size=30))
@settings(max_examples=250, deadline=None)
def test_never_crashes_and_never_invents(words: list[str]) -> None:
    """Any row of words: no crash, and every value is made of numbers that are in the text."""
    text = " ".join(words)
    narration = Narration.from_text(text)
    numbers = find_numbers(narration)
    for reading in readings(text):
        if reading.state == "open" or reading.value in {0.0, None}:
            continue
        where = reading.at
        assert where.segment is not None and where.first_word is not None and where.last_word is not None
        span = range(where.first_word, where.last_word + 1)
        said = [n for n in numbers if any(narration.tokens[t].word in span for t in range(n.start, n.end))]
        slash = any("/" in narration.tokens[t].text for t in range(len(narration.tokens)))
        assert said or slash or "a half" in text, short(reading)


def test_twice_as_much_talk_takes_about_twice_as_long() -> None:
    """No look at a value walks over the whole visit; how fast an hour is read is measured by the benchmark."""
    texts = [c["text"].strip() for c in cases("readings")]
    seconds: list[float] = []
    for words in (1_500, 3_000, 6_000):
        lines: list[str] = []
        while sum(len(line.split()) for line in lines) < words:
            lines += texts
        segments = list(segments_of(lines, "c1"))
        start = time.process_time()
        dictate.mentions.find(segments)
        seconds.append(time.process_time() - start)
    assert seconds[2] < 3 * seconds[1]
