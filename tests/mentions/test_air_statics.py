"""Pressures of air told without a unit, and numbers beside a return or a supply that are none."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

INCH = 249.0889


def _told(text: str) -> list[tuple[str, float | None, str | None]]:
    return [(r.quantity, r.value if r.value is None else round(r.value, 1), r.unit) for r in readings(text)]


@pytest.mark.parametrize(
    ("text", "pascals"),
    [
        ("Static at the air handler, ninety pascals on the return and sixty on the supply, one fifty all up.", [90, 60, 150]),
        ("External static was a hundred and eighty pascals, the book allows one fifty.", [180, 150]),
        ("The filter drops two hundred and twenty pascals, limit is two hundred. Changed it, now it's seventy.", [220, 200]),
        (
            "Static is ninety pascals on the return side. Cleaned the coil. Forty on the return, fifty on the supply, ninety total.",
            [90, 40, 50, 90],
        ),
    ],
)  # fmt: skip
def test_pascals_go_on(text: str, pascals: list[float]) -> None:
    found = [r.value for r in readings(text) if r.unit == "Pa" and r.quantity == "pressure"]
    assert found[: len(pascals)] == pascals


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("Static on this furnace. Total is point eight six and the filter alone is point four.", [0.86, 0.4]),
        (
            "Total external static point nine. Coil drop, point three five. After the wash point two.",
            [0.9, 0.35, 0.2],
        ),
        ("Static one point two inches. Supply side point seven, return side point five.", [1.2, 0.7, 0.5]),
    ],
)
def test_inches_of_water_beside_static(text: str, inches: list[float]) -> None:
    found = [round((r.value or 0.0) / INCH, 2) for r in readings(text) if r.unit == "Pa"]
    assert found == inches
    bare = [r for r in readings(text) if r.unit == "Pa" and r.unit_assumed]
    assert all(any("inches of water" in why for why in r.review) for r in bare)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        # temperatures beside the same words
        (
            "Static ninety pascals on the return. Return twenty-four, supply twelve.",
            [("pressure", 90, "Pa"), ("temperature", 24, "degC"), ("temperature", 12, "degC")],
        ),
        (
            "R-32 split. Return twenty-five, supply twelve. Ninety pascals on the return. Twenty-four on the return now.",
            [("temperature", 25, "degC"), ("temperature", 12, "degC"), ("pressure", 90, "Pa"), ("temperature", 24, "degC")],
        ),
        # amps beside static
        (
            "External static point eight inches. Blower draws point nine.",
            [("pressure", 199.3, "Pa"), ("current", 0.9, "A")],
        ),
        # a vacuum in pascals
        (
            "Vacuum through a new filter drier down to sixty pascals, valve shut, seventy after ten minutes.",
            [("vacuum", 60, "Pa"), ("vacuum", 70, "Pa"), ("duration", 10, "min")],
        ),
    ],
)  # fmt: skip
def test_no_pressures_of_air(text: str, told: list[tuple[str, float, str]]) -> None:
    assert _told(text) == told
