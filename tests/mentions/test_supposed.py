"""What is only thought of is not measured: a condition, and what a thing of some kind would have."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

THOUGHT_OF = [
    ("If the coil was clean I'd look for 240 on the head, and suction about 64.", [240, 64], []),
    ("If gas was missing, then superheat maybe twenty two. It is nine Kelvin.", [22], [9]),
    ("A starved one would've had 25 psi suction and 30 of superheat. Suction 68 psi.", [25, 30], [68]),
    ("If it was low it'd be pulling 20 psi suction, I have 62 psi.", [20], [62]),
    # told of what was
    ("If the fan was off I got 300 psi head.", [], [300]),
    ("If that's the tag of this motor it draws 8.2 amps.", [], [8.2]),
    ("A fan would not start and drew 8 amps.", [], [8]),
    ("I asked if it was on. Suction 68 psi, head 240.", [], [68, 240]),
]


@pytest.mark.parametrize(("text", "thought", "measured"), THOUGHT_OF)
def test_what_is_only_thought_of(text: str, thought: list[float], measured: list[float]) -> None:
    """Up to where the speaker comes back to what he has."""
    found = readings(text)
    assert [r.value for r in found if r.role in {"expected", "target"}] == thought
    assert [r.value for r in found if r.role == "measured"] == measured
