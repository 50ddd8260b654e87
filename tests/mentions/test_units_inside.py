"""A unit in the middle of its number, and numbers behind the name of a thing that need not be its name."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("nine bar point four", [(9.4, "bar")]),
        ("suction three bar one.", [(3.1, "bar")]),
        ("head eighteen bar five and steady", [(18.5, "bar")]),
        ("two bar nought five on the gauge", [(2.05, "bar")]),
        ("two bar forty-five.", [(2.45, "bar")]),
        ("sixteen bar and a half", [(16.5, "bar")]),
        ("two amps point five", [(2.5, "A")]),
        ("four amps two on the fan", [(4.2, "A")]),
        ("two pounds and a half", [(2.5, "lb")]),
        ("the plate is one kilo nine", [(1.9, "kg")]),
        ("run to common six ohm four, start nine ohm one.", [(6.4, "ohm"), (9.1, "ohm")]),
        ("three ohm two run to common", [(3.2, "ohm")]),
        ("five ohm seven to common", [(5.7, "ohm")]),
        ("the probe is eleven K eight in the slush, the cap five mike two.", [(11800, "ohm"), (5.2, "uF")]),
        # what may be counted, what has a unit of its own, what stands behind a stop
        ("three bar two compressors running", [(3, "bar")]),
        ("three bar four amps", [(3, "bar"), (4, "A")]),
        ("three bar, five of them", [(3, "bar")]),
        ("three point one bar five", [(3.1, "bar")]),
        ("twelve volts six of them", [(12, "V")]),
        ("four ohms, six amps", [(4, "ohm"), (6, "A")]),
        ("one to two four ohm two to three five ohm", [(4, "ohm"), (5, "ohm")]),
        ("four ohm six amps", [(4, "ohm"), (6, "A")]),
        ("four ohm two heaters", [(4, "ohm")]),
    ],
)
def test_decimals_behind_their_unit(text: str, wanted: list[tuple[float, str]]) -> None:
    found = find_quantities(Narration.from_text(text))
    assert [(q.amount, q.unit) for q in found] == wanted


def test_digits_behind_a_unit_keep_the_other_reading() -> None:
    (told,) = find_quantities(Narration.from_text("suction three bar one."))
    assert [c.value for c in told.candidates] == [3]
    (plain,) = find_quantities(Narration.from_text("nine bar point four."))
    assert plain.candidates == []
    (single,) = find_quantities(Narration.from_text("the element is forty ohm five."))
    assert single.reasons == []
    (several,) = find_quantities(Narration.from_text("the element is forty ohms five."))
    assert several.value == 40.5 and "may be a value of its own" in several.reasons[0]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("a three-quarter inch line", [0.75]),
        ("three quarter volt lost", [0.75]),
        ("two and three quarter", [2.75]),
        ("a quarter volt", [0.25]),
        ("second door four hundred and sixty", [460]),
        ("door four 22", [4, 22]),
    ],
)
def test_quarters_and_hundreds_stay_whole(text: str, wanted: list[float]) -> None:
    assert [n.value for n in find_numbers(Narration.from_text(text)) if n.form != "ordinal"] == wanted


def test_a_thing_that_has_its_place_needs_no_number() -> None:
    text = (
        "First door heater 455 ohms, second door four hundred and sixty, third door four hundred and seventy."
    )
    readings = find(list(segments_of([text], "c1"))).readings
    assert [(r.value, r.unit) for r in readings] == [(455, "ohm"), (460, "ohm"), (470, "ohm")]


def test_a_part_is_not_called_by_the_amps_behind_it() -> None:
    readings = find(
        list(segments_of(["Compressor four amps one. Pump 3 amps 6.2, pump 4 amps 5.8."], "c1"))
    ).readings
    assert [(r.value, r.unit) for r in readings] == [(4.1, "A"), (6.2, "A"), (5.8, "A")]


def test_the_pair_of_windings_that_ends_the_words_of_a_value_is_its_own() -> None:
    text = (
        "Ohmed the compressor: 1.1 common to run, 2.9 common to start, four even across run and start. Done."
    )
    readings = find(list(segments_of([text], "c1"))).readings
    assert [r.point for r in readings] == ["common-run", "common-start", "run-start"]
    turned = (
        "Windings of the compressor: 4 ohms between run and start, 1.1 run to common, 2.9 start and common."
    )
    readings = find(list(segments_of([turned], "c1"))).readings
    assert [r.point for r in readings] == ["run-start", "common-run", "common-start"]


def test_the_cap_of_a_motor_caps_no_port() -> None:
    steps = find(
        list(segments_of(["Cap on it's a seventy over seven and a half. Killed the disconnect."], "c1"))
    ).steps
    assert [s.step for s in steps] == ["power_isolated"]
    steps = find(list(segments_of(["Caps back on and tight."], "c1"))).steps
    assert [s.step for s in steps] == ["ports_capped"]
