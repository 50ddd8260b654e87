"""Of two numbers that the same two digits can mean, the one that can be is taken; the question stays."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading

METRIC = "Cold room on R-449A, twelve kilos. Box at minus two degrees Celsius, condensing fan on. Subcooling five kelvin. "


def pressures(said: str) -> list[Reading]:
    readings = find(list(segments_of([METRIC + said], "c1"))).readings
    return [r for r in readings if r.quantity == "pressure"]


@pytest.mark.parametrize(
    ("said", "values"),
    [
        ("Suction two one, head eight six.", [2.1, 8.6]),  # no gas but carbon dioxide has 86 bar
        ("Suction one four, head nine four.", [1.4, 9.4]),  # a suction is below its head
        ("Head one six.", [16.0]),  # both can be: the whole number is taken, as said
    ],
)
def test_the_one_that_can_be_is_taken(said: str, values: list[float]) -> None:
    found = pressures(said)
    assert [(r.value, r.unit) for r in found] == [(value, "bar") for value in values]
    for r in found:
        assert any(why.startswith("two digits") for why in r.review)
        assert [c.value for c in r.candidates] != [r.value]


def test_of_carbon_dioxide_a_high_pressure_can_be() -> None:
    text = "Booster rack on R-744, transcritical. Gas cooler out 30 degrees Celsius. Suction two eight bar, head eight six."
    readings = find(list(segments_of([text], "c1"))).readings
    assert [r.value for r in readings if r.point == "discharge" and r.quantity == "pressure"] == [86.0]
