"""The grammar that the recogniser asks: scores, values, and other wordings worth listening for."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dictate.mentions.hearing import MOST_PER_TEXT, TradeGrammar
from dictate.speech.engine import Grammar

GRAMMAR: Grammar = TradeGrammar()  # a type checker sees that the protocol is kept


@pytest.mark.parametrize(
    ("better", "worse"),
    [
        # Each pair is one that a recogniser really confuses (list of common practice in the trade's speech).
        ("recovered two pounds six ounces", "recovered 2.6 ohms"),
        ("recovered two pounds six ounces", "recovered 2.6 ounces"),
        ("charged 3 pounds 2 ounces of 404A", "charged £3.2 ounces of 404A"),
        ("recovered the four oh four A", "recovered the 4048"),
        ("the compressor is drawing 6.8 amps", "the compressor is drawing 6.8 ohms"),
        ("superheat is 12 degrees", "superheat is 12 pounds"),
        ("charged 2 pounds four ounces", "charged 2 pounds for ounces"),
        ("line voltage is 208 volts", "line voltage is $208"),
    ],
)
def test_what_the_trade_accepts_scores_higher(better, worse):
    assert GRAMMAR.score(better) > GRAMMAR.score(worse)


@pytest.mark.parametrize("text", ["Cleaned the coil.", "", "   ", "He said so."])
def test_words_without_values_are_neutral(text):
    assert GRAMMAR.score(text) == 0
    assert list(GRAMMAR.rivals(text)) == []


@pytest.mark.parametrize(
    ("text", "rival"),
    [
        ("suction is 15 psi", "50"),  # teen and ty
        ("suction is 60 psi", "16"),
        ("head pressure is 265 psi", "65"),  # the lost hundred
        ("head pressure is 65 psi", "265"),
        ("the fan draws 6.8 amps", "68"),  # the lost point
        ("suction is 25 psi", "29"),  # five and nine
        ("head is to 65 psi", "265"),  # to and two
        ("recovered 2.6 ounces", "2 pounds 6 ounces"),
        ("recovered 2.6 ohms", "2 pounds 6 ounces"),
        ("the fan draws fifteen amps", "fifty"),
        ("it reads five ohms", "nine"),
    ],
)
def test_rivals_hold_the_known_confusions(text, rival):
    wordings = list(GRAMMAR.rivals(text))
    assert rival in [r for _, _, r in wordings]
    for start, end, new in wordings:
        assert text[start:end] != new


def test_a_refrigerants_name_has_no_rivals():
    assert list(GRAMMAR.rivals("the refrigerant is R-404A")) == []


def test_the_same_value_has_the_same_key_however_it_is_written():
    def keys(text):
        return [key for _, _, key in GRAMMAR.values(text)]

    assert keys("two oh seven volts") == keys("207 volts")
    assert keys("two pounds eight ounces") == keys("2.5 pounds")
    assert keys("207 volts") != keys("270 volts")


@given(st.text(alphabet="0123456789 abcdefghijklmnopqrstuvwxyz.,-/£$'", max_size=80))
def test_any_text_is_answered_and_every_rival_lies_inside_it(text):
    assert isinstance(GRAMMAR.score(text), float)
    rivals = list(GRAMMAR.rivals(text))
    assert len(rivals) <= MOST_PER_TEXT
    for start, end, _ in rivals:
        assert 0 <= start < end <= len(text)


def test_the_version_names_the_vocabulary():
    assert GRAMMAR.version.startswith("trade-")
    assert GRAMMAR.version == TradeGrammar().version
