"""Refrigerant movements: every case's sentence gives exactly its amounts, and nothing is invented."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dictate.mentions import find
from dictate.mentions.movements import find_movements
from dictate.mentions.narration import Narration
from dictate.record.transcript import Segment, Word

SAID = tomllib.loads((Path(__file__).parent / "cases" / "movements_said.toml").read_text(encoding="utf-8"))[
    "cases"
]
STAGES = tomllib.loads(
    (Path(__file__).parent / "cases" / "movements_stages.toml").read_text(encoding="utf-8")
)["cases"]
PIECES = tomllib.loads(
    (Path(__file__).parent / "cases" / "movements_in_pieces.toml").read_text(encoding="utf-8")
)["cases"]
CASES = tomllib.loads((Path(__file__).parent / "cases" / "movements.toml").read_text(encoding="utf-8"))[
    "cases"
]


def said(text: str) -> str:
    movements = find_movements(Narration.from_text(text))
    return " | ".join(
        f"{'out' if m.direction == 'recovered' else 'in'} {m.value:g} {m.unit}" for m in movements
    )


def told(text: str) -> str:
    """Return the movements with all doubts, "?" where there is a reason to look."""
    words = [Word(text=w) for w in text.split()]
    segment = Segment(clip="c", text=text, words=words)
    return " | ".join(
        f"{'out' if m.direction == 'recovered' else 'in'} {m.value:g} {m.unit}{'?' if m.review else ''}"
        for m in find([segment]).movements
    )


@pytest.mark.parametrize(("text", "want"), STAGES)
def test_stages_vessels_and_other_stuff(text: str, want: str) -> None:
    assert told(text) == want


@pytest.mark.parametrize(("text", "want"), PIECES)
def test_pieces_corrections_scales_and_plans(text: str, want: str) -> None:
    assert told(text) == want


@pytest.mark.parametrize(("text", "want"), SAID)
def test_ways_to_say_an_amount(text: str, want: str) -> None:
    assert told(text) == want


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("Took the old 22 out, six pounds four, and put 407C in, five pounds fourteen.", ["R-22", "R-407C"]),
        (
            "Pulled the four oh four, eleven pounds, put four forty eight A in, ten pounds.",
            ["R-404A", "R-448A"],
        ),
        ("The 404 came out at eleven pounds. The 448 went in at ten pounds four.", ["R-404A", "R-448A"]),
        ("Recovered 3.5 kg of R410A from the old one, charged 4.1 kg of R32 in the new.", ["R-410A", "R-32"]),
        ("Recovered two pounds of R4 04A.", ["R-404A"]),
        ("Charged four pounds of R, 4, 10, A.", ["R-410A"]),
    ],
)
def test_each_amount_has_its_own_refrigerant(text: str, names: list[str]) -> None:
    assert [m.refrigerant for m in find_movements(Narration.from_text(text))] == names


@pytest.mark.parametrize(("text", "want"), CASES)
def test_sentence(text: str, want: str) -> None:
    assert said(text) == want


def test_pounds_and_ounces_are_one_amount() -> None:
    # NIST SP 811, appendix B: 1 lb (avoirdupois) = 0.453 592 37 kg = 16 oz.
    (m,) = find_movements(Narration.from_text("Recovered three pounds eight ounces."))
    assert m.value is not None
    assert m.value * 0.45359237 == pytest.approx(56 / 16 * 0.45359237)


def test_a_corrected_amount_keeps_what_was_taken_back() -> None:
    (m,) = find_movements(
        Narration.from_text("Recovered four pounds eleven ounces, no wait, five pounds eleven.")
    )
    assert (m.value, [r.value for r in m.retracted]) == (5.6875, [4.6875])


def test_a_later_sentence_corrects_an_earlier_one() -> None:
    text = "Recovered three pounds one ounce. Charged three pounds. I said three pounds one ounce, it was two pounds fifteen."
    movements = find_movements(Narration.from_text(text))
    assert [(m.direction, m.value) for m in movements] == [("recovered", 2.9375), ("charged", 3.0)]


def test_the_same_amount_in_another_unit_is_kept_with_it() -> None:
    (m,) = find_movements(
        Narration.from_text("Recovered three pounds eight ounces, that's fifty six ounces.")
    )
    assert [(a.value, a.unit) for a in m.also_said] == [(56.0, "oz")]


def test_ohms_after_recovered_are_a_weight_in_doubt() -> None:
    (m,) = find_movements(Narration.from_text("Recovered 2.6 ohms of R404A."))
    assert m.value == 2.375
    assert m.review
    assert {(c.value, c.unit) for c in m.candidates} == {(2.375, "lb"), (2.6, "oz")}


def test_a_cylinder_s_weights_give_an_amount_and_a_reason_where_the_work_was_not_said() -> None:
    text = "Recovered the charge, cylinder was 22 pounds before and 25.5 pounds after."
    (m,) = find_movements(Narration.from_text(text))
    assert (m.direction, m.value, m.review) == ("recovered", 3.5, [])
    (m,) = find_movements(Narration.from_text("The cylinder was 22 pounds before and 25.5 pounds after."))
    assert (m.direction, m.value) == ("recovered", 3.5)
    assert m.review


def test_a_unit_carried_over_is_flagged_where_the_amounts_are_unlike() -> None:
    out = find_movements(Narration.from_text("I took out 600 grams and put in 650."))
    assert [(m.value, bool(m.review)) for m in out] == [(600.0, False), (650.0, False)]
    out = find_movements(Narration.from_text("I took out 600 grams and put in 950."))
    assert [(m.value, bool(m.review)) for m in out] == [(600.0, False), (950.0, True)]


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Recovered two pounds of four oh four A.", "R-404A"),
        ("Weighed in R-448A, two pounds.", "R-448A"),
        ("Added two pounds.", None),
    ],
)
def test_refrigerant_named_with_the_amount(text: str, name: str | None) -> None:
    (m,) = find_movements(Narration.from_text(text))
    assert m.refrigerant == name


WORDS = st.sampled_from(
    [
        "recovered",
        "charged",
        "two",
        "pounds",
        "six",
        "ounces",
        "plate",
        "says",
        "no",
        "wait",
        "404A",
        "grams",
        "85",
        "kilos",
        "added",
        ",",
        ".",
        "tank",
        "it",
        "of",
        "and",
        "in",
        "out",
        "tomorrow",
        "they",
        "last",
        "year",
        "nitrogen",
        "2.6",
        "ohms",
        "weighed",
        "back",
    ]
)


@settings(max_examples=200, deadline=None)
@given(st.lists(WORDS, max_size=25))
def test_never_crashes_and_never_moves_what_was_not_said(words: list[str]) -> None:
    text = " ".join(words)
    for m in find_movements(Narration.from_text(text)):
        assert m.value is not None and m.value > 0
        assert m.unit in ("lb", "oz", "g", "kg")
        assert any(w in text for w in ("pounds", "ounces", "grams", "kilos", "ohms"))


@pytest.mark.parametrize(
    ("text", "direction"),
    [
        ("Took back one point one five kilos, so half of it had gone.", "recovered"),
        ("I took back two pounds four into the cylinder.", "recovered"),
        ("Drew back two kilos into the bottle.", "recovered"),
        ("It took back three pounds and the glass cleared.", "charged"),
        ("She took three pounds.", "charged"),
    ],
)
def test_who_took_it_back_tells_which_way_it_went(text: str, direction: str) -> None:
    assert [m.direction for m in find_movements(Narration.from_text(text))] == [direction]


def test_bare_pounds_and_ounces_that_were_moved_are_no_vacuum_as_well() -> None:
    text = (
        "R-410A split, the tag wants six pounds four ounces. Vacuum nine hundred, then three ten. Six four went in "
        "by the scale, then two more ounces, six six all told. Head three fifty, suction one thirty."
    )
    record = find([Segment(clip="c", text=text, words=[Word(text=w) for w in text.split()])])
    assert [m.value for m in record.movements] == [6.375]
    assert {r.value for r in record.readings if r.unit == "micron"} == {900, 310}
