"""How sure a heard value is: evidence, flags, reasons and candidates."""

from __future__ import annotations

import math
import re

import pytest

from dictate.mentions import find
from dictate.mentions.confidence import evidence_of, judge, probability
from dictate.mentions.narration import segments_of
from dictate.record.mentions import Mentions
from dictate.record.transcript import Alternative, Doubt, Segment, Word
from dictate.vocabulary.load import table


def heard(text, p=0.95, snr=25.0, alternatives=(), doubts=(), low=()):
    """A segment as a recogniser gives it; `low` maps words to their own probability."""
    low = dict(low)
    words = [
        Word(text=w, start_s=i * 0.4, end_s=i * 0.4 + 0.3, probability=low.get(w.strip(".,"), p))
        for i, w in enumerate(text.split())
    ]
    return Segment(
        clip="c1",
        start_s=0,
        end_s=len(words) * 0.4,
        text=text,
        words=words,
        alternatives=[Alternative(text=t, score=s, source=k) for k, s, t in alternatives],
        doubts=list(doubts),
        snr_db=snr,
        score=-0.2,
        source="decode",
    )


def judged(*segments) -> Mentions:
    mentions = find(segments)
    judge(mentions, segments)
    return mentions


SURE = "The head pressure is 225 psi."
AGREED = (
    ("words", -0.2, "the head pressure is two hundred twenty five psi"),
    ("witness", -0.2, "The head pressure is 225 PSI."),
)


def test_typed_words_without_doubt_are_certain():
    m = judged(*segments_of([SURE], "c1"))
    assert m.readings[0].confidence == 1.0
    assert m.readings[0].review == []


def test_a_typed_doubt_lowers_the_confidence_and_keeps_its_reason():
    m = judged(*segments_of(["The head pressure is to 65 psi."], "c1"))
    assert m.readings[0].review
    assert m.readings[0].confidence < 1


def test_a_value_on_which_everything_agrees_carries_no_reason():
    spot = Doubt(first_word=4, last_word=4, margin=7.5, support=1.0)
    m = judged(heard(SURE, p=0.98, alternatives=AGREED, doubts=[spot]))
    assert m.readings[0].review == []
    assert m.readings[0].confidence > 0.9


def test_a_value_that_the_witness_and_the_other_decode_deny_is_flagged_with_what_they_heard():
    m = judged(
        heard(
            "The fan draws 50 amps.",
            p=0.6,
            snr=5,
            alternatives=[
                ("words", -0.3, "the fan draws fifteen amps"),
                ("witness", -0.3, "The fan draws 15 amps."),
            ],
            doubts=[
                Doubt(
                    first_word=3,
                    last_word=3,
                    margin=-1.0,
                    support=0.4,
                    rivals=[Alternative(text="15", score=1.0, source="align")],
                )
            ],
        )
    )
    (reading,) = m.readings
    assert reading.value == 50, "the value stays; a person decides"
    assert reading.review
    assert any("15" in reason or "fifteen" in reason for reason in reading.review)
    assert 15 in [c.value for c in reading.candidates]
    assert all(c.unit == "A" for c in reading.candidates)


def test_the_same_value_in_other_words_is_no_other_value():
    m = judged(
        heard(
            "Suction is 68 psi.",
            p=0.3,
            alternatives=[
                ("words", -0.3, "suction is sixty eight psi"),
                ("witness", -0.3, "Suction is 68 PSI."),
            ],
        )
    )
    assert m.readings[0].candidates == []


def test_the_place_in_the_sound_stays():
    m = judged(heard(SURE, p=0.2))
    at = m.readings[0].at
    assert at.start_s is not None and at.end_s is not None and at.end_s > at.start_s


def test_a_unit_that_cannot_be_is_a_reason_even_when_every_decode_agrees():
    text = "Line voltage is 15 amps."
    m = judged(
        heard(
            text,
            p=0.99,
            alternatives=[("words", -0.1, "line voltage is fifteen amps"), ("witness", -0.1, text)],
        )
    )
    assert all(r.review for r in m.readings)


def test_pounds_and_ounces_written_as_decimal_ounces_are_flagged_with_both_readings():
    m = judged(heard("Recovered 2.6 ounces of 404A.", p=0.9))
    (moved,) = m.movements
    assert moved.review
    pounds = [c.value for c in moved.candidates if c.unit == "lb"] + (
        [moved.value] if moved.unit == "lb" else []
    )
    assert any(math.isclose(v, 2.375) for v in pounds)


@pytest.mark.parametrize("p", [0.95, 0.5, 0.2, 0.05])
def test_less_probable_words_are_never_surer(p):
    def confidence(q):
        return judged(heard(SURE, p=q, alternatives=AGREED)).readings[0].confidence

    assert confidence(p) <= confidence(min(0.99, p * 1.5)) + 1e-9


def test_one_decode_alone_uses_its_own_coefficients():
    alone, more = heard(SURE), heard(SURE, alternatives=AGREED)
    (a,) = evidence_of(find([alone]), [alone])
    (b,) = evidence_of(find([more]), [more])
    assert not a.full
    assert b.full


def test_reasons_are_plain_words():
    m = judged(heard(SURE, p=0.05, snr=2))
    for reason in m.readings[0].review:
        assert not re.search(r"logit|probab|margin|support|softmax|AUROC|decode", reason), reason
        assert reason[:1].islower() or reason.startswith('"')


def test_the_coefficients_file_says_when_and_on_what_it_was_fitted():
    for name in ("careful", "fast"):
        model = table("confidence_model")[name]
        assert 0 < model["threshold"] < 1
        assert model["fitted"]
        assert 0 <= probability(model, {}) <= 1


def test_nothing_said_gives_nothing():
    m = judged(heard("Cleaned the coil and swept the floor."))
    assert m.readings == []
