"""Figures of a pressure control told anew for the next machine, and where it then acts."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text


@pytest.mark.parametrize(
    ("text", "want"),
    [
        (
            "Low pressure switch. Cut in's dialed at fifteen, differential ten, so cut out five. "
            "Opened at one. Didn't close till twenty-two. After that it opened at four and closed at fourteen.",
            {
                15: "target",
                10: "target",
                5: "target",
                1: "measured",
                22: "measured",
                4: "measured",
                14: "measured",
            },
        ),
        (
            "Low pressure switch, cut in's on the dial at thirty, cut out fifteen.",
            {30: "target", 15: "target"},
        ),
    ],
)
def test_figures_and_acts(text: str, want: dict[float, str]) -> None:
    readings = read_text(text).readings
    assert {r.value: r.role for r in readings} == want
    assert {r.unit for r in readings} == {"psi"}


def test_a_door_that_opens_is_no_control() -> None:
    readings = read_text("Suction is eighteen psi. The door opened at nine and closed at twelve.").readings
    assert [r.value for r in readings] == [18]


@pytest.mark.parametrize(
    ("text", "value", "component"),
    [
        ("Ice plant. Agitator motor 0.9 amps. Conveyor motor 5.1 amps.", 5.1, "conveyor motor"),
        ("Ice plant. Water pump 2.2 amps. Drum drive 1.8 amps.", 1.8, "drum motor"),
        ("Slush machine. Beater motor 2.2 amps.", 2.2, "beater motor"),
    ],
)
def test_a_motor_is_what_it_drives(text: str, value: float, component: str) -> None:
    assert [r.component for r in read_text(text).readings if r.value == value] == [component]
