"""Trade words are put right where the evidence is good, and stay as they are where it is not."""

from __future__ import annotations

import re

import pytest

from dictate.record.transcript import Doubt, Segment, Word
from dictate.speech import hearing
from dictate.vocabulary.load import table


def segment(text: str, probability: float | None = 0.9) -> Segment:
    words = [
        Word(text=t, start_s=float(n), end_s=n + 0.8, probability=probability)
        for n, t in enumerate(text.split())
    ]
    return Segment(clip="c1", text=text, words=words)


@pytest.mark.parametrize(
    ("heard", "right"),
    [
        ("Belved off the liquid line.", "Valved off the liquid line."),
        ("Mount off at the receiver and pumped it down.", "Valved off at the receiver and pumped it down."),
        (
            "New filter dryer, braced in with nitrogen flowing.",
            "New filter drier, brazed in with nitrogen flowing.",
        ),
        ("Forty one, no weight, forty seven.", "Forty one, no wait, forty seven."),
        ("Pulled the contractor, line side 208.", "Pulled the contactor, line side 208."),
        ("It helped at 480 microns for ten minutes.", "It held at 480 microns for ten minutes."),
        ("Raised the joint and checked it.", "Brazed the joint and checked it."),
        ("The frost heater is open.", "Defrost heater is open."),
        ("Boxes at 38 now.", "Box is at 38 now."),
        ("Section line temperature 47.", "Suction line temperature 47."),
        ("Super heat is 12, sub cooling 9.", "Superheat is 12, subcooling 9."),
    ],
)
def test_misheard_terms(heard: str, right: str) -> None:
    got = hearing.put_right(segment(heard))
    assert got.text == right
    assert " ".join(w.text for w in got.words) == right
    originals = [w.as_heard for w in got.words if w.as_heard]
    assert originals and all(o in heard for o in originals)


@pytest.mark.parametrize(
    "text",
    [
        "I raised the pressure to 150 in the line.",
        "The general contractor pulled the coil cover.",
        "The clothes dryer is on the same line.",
        "He lost weight.",
        "That helped a lot.",
        "There are boxes at the door.",
        "Isolation valve off to the left of the line.",
        "The evaporator section temperature is 12.",
        "Condensate drain is clear.",
        "That helped the pressure, 150 psi now.",
        "There is no way it is 40 degrees.",
        "Raised the nitrogen to 150.",
        "I need to braze the joint with nitrogen.",
        "Took the belt off the condenser fan.",
        "Shut the valve off at the liquid line.",
        "Took the mount off the unit.",
        "I had pressure of 20 on the line.",
        "Cut out a section of the suction line.",
        "Water condenses on the coil.",
        "The frost on the heater is gone.",
    ],
)
def test_near_misses_stay(text: str) -> None:
    assert hearing.put_right(segment(text)).text == text


def test_an_unsure_word_that_looks_like_a_trade_word_and_a_sure_one() -> None:
    assert hearing.put_right(segment("The capaciter reads 36.", 0.2)).text == "The capacitor reads 36."
    assert hearing.put_right(segment("The capaciter reads 36.", 0.95)).text == "The capaciter reads 36."
    assert hearing.put_right(segment("The capaciter reads 36.", None)).text == "The capaciter reads 36."


def test_places_of_words_and_doubts_move_along() -> None:
    before = segment("Boxes at 38 and 40.")
    before.doubts = [Doubt(first_word=2, last_word=2), Doubt(first_word=4, last_word=4)]
    after = hearing.put_right(before)
    assert after.text == "Box is at 38 and 40."
    assert [after.words[d.first_word].text for d in after.doubts] == ["38", "40."]
    assert [w.as_heard for w in after.words[:3]] == ["Boxes at", "", ""]
    starts = [w.start_s for w in after.words]
    assert starts == sorted(starts)
    assert after.words[3].start_s == before.words[2].start_s


@pytest.mark.parametrize(
    ("heard", "candidate"),
    [
        ("Voltage now to twenty-nine.", "Voltage now two twenty-nine."),
        ("Line side is to 06.", "Line side is 206."),
        ("Recovered to pound six ounces.", "Recovered two pound six ounces."),
        ("Charged two pounds for ounces.", "Charged two pounds four ounces."),
        ("At the plug won twenty-two volts.", "At the plug one twenty-two volts."),
    ],
)
def test_a_number_in_disguise_is_another_candidate(heard: str, candidate: str) -> None:
    assert hearing.homophones_as_numbers(heard) == candidate
    # It is never put into the transcript by this stage alone.
    assert hearing.put_right(segment(heard)).text == heard


@pytest.mark.parametrize(
    "text",
    [
        "Held for ten minutes.",
        "Pulled down to 480 microns.",
        "From 40 to 29 degrees.",
        "Common to run 1.8, 1 to 2 is 0.8.",
        "Set to 38. To 40 later.",
        "Good for 15 years.",
    ],
)
def test_ordinary_words_are_no_candidates(text: str) -> None:
    assert hearing.homophones_as_numbers(text) == text


# The distance of Levenshtein, 1966; "kitten" and "sitting" is the usual worked example.
def test_distance() -> None:
    assert hearing.distance("kitten", "sitting") == 3
    assert hearing.distance("", "abc") == 3
    assert hearing.distance("same", "same") == 0


def test_the_hint_holds_no_number() -> None:
    text = hearing.hint()
    assert not re.search(r"\d", text)
    numbers = set(table("numbers")["digit"]) | set(table("numbers")["teen"]) | set(table("numbers")["ten"])
    assert not numbers & set(re.findall(r"[a-z]+", text.lower()))
    assert len(table("hearing")["hint"]) <= 13


def test_every_term_says_what_it_needs() -> None:
    for entry in table("hearing")["term"]:
        assert set(entry) <= {"right", "always", "heard", "near", "next", "unless", "reach"}
        assert entry.get("always") or entry.get("heard")
        assert not entry.get("heard") or entry.get("near"), entry["right"]
        for wrong in [*entry.get("always", []), *entry.get("heard", [])]:
            assert wrong.lower() != entry["right"].lower()
            assert not re.search(r"\d", wrong)


@pytest.mark.parametrize(
    ("heard", "right"),
    [
        ("Suction 38 had 220 superheat 9.", "Suction 38 head 220 superheat 9."),
        ("Section thirty-eight, superheat nine.", "Suction thirty-eight, superheat nine."),
        ("Fox is at 49 degrees.", "Box is at 49 degrees."),
        ("Wade in 7 pounds 2 ounces.", "Weighed in 7 pounds 2 ounces."),
        ("Amps 9.4, plates says 13.2.", "Amps 9.4, plate says 13.2."),
        # Near misses: the words mean what they say.
        ("I had 38 on the suction before.", "I had 38 on the suction before."),
        ("Suction had dropped to 22.", "Suction had dropped to 22."),
        ("This section is 22 feet long.", "This section is 22 feet long."),
        ("I will weigh in two pounds tomorrow.", "I will weigh in two pounds tomorrow."),
        ("Low side is 22 psi.", "Low side is 22 psi."),
    ],
)
def test_damaged_label_words(heard: str, right: str) -> None:
    words = [Word(text=w, probability=0.8) for w in heard.split()]
    assert hearing.put_right(Segment(clip="c1", text=heard, words=words)).text == right
