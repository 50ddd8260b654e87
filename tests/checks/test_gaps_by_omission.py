"""Leave one thing out of a complete record, and exactly the question about that thing must be raised.

Each base is a job as a careful technician tells it: nothing of procedure, safety, law and what this kind of
work needs may be open in it. Then one step, amount or reading is taken away at a time.
"""

from __future__ import annotations

from copy import deepcopy
from typing import Any

import pytest

from dictate.checks.facts import Facts
from dictate.checks.run import catalogue
from tests.checks.build import record

SUBJECTS = ("procedure", "safety", "law", "missing")
Case = dict[str, Any]

COMPRESSOR: Case = {
    "complaint": "box warm",
    "equipment": [
        {
            "type": "walk-in cooler", "model": "W-1", "refrigerant": "R-448A",
            "plate": [{"quantity": "mass", "value": 9.5, "unit": "lb"}],
        }
    ],
    "said": ["Nitrogen regulator set at two fifty.", "Told the manager."],
    "steps": [
        {"step": "power_isolated", "heard": "locked out at the disconnect", "at_s": 10},
        {"step": "absence_of_voltage_verified", "at_s": 12},
        {"step": "refrigerant_recovered", "at_s": 20},
        {"step": "brazed", "at_s": 32},
        {"step": "nitrogen_purged", "at_s": 33},
        {"step": "pressure_tested", "at_s": 40},
        {"step": "leak_checked", "at_s": 45},
        {"step": "evacuated", "at_s": 50},
        {"step": "vacuum_held", "at_s": 55},
        {"step": "charged", "at_s": 60},
        {"step": "ports_capped", "at_s": 65},
        {"step": "power_restored", "at_s": 70},
        {"step": "run_checked", "at_s": 80},
    ],
    "parts": [
        {"name": "compressor", "action": "replaced", "at_s": 30},
        {"name": "filter drier", "action": "replaced", "at_s": 31},
    ],
    "refrigerant": [
        {"direction": "recovered", "refrigerant": "R-448A", "value": 9.4, "unit": "lb", "at_s": 21},
        {"direction": "charged", "refrigerant": "R-448A", "value": 9.5, "unit": "lb", "at_s": 61},
    ],
    "tests": [
        {
            "kind": "pressure_test", "gas": "nitrogen", "start": {"value": 250, "unit": "psi"},
            "end": {"value": 250, "unit": "psi"}, "minutes": 30,
        },
    ],
    "readings": [
        {"quantity": "resistance", "value": 0.0, "component": "compressor", "point": "common-ground", "at_s": 5},
        {"quantity": "vacuum", "value": 350, "at_s": 52},
        {"quantity": "duration", "value": 15, "at_s": 54},
        {"quantity": "vacuum", "value": 400, "at_s": 55},
        {"quantity": "pressure", "value": 38, "point": "suction", "at_s": 82, "stage": "as_left"},
        {"quantity": "superheat", "value": 9, "at_s": 84, "stage": "as_left"},
    ],
}  # fmt: skip

CAPACITOR: Case = {
    "complaint": "not cooling",
    "equipment": [{"type": "split system", "serial": "S-1", "refrigerant": "R-410A"}],
    "steps": [
        {"step": "power_isolated", "heard": "pulled the disconnect", "at_s": 10},
        {"step": "absence_of_voltage_verified", "at_s": 12},
        {"step": "capacitor_discharged", "at_s": 14},
        {"step": "power_restored", "at_s": 40},
        {"step": "run_checked", "at_s": 50},
    ],
    "parts": [{"name": "run capacitor", "action": "replaced", "at_s": 30}],
    "readings": [
        {"quantity": "capacitance", "value": 31, "component": "run capacitor", "at_s": 20},
        {"quantity": "capacitance", "value": 45, "role": "rated", "component": "run capacitor", "at_s": 22},
        {"quantity": "current", "value": 11, "component": "compressor", "at_s": 60, "stage": "as_left"},
    ],
}

TOP_UP: Case = {
    "complaint": "box warm",
    "equipment": [{"type": "ice machine", "model": "I-1", "refrigerant": "R-404A"}],
    "steps": [
        {"step": "leak_checked", "at_s": 10},
        {"step": "charged", "at_s": 20},
        {"step": "ports_capped", "at_s": 30},
        {"step": "run_checked", "at_s": 40},
    ],
    "refrigerant": [{"direction": "charged", "refrigerant": "R-404A", "value": 6, "unit": "oz", "at_s": 21}],
    "readings": [{"quantity": "pressure", "value": 30, "point": "suction", "at_s": 45, "stage": "as_left"}],
}

PROPANE: Case = {
    "complaint": "not cooling",
    "equipment": [
        {
            "type": "under-counter cooler", "model": "U-1", "refrigerant": "R-290",
            "plate": [{"quantity": "mass", "value": 85, "unit": "g"}],
        }
    ],
    "said": ["No flames, door open, hose to the outside, lockring joints.", "Regulator on the bottle.",
             "Pinched off the process tube."],
    "steps": [
        {"step": "power_isolated", "heard": "unplugged it", "at_s": 10},
        {"step": "refrigerant_recovered", "at_s": 12},
        {"step": "nitrogen_swept", "at_s": 15},
        {"step": "pressure_tested", "at_s": 40},
        {"step": "leak_checked", "at_s": 45},
        {"step": "evacuated", "at_s": 50},
        {"step": "vacuum_held", "at_s": 55},
        {"step": "charged", "at_s": 60},
        {"step": "run_checked", "at_s": 80},
    ],
    "parts": [
        {"name": "filter drier", "action": "replaced", "at_s": 31},
    ],
    "refrigerant": [
        {"direction": "recovered", "refrigerant": "R-290", "value": 80, "unit": "g", "at_s": 13},
        {"direction": "charged", "refrigerant": "R-290", "value": 85, "unit": "g", "at_s": 61},
    ],
    "tests": [
        {
            "kind": "pressure_test", "gas": "nitrogen", "start": {"value": 150, "unit": "psi"},
            "end": {"value": 150, "unit": "psi"}, "minutes": 30,
        },
    ],
    "readings": [
        {"quantity": "vacuum", "value": 350, "at_s": 52},
        {"quantity": "vacuum", "value": 400, "at_s": 55},
        {"quantity": "temperature", "value": 38, "point": "box", "at_s": 84, "stage": "as_left"},
    ],
}  # fmt: skip

BASES = {"compressor": COMPRESSOR, "capacitor": CAPACITOR, "top-up": TOP_UP, "propane": PROPANE}


def open_rules(case: Case) -> set[str]:
    facts = Facts(record(case))
    return {
        check.rule
        for rule in catalogue()
        if rule.folder in SUBJECTS
        for check in rule.run(facts)
        if check.outcome in ("problem", "missing", "unsure")
    }


def without(base: Case, *gone: tuple[str, str]) -> Case:
    """Leave out everything of a list whose key (step, direction, quantity, name, kind) is named."""
    case = deepcopy(base)
    for where, name in gone:
        before = len(case[where])
        case[where] = [
            x for x in case[where]
            if name not in (x.get("step"), x.get("direction"), x.get("quantity"), x.get("name"), x.get("kind"))
        ]  # fmt: skip
        assert len(case[where]) < before, f"{name} is not in {where}"
    return case


@pytest.mark.parametrize("name", BASES)
def test_nothing_is_asked_of_a_complete_record(name: str) -> None:
    assert open_rules(BASES[name]) == set()


OMISSIONS: list[tuple[str, list[tuple[str, str]], set[str]]] = [
    ("compressor", [("steps", "power_isolated")], {"power.isolation-not-stated"}),
    ("compressor", [("steps", "absence_of_voltage_verified")], {"power.dead-test-not-stated"}),
    (
        "compressor",
        [("steps", "refrigerant_recovered"), ("refrigerant", "recovered")],
        {"recovery.not-stated"},
    ),
    ("compressor", [("refrigerant", "recovered")], {"recovery.amount-not-stated"}),
    ("compressor", [("steps", "nitrogen_purged")], {"purge.not-stated"}),
    ("compressor", [("parts", "filter drier")], {"drier.replacement-not-stated"}),
    ("compressor", [("steps", "pressure_tested"), ("tests", "pressure_test")], {"pressure-test.not-stated"}),
    ("compressor", [("steps", "leak_checked")], {"leak-check.not-stated"}),
    (
        "compressor",
        [("steps", "evacuated"), ("steps", "vacuum_held"), ("readings", "vacuum")],
        {"evacuation.not-stated"},
    ),
    ("compressor", [("readings", "vacuum")], {"evacuation.depth-not-stated"}),
    ("compressor", [("refrigerant", "charged")], {"charge.amount-not-stated"}),
    ("compressor", [("steps", "charged"), ("refrigerant", "charged")], {"charge.amount-not-stated"}),
    ("compressor", [("steps", "ports_capped")], {"ports.caps-not-stated"}),
    ("capacitor", [("steps", "power_isolated")], {"power.isolation-not-stated"}),
    ("capacitor", [("steps", "absence_of_voltage_verified")], {"power.dead-test-not-stated"}),
    ("capacitor", [("steps", "capacitor_discharged")], {"capacitor.discharge-not-stated"}),
    (
        "capacitor",
        [("steps", "run_checked"), ("readings", "current")],
        {"run.check-not-stated", "run.readings-not-stated"},
    ),
    ("capacitor", [("readings", "current")], {"run.readings-not-stated"}),
    ("capacitor", [("readings", "capacitance")], {"capacitor.rating-not-stated"}),
    ("top-up", [("steps", "leak_checked")], {"leak-check.not-stated"}),
    ("top-up", [("refrigerant", "charged")], {"charge.amount-not-stated"}),
    ("top-up", [("steps", "ports_capped")], {"ports.caps-not-stated"}),
    ("top-up", [("readings", "pressure")], {"run.readings-not-stated"}),
    ("propane", [("steps", "power_isolated")], {"power.isolation-not-stated"}),
    ("propane", [("steps", "nitrogen_swept")], {"flammable.sweep-not-stated"}),
    ("propane", [("steps", "pressure_tested"), ("tests", "pressure_test")], {"pressure-test.not-stated"}),
    ("propane", [("steps", "leak_checked")], {"leak-check.not-stated"}),
]


@pytest.mark.parametrize(
    ("base", "gone", "raised"),
    OMISSIONS,
    ids=[f"{b}-without-{'-'.join(n for _, n in g)}" for b, g, _ in OMISSIONS],
)
def test_what_is_left_out_is_asked_for(base: str, gone: list[tuple[str, str]], raised: set[str]) -> None:
    found = open_rules(without(BASES[base], *gone))
    assert raised <= found
    if "power.isolation-not-stated" in raised:
        found.discard("power.dead-test-not-stated")  # without the plug being told, both are asked
    assert found == raised


def test_a_hold_that_is_left_out_is_asked_for() -> None:
    case = without(COMPRESSOR, ("steps", "vacuum_held"))
    case["readings"] = [r for r in case["readings"] if r.get("value") != 400 and r["quantity"] != "duration"]
    assert open_rules(case) == {"evacuation.hold-not-stated"}


def test_no_refrigerant_named_anywhere() -> None:
    case = deepcopy(TOP_UP)
    case["equipment"][0].pop("refrigerant")
    case["refrigerant"][0].pop("refrigerant")
    assert open_rules(case) == {"charge.refrigerant-not-stated"}


@pytest.mark.parametrize("status", ["planned", "not_done"])
def test_planned_and_not_done_are_not_done(status: str) -> None:
    case = deepcopy(COMPRESSOR)
    for step in case["steps"]:
        if step["step"] == "leak_checked":
            step["status"] = status
    facts = Facts(record(case))
    found = [c for r in catalogue() if r.id == "leak-check.not-stated" for c in r.run(facts)]
    assert [c.outcome for c in found] == ["missing" if status == "planned" else "problem"]
    assert ("planned" in found[0].message) == (status == "planned")
    assert "not stated" not in found[0].message


def test_a_quoted_compressor_raises_nothing_of_a_repair() -> None:
    case: Case = {
        "equipment": [{"type": "walk-in cooler", "model": "W-1", "refrigerant": "R-448A"}],
        "complaint": "not cooling",
        "steps": [
            {"step": "power_isolated", "heard": "breaker off"},
            "absence_of_voltage_verified",
            "power_restored",
            {"step": "part_replaced", "component": "compressor", "status": "planned"},
            {"step": "refrigerant_recovered", "status": "planned"},
            {"step": "evacuated", "status": "planned"},
            {"step": "charged", "status": "planned"},
            "customer_informed",
        ],
        "readings": [
            {"quantity": "resistance", "value": 0, "component": "compressor", "point": "common-ground"}
        ],
    }
    assert open_rules(case) == set()


def test_two_machines_do_not_answer_for_one_another() -> None:
    case: Case = {
        "complaint": "both warm",
        "equipment": [
            {"type": "walk-in cooler", "model": "W-1", "refrigerant": "R-448A"},
            {"type": "ice machine", "model": "I-1", "refrigerant": "R-404A"},
        ],
        "steps": [
            {"step": "power_isolated", "equipment": "u2", "heard": "breaker off", "at_s": 1},
            {"step": "absence_of_voltage_verified", "equipment": "u2", "at_s": 2},
            {"step": "leak_checked", "equipment": "u1", "at_s": 9},
            {"step": "ports_capped", "equipment": "u1", "at_s": 10},
            {"step": "run_checked", "equipment": "u1", "at_s": 11},
            {"step": "run_checked", "equipment": "u2", "at_s": 12},
        ],
        "parts": [{"name": "contactor", "action": "replaced", "equipment": "u2", "at_s": 5}],
        "refrigerant": [
            {"direction": "charged", "refrigerant": "R-448A", "value": 2, "unit": "lb", "equipment": "u1"},
        ],
        "readings": [
            {"quantity": "pressure", "value": 38, "point": "suction", "equipment": "u1", "stage": "as_left"},
            {
                "quantity": "current",
                "value": 7,
                "equipment": "u2",
                "stage": "as_left",
                "component": "compressor",
            },
        ],
    }
    assert open_rules(case) == {"charge.blend-topped-up"}
    # What is said of no machine answers for either of them.
    case["steps"][2].pop("equipment")
    assert open_rules(case) == {"charge.blend-topped-up"}
    # The other machine's leak check does not.
    case["steps"][2]["equipment"] = "u2"
    assert open_rules(case) == {"charge.blend-topped-up", "leak-check.not-stated"}
