"""The refrigerant log: one row for each movement, with the union of what both federal rules ask.

The fields are those a technician hands to the owner under 40 CFR 82.157(l) and 40 CFR 84.106(l): appliance
and place, date, person, parts and work, refrigerant and amount; with certificate, full charge and its basis,
tests and the leak rate as good practice. What was not said is written "not stated", never inferred. The leak
rate is the owner's calculation; it is given when it could be computed.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable

from dictate.export import wording
from dictate.export.csv_file import fragment, safe
from dictate.record.visit import Equipment, Movement, Record

NOT_STATED = "not stated"
COLUMNS = (
    "visit", "revision", "supersedes", "date", "site", "appliance", "appliance model", "appliance serial",
    "technician", "certificate", "direction", "refrigerant", "amount", "unit", "full charge",
    "full charge basis", "parts", "work", "tests", "leak check", "leak rate", "place in the sound", "words",
    "to confirm", "draft",
)  # fmt: skip


def heading() -> str:
    """Return the heading row."""
    return _row(COLUMNS)


def rows(record: Record, *, draft: bool) -> Iterable[str]:
    """Yield one row a movement, and one for each machine whose movement was said without an amount."""
    for item in record.refrigerant:
        yield _row(_cells(record, item, item.equipment, draft))
    moved = {item.equipment for item in record.refrigerant}
    opened = {
        s.equipment
        for s in record.steps
        if s.status == "done" and s.step in ("charged", "refrigerant_recovered")
    }
    for equipment in sorted(opened - moved, key=str):
        yield _row(_cells(record, None, equipment, draft))


def _row(cells: Iterable[str]) -> str:
    out = io.StringIO()
    csv.writer(out, lineterminator="\r\n").writerow(cells)
    return out.getvalue()


def _cells(record: Record, item: Movement | None, equipment: str | None, draft: bool) -> list[str]:
    visit = record.visit
    machine = next((e for e in record.equipment if e.id == equipment), None)
    charge = _full_charge(record, machine)
    done = [s for s in record.steps if s.status == "done" and s.equipment == equipment]
    work = dict.fromkeys(wording.STEP_WORDS[s.step] for s in done)
    parts = [f"{p.name} {p.action}" for p in record.parts if p.equipment == equipment]
    tests = [_test(t.kind, t.result) for t in record.tests if t.equipment == equipment]
    refrigerant = item.refrigerant if item else (machine.refrigerant if machine else None)
    direction = item.direction if item else NOT_STATED
    known = item is not None and item.value is not None
    cells = {
        "visit": visit.id,
        "revision": str(visit.revision),
        "supersedes": str(visit.revision - 1) if visit.revision > 1 else "",
        "date": visit.date,
        "site": visit.site or visit.customer,
        "appliance": (machine.name or machine.type) if machine else None,
        "appliance model": machine.model if machine else None,
        "appliance serial": machine.serial if machine else None,
        "technician": visit.technician,
        "certificate": visit.certificate,
        "direction": direction,
        "refrigerant": refrigerant,
        "amount": wording.number(item.value) if item and item.value is not None and known else None,
        "unit": item.unit if item else None,
        "full charge": charge,
        "full charge basis": "nameplate, as said" if charge else None,
        "parts": "; ".join(parts) or None,
        "work": "; ".join(work) or None,
        "tests": "; ".join(tests) or None,
        "leak check": "done" if any(s.step == "leak_checked" for s in done) else None,
        "leak rate": _leak_rate(record, equipment),
        "place in the sound": fragment(record, item.at) if item and item.at.clip else "",
        "words": item.heard if item else "",
        "to confirm": "; ".join(item.review) if item else "amount and refrigerant",
        "draft": "DRAFT" if draft else "",
    }
    return [safe(NOT_STATED if cells[name] is None else str(cells[name])) for name in COLUMNS]


def _full_charge(record: Record, machine: Equipment | None) -> str | None:
    if machine is None:
        return None
    plate = next((p for p in machine.plate if p.quantity == "mass"), None)
    if plate is not None:
        return wording.amount(plate.value, plate.unit)
    rated = next(
        (r for r in record.readings
         if r.quantity == "mass" and r.role == "rated" and r.equipment == machine.id and r.value is not None),
        None,
    )  # fmt: skip
    return wording.amount(rated.value, rated.unit) if rated else None


def _leak_rate(record: Record, equipment: str | None) -> str | None:
    for check in record.checks:
        if check.rule.startswith("leak-rate.") and check.equipment == equipment:
            for name, amount in check.computed.items():
                if amount.unit == "%":
                    return f"{wording.number(round(amount.value, 2))} % ({name.replace('_', ' ')})"
    return None


def _test(kind: str, result: str | None) -> str:
    return f"{kind.replace('_', ' ')} {result or 'result not stated'}"
