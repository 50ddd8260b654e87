"""Parts and working time as technicians tell of them in whole sentences (common practice)."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.pipeline import read_text

CASES = Path(__file__).parent / "cases"


def told(name: str) -> list[tuple[str, list[str]]]:
    groups = tomllib.loads((CASES / f"{name}.toml").read_text(encoding="utf-8")).values()
    return [(text, want) for group in groups for text, want in group["cases"]]


@pytest.mark.parametrize(("text", "want"), told("parts_told"), ids=lambda v: v if isinstance(v, str) else "")
def test_parts(text: str, want: list[str]) -> None:
    assert sorted(f"{p.name}/{p.action}" for p in read_text(text).parts) == want


@pytest.mark.parametrize(
    ("text", "want"), told("labour_stretches"), ids=lambda v: v if isinstance(v, str) else ""
)
def test_labour(text: str, want: list[str]) -> None:
    labour = read_text(text).labour
    if labour is None:
        assert want == ["", "", ""]
        return
    hours = "" if labour.hours is None else str(round(labour.hours, 3))
    assert [labour.start or "", labour.end or "", hours] == want


@pytest.mark.parametrize(
    ("text", "direction", "value", "unit"),
    [
        ("Recovered seven pounds, and then six ounces more, seven six in all.", "recovered", 7.375, "lb"),
        ("Plate charge is four point two kilos and that is exactly what went in.", "charged", 4.2, "kg"),
        ("The jug's lighter by nineteen ounces.", "charged", 19, "oz"),
    ],
)
def test_movements(text: str, direction: str, value: float, unit: str) -> None:
    moved = read_text(text).refrigerant
    assert [(m.direction, m.value, m.unit) for m in moved] == [(direction, value, unit)]


@pytest.mark.parametrize(
    "text",
    [
        "When I come back I will recover, change it out, and weigh in the 2 pounds 1 ounce.",
        "Put the cut-in at fifteen pounds.",
        "Defrost heater is 3 elements, I got 32 ohms, 32 ohms and 33 ohms.",
        "Charged them three hours, forty six pounds.",
    ],
)
def test_no_movement(text: str) -> None:
    assert not read_text(text).refrigerant
