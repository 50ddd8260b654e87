"""Controls moved from one figure to another, times of two parts, conditions of a book, and pairs of microfarads."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.quantities import find_quantities
from tests.mentions.case_files import readings

Told = list[tuple[float | None, str | None, str]]


def _told(text: str) -> Told:
    return [(r.value, r.unit, r.role) for r in readings(text)]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "Low pressure control was chattering, so I raised the cut-in from fifteen to twenty-five.",
            [(15, "psi", "target"), (25, "psi", "target")],
        ),
        (
            "Pressure switch. Set it for in at forty, out at ten. Suction is forty-six now.",
            [(40, "psi", "target"), (10, "psi", "target"), (46, "psi", "measured")],
        ),
        (
            "Lengthened the defrost from twenty minutes up to thirty.",
            [(20, "min", "target"), (30, "min", "target")],
        ),
        (
            "The freeze went from twenty minutes down to fourteen.",
            [(20, "min", "measured"), (14, "min", "measured")],
        ),
        # nobody says what the control acts on: a pressure, with a question
        (
            "R-404A walk-in. Suction thirty psi. I lowered the cut-out from twelve to eight.",
            [(30, "psi", "measured"), (12, "psi", "target"), (8, "psi", "target")],
        ),
    ],
)
def test_a_control_is_moved(text: str, told: Told) -> None:
    assert _told(text) == told


def test_a_control_that_nobody_named_is_asked_about() -> None:
    found = readings("R-404A walk-in. Suction thirty psi. I lowered the cut-out from twelve to eight.")
    assert all(any("was not said" in why for why in r.review) for r in found[1:])
    assert found[0].review == []


def test_out_at_is_still_a_time_of_the_work() -> None:
    said = find(list(segments_of(["Suction forty psi. I was in at ten, out at twelve."], "c1")))
    assert [(m.kind, m.clock) for m in said.labour] == [("start", "10:00"), ("end", "12:00")]
    assert [r.value for r in said.readings] == [40]


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("harvest came, minute thirty.", [1.5]),
        ("freeze fourteen minutes ten, harvest minute fifty.", [14 + 1 / 6, 1 + 50 / 60]),
        ("it was warm for two hours, well, hour forty.", [2, 100]),
        ("the last minute fifty amps on the clamp", []),
        ("every hour twenty cubes", []),
        ("the first hour 45 psi on the suction", []),
    ],
)
def test_an_hour_and_a_minute_without_their_article(text: str, minutes: list[float]) -> None:
    found = [q for q in find_quantities(Narration.from_text(text)) if q.word in {"minute", "hour"}]
    assert [round(q.value, 3) for q in found] == [round(m, 3) for m in minutes]


@pytest.mark.parametrize(
    ("text", "roles"),
    [
        (
            "The book says eighteen minutes with the water at fifty-five. Water is at sixty-three.",
            ["target", "measured"],
        ),
        ("The chart gives sixty pounds with the return air at seventy. Return is seventy-six.", ["target", "measured"]),
        ("Suction is sixty-eight with the box at thirty-eight.", ["measured"]),
        ("The chart is on the door. Suction sixty-eight with the box at thirty-eight.", ["measured"]),
    ],
)  # fmt: skip
def test_a_condition_of_a_book_was_not_read(text: str, roles: list[str]) -> None:
    assert [r.role for r in readings(text) if r.quantity == "temperature"] == roles


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "The run cap is a 40 over 5 and I got 36.2 over 4.7.",
            [(40, "rated"), (5, "rated"), (36.2, "measured"), (4.7, "measured")],
        ),
        (
            "Run cap, printed 45 over 5. It shows 40 over 5 on the meter.",
            [(45, "rated"), (5, "rated"), (40, "measured"), (5, "measured")],
        ),
        ("Fitted a new dual cap, 35 over 5.", [(35, "rated"), (5, "rated")]),
        ("The run cap says 40 over 5 on the can.", [(40, "rated"), (5, "rated")]),
    ],
)
def test_both_sides_of_a_dual_capacitor(text: str, told: list[tuple[float, str]]) -> None:
    assert [(r.value, r.role) for r in readings(text)] == told
