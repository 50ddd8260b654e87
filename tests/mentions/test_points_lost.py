"""Numbers in other pieces than they were said in: points set apart, stops in their place, which thing in front."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading


def readings(text: str) -> list[Reading]:
    return find(list(segments_of([text], "c1"))).readings


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Compressor up to 5 .2 amps.", [5.2]),
        ("Legs 14.2, 13.9, 14 .1 ampere.", [14.2, 13.9, 14.1]),
        ("Barrel minus 3 .8 degrees C.", [-3.8]),
        ("Suction 18 .25 psi.", [18.25]),
    ],
)
def test_a_point_that_stands_apart_from_its_number_still_belongs_to_it(
    text: str, values: list[float]
) -> None:
    assert [r.value for r in readings(text)] == values


@pytest.mark.parametrize(
    ("text", "one"),
    [("Suction is 8. 3 bar.", 8.3), ("Compressor at 17. 3 amps.", 17.3)],
)
def test_a_stop_between_a_number_and_a_digit_with_its_unit_may_have_been_a_point(
    text: str, one: float
) -> None:
    found = readings(text)
    assert len(found) == 2
    assert f"may be the one number {one:g}" in found[0].review
    for r in found:
        assert r.review
        assert [c.value for c in r.candidates if c.value == one] == [one]


@pytest.mark.parametrize(
    "text", ["Head was 205. 9 amps on the compressor.", "Suction is 58. 30 amps on the compressor."]
)
def test_two_values_of_two_things_are_no_decimal(text: str) -> None:
    assert not any("one number" in why for r in readings(text) for why in r.review)


def test_two_digits_of_a_temperature_may_be_one_number() -> None:
    (seven, eight) = readings("Return air 7 8, supply 5 6 degrees F.")[:2]
    assert "may be the one number 78" in seven.review + eight.review


def test_a_row_behind_a_thing_may_begin_with_which_thing_it_is() -> None:
    found = readings("Box 38. Compressor one forty one forty two forty amps.")
    row = [r for r in found if r.quantity == "current"]
    assert len(row) > 1
    assert all(any("may say which compressor" in why for why in r.review) for r in row)


@pytest.mark.parametrize(
    "text",
    ["The legs of the compressor, one forty, one forty two, one forty amps.", "Compressor one forty amps."],
)
def test_values_with_commas_and_one_alone_are_no_row(text: str) -> None:
    assert not any("may say which" in why for r in readings(text) for why in r.review)


def test_no_stop_is_set_between_a_number_and_its_unit() -> None:
    said = (
        "went round the chiller entering water is twelve point one leaving is seven point four and the suction three "
        "point four bar discharge fifteen two the strainer was full of rust so i cleaned that one and the drop "
        "over the chiller was thirty eight kilopascal with it dirty"
    )
    assert (38, "kPa") in [(r.value, r.unit) for r in readings(said)]
