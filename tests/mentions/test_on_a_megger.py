"""Tours with an insulation tester: the megohms said once are those of every number of the tour.

That such a tester reads in megohms to the shell: common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

_MEG = 1e6


def _ohms(text: str) -> list[tuple[float | None, str | None]]:
    return [(r.value, r.point) for r in readings(text) if r.quantity == "resistance" and r.role == "measured"]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "Megger on the compressor at five hundred volts. T one to the shell, two hundred meg. T two, one ninety.",
            [(200 * _MEG, "L1-ground"), (190 * _MEG, "L2-ground")],
        ),
        (
            "Megger on the compressor. Pin one to the shell, two hundred meg. Pin two, one ninety. "
            "Now the other compressor. Pin one, point three.",
            [(200 * _MEG, "ground"), (190 * _MEG, "ground"), (0.3 * _MEG, "ground")],
        ),
        (
            "Insulation tester on the five hundred, better than a hundred meg on the first heater, the tray's sixty.",
            [(100 * _MEG, None), (60 * _MEG, "ground")],
        ),
        # another meter, another pair of terminals, an own unit: the tour is over
        (
            "Compressor windings, one to two, one point one ohms. Megger two hundred meg to the body. "
            "One to three, one point two.",
            [(1.1, "L1-L2"), (200 * _MEG, "ground"), (1.2, "L1-L3")],
        ),
        ("Megger two hundred meg to the body. Compressor windings, one point two.", [(200 * _MEG, "ground"), (1.2, None)]),
        ("Megger two hundred meg to the body. Compressor draws nine point two.", [(200 * _MEG, "ground")]),
    ],
)  # fmt: skip
def test_a_tour_with_an_insulation_tester(text: str, told: list[tuple[float | None, str | None]]) -> None:
    assert _ohms(text) == told


def test_megohms_far_from_those_before_are_asked_about() -> None:
    found = readings("Megger. T one to the shell, two hundred meg. Other one now. T one, point four.")
    assert [bool(r.review) for r in found if r.quantity == "resistance"] == [False, True]


def test_another_thing_leads_the_next_row_and_takes_back_nothing() -> None:
    found = readings(
        "Pin one to the shell, two hundred meg. Pin two, one ninety meg. Now the other compressor. Pin one, two meg."
    )
    assert [r.role for r in found] == ["measured"] * 3


def test_mega_is_a_million_ohms() -> None:
    told = _ohms("Compressor to earth forty mega. Fan motor to earth 200 mega.")
    assert told == [(40 * _MEG, "ground"), (200 * _MEG, "ground")]


def test_a_row_that_may_be_of_another_meter_is_asked_about_to_its_end() -> None:
    found = readings("Heaters 41, 42 ohms, to earth over 200 mega. Fan one 0.6, fan two 0.6, fan three 0.7.")
    assert all(r.review for r in found if r.value and r.value < _MEG and r.heard in ("0.6", "0.7"))
    assert sum(r.heard in ("0.6", "0.7") for r in found) == 3
