"""Bare numbers whose name was told with its unit before, probes tried in ice, and how far thousands of ohms carry.

The sentences are believable ones written for this test; what they mean is common practice.
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.spoken_numbers import find_numbers


def _told(text: str) -> list[str]:
    readings = find(list(segments_of([text], "c1"))).readings
    return [f"{r.value:g} {r.unit}" for r in readings if r.value is not None]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        (
            "Cool room in Celsius. At the back four point one degrees. Glycol pump two point four bar, and after the "
            "defrost the back's at three point two.",
            ["4.1 degC", "2.4 bar", "3.2 degC"],
        ),
        (
            "Package unit. Return static minus point five inches, supply plus point three inches of water. New "
            "filters, return now minus point two.",
            ["-124.544 Pa", "74.7267 Pa", "-49.8178 Pa"],
        ),
        (
            "The return air is 74 degrees and the supply air 55 degrees. After the wash the return is 73.",
            ["74 degF", "55 degF", "73 degF"],
        ),
    ],
)
def test_what_a_place_was_told_in_before(text: str, values: list[str]) -> None:
    assert _told(text) == values


@pytest.mark.parametrize(
    ("text", "values"),
    [
        (
            "Cold room, Celsius here. Room probe on the meter, thirty kilohms. Spare probe, thirty-two point four in "
            "the ice.",
            ["30000 ohm", "32400 ohm"],
        ),
        # what a thermometer shows in the same ice is no kilohms
        (
            "Cold room, Celsius here. Room probe on the meter, thirty kilohms. My thermometer in the ice says nought "
            "point two.",
            ["30000 ohm", "0.2 degC"],
        ),
        (
            "Cold room, Celsius here. New probe, six point one kilohms, screen seven point four.",
            ["6100 ohm", "7.4 degC"],
        ),
        (
            "Valve actuator gets nine point six volts from the board. New one on, feedback follows, nine point four.",
            ["9.6 V", "9.4 V"],
        ),
    ],
)
def test_probes_screens_and_signals(text: str, values: list[str]) -> None:
    assert _told(text) == values


@pytest.mark.parametrize(
    ("text", "values"),
    [
        # thousands stay with the part that they were told of
        (
            "Breaker off. Compressor to the shell, four hundred megohms. Condenser fan, winding to winding, "
            "twenty-six ohms.",
            ["4e+08 ohm", "26 ohm"],
        ),
        (
            "Breaker off, ohmed the heaters. Defrost heater to the frame, six hundred k. Drain heater, two hundred "
            "ten, and the contactor coil, three fifteen.",
            ["600000 ohm", "210 ohm", "315 ohm"],
        ),
        # the same part, and another one that was measured to ground as well
        ("Compressor T1 to ground 200 megohms, T2 180.", ["2e+08 ohm", "1.8e+08 ohm"]),
        (
            "Reach-in. Cabinet sensor reads 31 K, the table says 27.3. Contactor 620 ohms. Heaters 33, 33 and 34.",
            ["31000 ohm", "27300 ohm", "620 ohm", "33 ohm", "33 ohm", "34 ohm"],
        ),
        ("Discharge thermistor 34 K. New one 27.2.", ["34000 ohm", "27200 ohm"]),
    ],
)
def test_how_far_thousands_of_ohms_carry(text: str, values: list[str]) -> None:
    assert _told(text) == values


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Line to line four sixty, four sixty-two, four sixty-one.", [460, 462, 461]),
        ("Supply is between four hundred and fifteen and four hundred and eighteen volts.", [415, 418]),
        ("Supply is between two hundred and two fifty volts.", [200, 250]),
    ],
)
def test_numbers_that_are_parted(text: str, values: list[float]) -> None:
    readings = find(list(segments_of([text], "c1"))).readings
    assert [r.value for r in readings] == values


def test_the_next_of_a_list_that_is_counted_off_is_no_hundred() -> None:
    text = "Ohms. One: thirty-one point one. Two: thirty-one point three. Three's thirty-one, four thirty-one point six."
    numbers = find_numbers(Narration(segments_of([text], "c1")))
    assert [n.value for n in numbers] == [1, 31.1, 2, 31.3, 3, 31, 4, 31.6]
    hundreds = find_numbers(Narration(segments_of(["Four sixty-two, four sixty, four fifty-eight."], "c1")))
    assert [n.value for n in hundreds] == [462, 460, 458]
