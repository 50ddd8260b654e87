"""Amps told behind a new capacitor (invented talk; sizes as in EIA-456-A)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading


def _readings(text: str) -> list[Reading]:
    return find(list(segments_of([text], "c1"))).readings


@pytest.mark.parametrize(
    "said",
    [
        "Fan motor draws two point one amps. The capacitor was weak. New capacitor, one point two now.",
        "Fans pull 1.9 and 2.1 amps. Swapped the cap. New capacitor, one point four now.",
    ],
)
def test_amps_told_behind_a_new_capacitor_are_asked_about(said: str) -> None:
    last = _readings(said)[-1]
    assert last.quantity == "current" or last.review


def test_a_new_capacitor_that_was_measured_is_not_asked_about() -> None:
    found = _readings("Fan 2.1 amps, the cap is marked 5 mic and reads 2.8, new capacitor 5.1 now.")
    assert [(r.value, r.review) for r in found if r.quantity == "capacitance"][-1] == (5.1, [])
