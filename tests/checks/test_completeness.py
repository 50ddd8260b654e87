"""The views of what a record holds for a warranty claim and for a refrigerant log."""

from __future__ import annotations

from typing import Any

from dictate.checks.completeness import Field, refrigerant_log, warranty
from tests.checks.build import record

SEALED: dict[str, Any] = {
    "visit": {"site": "the deli", "date": "2026-02-01", "technician": "A. B."},
    "complaint": "box warm",
    "equipment": [{"type": "walk-in cooler", "model": "W-1", "serial": "7", "refrigerant": "R-448A"}],
    "steps": [
        {"step": "power_isolated", "at_s": 1}, {"step": "refrigerant_recovered", "at_s": 5},
        {"step": "nitrogen_purged", "at_s": 9}, {"step": "charged", "at_s": 30},
    ],
    "parts": [
        {"name": "compressor", "action": "replaced", "at_s": 8}, {"name": "filter drier", "action": "replaced"},
    ],
    "refrigerant": [
        {"direction": "recovered", "refrigerant": "R-448A", "value": 9, "unit": "lb", "at_s": 5},
        {"direction": "charged", "refrigerant": "R-448A", "value": 9.5, "unit": "lb", "at_s": 31},
    ],
    "readings": [{"quantity": "vacuum", "value": 350, "at_s": 20}],
    "labour": {"hours": 3.5},
}  # fmt: skip


def by_name(fields: list[Field]) -> dict[str, Field]:
    return {f.name: f for f in fields}


def test_a_claim_shows_what_is_there_and_jumps_to_it() -> None:
    fields = by_name(warranty(record(SEALED)))
    assert fields["amount charged"].present
    assert fields["amount charged"].at is not None and fields["amount charged"].at.start_s == 31
    assert "9.5 lb R-448A" in fields["amount charged"].value
    assert fields["serial number"].value == "7"
    assert fields["labour"].value == "3.5 h"
    assert fields["vacuum reached"].value.startswith("vacuum 350 micron")


def test_a_claim_shows_what_is_not_there() -> None:
    fields = by_name(warranty(record(SEALED)))
    absent = {n for n, f in fields.items() if not f.present}
    assert {
        "pressure test", "vacuum held", "leak check", "test for absence of voltage", "cause", "part numbers",
        "winding resistances of the compressor", "readings as found",
    } <= absent  # fmt: skip
    assert not fields["pressure test"].value and fields["pressure test"].at is None


def test_a_claim_for_a_capacitor_asks_nothing_of_the_circuit() -> None:
    case = {"parts": [{"name": "run capacitor", "action": "replaced"}]}
    names = set(by_name(warranty(record(case))))
    assert "isolation of the power" in names
    assert not names & {"amount charged", "vacuum reached", "leak check", "filter drier"}


def test_the_log_of_a_charge() -> None:
    fields = by_name(refrigerant_log(record(SEALED)))
    assert all(
        fields[n].present for n in ("the place", "the date", "the technician's name", "the amount added")
    )
    assert fields["the amount added"].at is not None
    assert not fields["a leak check and its method"].present
    assert fields["the full charge and its basis"].need == "useful"
    assert fields["the unit's identity"].value == "walk-in cooler W-1 7"


def test_no_refrigerant_no_log() -> None:
    assert refrigerant_log(record({"parts": [{"name": "contactor", "action": "replaced"}]})) == []


def test_two_machines_each_have_their_fields() -> None:
    case: dict[str, Any] = {
        "equipment": [{"type": "ice machine"}, {"type": "walk-in"}],
        "refrigerant": [
            {"direction": "charged", "value": 1, "unit": "lb", "equipment": "u1"},
            {"direction": "charged", "equipment": "u2"},
        ],
    }
    added = {f.equipment: f.present for f in refrigerant_log(record(case)) if f.name == "the amount added"}
    assert added == {"u1": True, "u2": False}
