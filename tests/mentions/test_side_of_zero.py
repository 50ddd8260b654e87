"""A level below zero at the head of a sentence, where a small number alone would be a count."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings


@pytest.mark.parametrize(
    ("text", "cold"),
    [
        ("Freezer, suction eighteen pounds. Three below when I shut the door.", [-3]),
        ("Walk-in freezer is pulling down. Two below now and going.", [-2]),
        ("Freezer box at eight. Four below zero by the time I left.", [8, -4]),
        ("Walk-in freezer. Three below the setpoint.", []),
        ("Two below the counter are the drink coolers, box is thirty-six.", [36]),
    ],
)
def test_a_sentence_begins_below_zero(text: str, cold: list[float]) -> None:
    assert [r.value for r in readings(text) if r.quantity == "temperature"] == cold
