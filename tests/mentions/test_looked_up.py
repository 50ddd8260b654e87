"""Pressures said again to look up their temperature (invented talk; no outside source)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading


def _readings(text: str) -> list[Reading]:
    return find(list(segments_of([text], "c1"))).readings


@pytest.mark.parametrize(
    ("said", "points"),
    [
        ("Suction of ninety eight, head of three forty. Dew at ninety eight is thirty one.", ["suction"] * 2),
        ("Suction 98, head 340. Head went to 98 in the end.", ["suction", "discharge"]),
    ],
)
def test_a_pressure_looked_up_is_the_one_read_before(said: str, points: list[str]) -> None:
    assert [r.point for r in _readings(said) if r.value == 98 and r.quantity == "pressure"] == points
