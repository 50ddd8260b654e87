"""The next of a row told by "same" alone, in a sentence of its own.

Ways of speaking: common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Left fan 1.8 amps. Right, same again.", ["1.8 A left", "1.8 A right"]),
        ("Left fan, 1.4 amps. Right the same. Box five.", ["1.4 A left", "1.4 A right", "5 degF None"]),
        ("Fan amps. Two's drawing point five. Three, same as two.", ["0.5 A None", "0.5 A 3"]),
        ("New left motor, thirty-eight ohms. New right, same.", ["38 ohm left", "38 ohm right"]),
        # another word behind it, nobody like it in front, a thing with more to it
        ("Left fan 1.8 amps. Right, same as last time, filthy.", ["1.8 A left"]),
        ("Left fan 1.8 amps. Right, same day I get called again.", ["1.8 A left"]),
        ("The pump draws 1.8 amps. Right, same again on Thursday then.", ["1.8 A None"]),
        ("Fan amps. Two's drawing point five. Three, same as one.", ["0.5 A None"]),
    ],
)  # fmt: skip
def test_the_next_of_a_row(text: str, told: list[str]) -> None:
    assert [f"{r.value:g} {r.unit} {r.which}" for r in readings(text)] == told


def test_two_terminals_with_the_value_of_the_two_before() -> None:
    found = readings(
        "Compressor, one to two, two point one ohms. Two to three, same. One to three, same again."
    )
    assert [(r.value, r.point) for r in found] == [(2.1, "L1-L2"), (2.1, "L2-L3"), (2.1, "L1-L3")]


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Nitrogen in, blew it up to three hundred psi. Twenty minutes later, the same.", [300, 20, 300]),
        (
            "Blew it up to four hundred psi. Ten minutes on the phone. Same again with the other one.",
            [400, 10],
        ),
    ],
)
def test_a_pressure_that_stood(text: str, values: list[float]) -> None:
    assert [r.value for r in readings(text)] == values
