"""The choice between decodes: what they agree on wins, loops are thrown away, and doubt is kept as evidence."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest

from dictate.record.transcript import Word
from dictate.speech.ranking import (
    Ballot,
    Hypothesis,
    comparable,
    looped,
    others,
    said_length,
    with_margins,
    words_of,
)

SPOKEN = {"two sixty-five": "265", "to hundred and five": "205", "five": "5", "nine": "9", "two twenty-nine": "229", "twenty-nine": "29"}  # fmt: skip


class SmallGrammar:
    """Knows digits and a few spoken numbers; likes pounds and ounces said in full."""

    version = "small"

    def score(self, text: str) -> float:
        return 1.0 if re.search(r"pounds? \w+ ounces", text) else 0.0

    def values(self, text: str) -> Sequence[tuple[int, int, str]]:
        spoken = "|".join(sorted(SPOKEN, key=len, reverse=True))
        found = re.finditer(rf"\d+(?:\.\d+)?|\b(?:{spoken})\b", text)
        return [(m.start(), m.end(), SPOKEN.get(m.group(), m.group())) for m in found]

    def rivals(self, text: str) -> Sequence[tuple[int, int, str]]:
        return ()


def hypothesis(text: str, score: float, source: str = "decode") -> Hypothesis:
    return Hypothesis(text, list(range(len(text.split()))), score, source)


def words(text: str) -> list[Word]:
    return [Word(text=t) for t in text.split()]


def test_the_value_that_the_decodes_agree_on_wins_over_the_better_score() -> None:
    ballot = Ballot(
        [
            hypothesis("Discharge line is at 2.65 degrees.", -0.09),
            hypothesis("Discharge line is at 265 degrees.", -0.16),
            hypothesis("Discharge line is at two sixty-five degrees.", -0.07, "words"),
        ],
        [hypothesis("discharge line is at 265 degrees.", -0.2, "witness")],
        SmallGrammar(),
    )
    best = ballot.best()
    assert best is not None and "2.65" not in best.text
    support = ballot.support()
    assert support["265", 0] > 0.8 > 0.2 > support["2.65", 0]


def test_the_grammar_decides_between_equals() -> None:
    ballot = Ballot(
        [hypothesis("Charged pounds ounces", -0.1), hypothesis("Charged pounds four ounces", -0.1, "words")],
        [],
        SmallGrammar(),
    )
    best = ballot.best()
    assert best is not None and best.text == "Charged pounds four ounces"


def test_a_value_that_only_one_decode_has_is_in_doubt_and_names_its_rival() -> None:
    text = "Head 205 and box 38"
    ballot = Ballot(
        [hypothesis(text, -0.1), hypothesis("Head 205 and box 48", -0.12, "words")],
        [hypothesis("Head 205 and box 38", -0.2, "witness")],
        SmallGrammar(),
    )
    chosen = ballot.candidates[0]
    sure, unsure = ballot.doubts(chosen, words(text))
    assert (sure.first_word, sure.support, sure.rivals) == (1, 1.0, [])
    assert (unsure.first_word, unsure.last_word) == (4, 4)
    assert 0.3 < (unsure.support or 0) < 0.6
    assert [(r.text, r.source) for r in unsure.rivals] == [("48", "words")]


def test_the_second_of_two_equal_values_is_another_value() -> None:
    ballot = Ballot([hypothesis("208 and 208", -0.1)], [hypothesis("208", -0.1, "witness")], SmallGrammar())
    support = ballot.support()
    assert support["208", 0] == 1.0
    assert support["208", 1] < 0.7


def test_a_homophone_is_a_candidate_that_shares_the_vote() -> None:
    ballot = Ballot(
        [
            hypothesis("Voltage now to twenty-nine", -0.08, "words"),
            hypothesis("Voltage now 229", -0.1),
        ],
        [],
        SmallGrammar(),
    )
    ballot.with_homophones(lambda text: list(range(len(text.split()))))
    assert any(h.text == "Voltage now two twenty-nine" for h in ballot.candidates)
    best = ballot.best()
    assert best is not None and [k for _, _, k in ballot.values(best.text)] == ["229"]
    (doubt,) = ballot.doubts(best, words(best.text))
    assert (doubt.support or 0) < 0.9


def test_no_hypothesis_no_choice() -> None:
    assert Ballot([], [hypothesis("205", -0.1, "witness")], SmallGrammar()).best() is None


def test_when_words_were_left_out_only_the_longer_ones_count() -> None:
    short, long = hypothesis("Legs are 205", -0.1), hypothesis("Legs are 205, amps 11.2, 11.5, 10.9", -0.3)
    ballot = Ballot([short, long], [hypothesis("Legs are 205", -0.1, "witness")], SmallGrammar())
    assert ballot.support()["11.2", 0] < 0.4
    assert ballot.best_longer(short) is long
    assert ballot.support()["11.2", 0] == 1.0  # who stopped early has no vote about what came later
    assert ballot.best_longer(long) is None
    assert ballot.best() is long


def test_a_model_number_is_not_taken_from_the_decode_without_digits() -> None:
    ballot = Ballot(
        [
            hypothesis("Model number K F-II-IV-Zero", -0.05, "words"),
            hypothesis("Model number KF240", -0.3),
        ],
        [],
        SmallGrammar(),
    )
    best = ballot.best()
    assert best is not None and best.text == "Model number KF240"


def test_said_length_counts_what_is_spoken() -> None:
    assert said_length("205") > said_length("205"[:2])
    assert said_length("1.5") == 4 + 5 + 4
    assert said_length("abc, d.") == 4


@pytest.mark.parametrize(
    ("text", "speech_s", "expected"),
    [
        ("flowing, " * 30, 8.0, True),
        ("ten twelve ten twelve ten twelve ten twelve", 8.0, True),
        ("Head pressure is 205 psi and suction is 22.", 4.0, False),
        ("leg one 120, leg two 120, leg three 120", 4.0, False),
        ("zero, zero and zero", 2.0, False),
        (" ".join(f"word{n}" for n in range(80)), 2.0, True),
    ],
)
def test_loops_and_impossible_speed(text: str, speech_s: float, expected: bool) -> None:
    assert looped(hypothesis(text.strip(), -0.1), speech_s) is expected


def test_alternatives_differ_in_more_than_marks() -> None:
    chosen = hypothesis("Box is at 38.", -0.1)
    ballot = Ballot(
        [chosen, hypothesis("box is at 38", -0.2), hypothesis("Box is at 48.", -0.3)],
        [hypothesis("box is at 38", -0.4, "witness")],
        SmallGrammar(),
    )
    assert [(a.text, a.source) for a in others(ballot, chosen)] == [
        ("Box is at 48.", "decode"),
        ("box is at 38", "witness"),  # the witness is kept also when it agrees
    ]


def test_forced_scores_become_margins_on_the_right_words() -> None:
    text = "Head 205 and box 38"
    doubts = with_margins(
        [], text, words(text), [(5, 8, "250"), (5, 8, "215"), (17, 19, "48")], [-4.0, -2.5, 1.5]
    )
    assert [(d.first_word, d.margin) for d in doubts] == [(1, 2.5), (4, -1.5)]
    assert [(r.text, r.score) for r in doubts[0].rivals] == [("215", -2.5), ("250", -4.0)]
    assert doubts[1].why


def test_only_rivals_in_the_same_style_are_compared() -> None:
    text = "head 205 and box thirty eight"
    rivals = [(5, 8, "250"), (5, 8, "two fifty"), (17, 23, "twenty"), (17, 29, "48")]
    assert comparable(text, rivals) == [(5, 8, "250"), (17, 23, "twenty")]


def test_characters_to_words() -> None:
    places = [(0, 4), (5, 8), (9, 12)]
    assert words_of(places, 5, 8) == (1, 1)
    assert words_of(places, 3, 10) == (0, 2)
    assert words_of(places, 4, 5) is None
