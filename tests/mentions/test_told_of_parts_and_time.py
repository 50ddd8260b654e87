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
        (
            "Fed it from two jugs, eighteen pounds out of the first and thirteen out of the second, "
            "thirty-one all together.",
            "charged",
            31,
            "lb",
        ),
        (
            "First bottle took eleven pounds, second one took three pounds and a half, "
            "fourteen and a half in the two.",
            "recovered",
            14.5,
            "lb",
        ),
        ("Put in four pounds, then two and a half, six and a half for the lot.", "charged", 6.5, "lb"),
        ("Charged 60 grams, then another forty five, hundred and five all up.", "charged", 105, "g"),
        ("Recovered it all. Two hundred twelve pounds.", "recovered", 212, "lb"),
        ("Put liquid in the receiver. Six pounds.", "charged", 6, "lb"),
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


@pytest.mark.parametrize(
    "text",
    [
        "Put a bi-flow drier in the liquid line. Three hundred and fifty pounds, thirty minutes, three fifty.",
        "Dropped a new core in the shell. Two hundred pounds, held an hour.",
        "Brazed a tee in and put a valve in the suction line. One fifty pounds, twenty minutes, no drop.",
    ],
)
def test_pounds_left_standing_are_a_pressure(text: str) -> None:
    record = read_text(text)
    assert not record.refrigerant
    assert any(r.quantity == "pressure" and r.unit == "psi" for r in record.readings)


@pytest.mark.parametrize(
    ("text", "step", "statuses"),
    [
        (
            "Did not change the rack drier, that's on the schedule.",
            "filter_drier_replaced",
            {"not_done", "planned"},
        ),
        ("Didn't replace the gasket, it's booked for Friday.", "part_replaced", {"not_done", "planned"}),
        ("Didn't swap the motor, it was fine.", "part_replaced", {"not_done"}),
        ("Told the engineer that filter wants changing every six months.", "part_replaced", set()),
        (
            "Room was at eleven when I started it up, it's on three now, stat is set for two.",
            "adjusted",
            set(),
        ),
        ("Stat was set at two, it's on three now.", "adjusted", {"done"}),
        ("Store manager Renata has the report.", "customer_informed", {"done"}),
        ("Fuse was blown. Block back in.", "power_restored", {"done"}),
        ("Had no cause to open it and I didn't put a drop in it.", "charged", {"not_done"}),
        ("Condenser looks good, I cleaned nothing.", "cleaned", {"not_done"}),
    ],
)
def test_what_became_of_the_work(text: str, step: str, statuses: set[str]) -> None:
    assert {s.status for s in read_text(text).steps if s.step == step} == statuses
