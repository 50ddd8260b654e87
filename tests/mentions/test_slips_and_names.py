"""Slips that are mended, and words and numbers that look like a value and are none."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

CASES = {  # all from memory of how such slips are mended
    "Evaporator fan one draws point six, fan two point eight, wait no, point eight was fan three, fan two is "
    "point seven.": [0.6, 0.8, 0.7],
    "L1 to L2 208, no, 208 was L2 to L3, L1 to L2 is 211.": [208, 211],
    "28 volts, no, sorry, 28 was at the transformer, 24.6 at the coil.": [28, 24.6],
    "Left fan 1.2 amps, no, sorry, 1.2 is the right, left is 1.4.": [1.2, 1.4],
}


@pytest.mark.parametrize("text", CASES)
def test_the_number_stays_with_the_thing_that_it_is_of(text: str) -> None:
    found = find(list(segments_of([text], "c1"))).readings
    assert [r.value for r in found if r.role == "measured"] == CASES[text]
    assert sum(r.role == "retracted" for r in found) == 1
    assert not any("taken back" in why for r in found for why in r.review)


@pytest.mark.parametrize(
    "text",
    [
        "Left coil 410 ohms, the right coil OL, I mean nothing. Coil is open.",
        "Run to ground open, I mean OL, nothing at all.",
    ],
)
def test_one_open_circuit_said_in_two_words_takes_nothing_back(text: str) -> None:
    found = find(list(segments_of([text], "c1"))).readings
    assert not any("taken back" in why for r in found for why in r.review)


@pytest.mark.parametrize(
    "text",
    [
        "Swapped the motor and the blade, blew the coil out while I had it open, set a gasket in on door two.",
        "While the motor was open I checked the bearings.",
    ],
)
def test_a_machine_stands_open_for_work(text: str) -> None:
    assert not find(list(segments_of([text], "c1"))).readings


def test_no_voltage_and_the_nought_of_the_meter_are_one_reading() -> None:
    text = "Main switch off and locked, no voltage on the terminals, I measured 0.0."
    assert [r.value for r in find(list(segments_of([text], "c1"))).readings] == [0]


@pytest.mark.parametrize(
    "text",
    [
        "The suction line is sweating clear back to the can.",
        "Swapped the oil float, part number O L F nine.",
    ],
)
def test_words_of_a_meter_in_another_sense(text: str) -> None:
    assert not find(list(segments_of([text], "c1"))).readings
