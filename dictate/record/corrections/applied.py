"""One entry of the log applied to the items that it means, and to the tests that were made of them."""

from __future__ import annotations

from typing import Any, get_args

from dictate.record.corrections.anchors import find
from dictate.record.visit import (
    Acknowledgement,
    Amount,
    Candidate,
    Correction,
    Reading,
    Record,
    Remark,
    Step,
    StepCode,
)
from dictate.record.visit import Test as RecordTest
from dictate.units import UCUM, convert

_STEP_ORDER = {code: n for n, code in enumerate(get_args(StepCode))}
_ANY_TIME = frozenset({"cleaned", "adjusted", "part_replaced"})


def apply(record: Record, entry: Correction, revision: int) -> bool:
    """Apply one entry; false when it means an item that is not there."""
    found = [find(record, a) for a in entry.about]
    items = [i for i in found if i is not None]
    if len(items) < len(found):
        return False
    if entry.action == "confirm":
        for item in items:
            item.review = []
    elif entry.action == "change":
        for item in items:
            _change(record, item, entry)
    elif entry.action == "strike":
        for place, item in zip(entry.about, items, strict=True):
            _strike(record, place.kind, item)
    elif entry.action == "machine":
        for item in items:
            item.equipment = entry.fields.get("equipment")
        ids = {a.id for a in entry.about}
        for test in record.tests:
            if test.equipment is None and ids & set(test.readings):
                test.equipment = _text(entry.fields.get("equipment"))
    elif entry.action == "step":
        _add_step(record, entry)
    elif entry.action == "note" and entry.note:
        record.remarks.append(
            Remark(kind="note", text=f"{entry.note} ({entry.by})", equipment=entry.equipment)
        )
    elif entry.action == "visit":
        for name, value in entry.fields.items():
            setattr(record.visit, name, value)
    elif entry.action == "acknowledge" and entry.text:
        record.acknowledgement = Acknowledgement(name=entry.text, at=entry.made_at, revision=revision)
    return True


def _text(value: str | float | None) -> str | None:
    return None if value is None else str(value)


def _change(record: Record, item: Any, entry: Correction) -> None:
    old = (getattr(item, "value", None), getattr(item, "unit", None))
    for name, value in entry.fields.items():
        setattr(item, name, value)
    if hasattr(item, "review") and (entry.fields.keys() & {"value", "state"} or not hasattr(item, "value")):
        item.review = []
    if not isinstance(item, Reading):
        return
    if "value" in entry.fields or "state" in entry.fields:
        item.unit_assumed = False
        item.ucum = UCUM.get(item.unit)
        was = Candidate(
            value=old[0], unit=old[1], heard=item.heard, why=f"as first read, changed by {entry.by}"
        )
        item.candidates = [was]
        _follow(record, item, old)


def _follow(record: Record, reading: Reading, old: tuple[float | None, str | None]) -> None:
    """Carry a changed reading into the tests that were put together from it."""
    for test in record.tests:
        if reading.id not in test.readings or old[0] is None or old[1] is None:
            continue
        new = None if reading.value is None else Amount(value=reading.value, unit=reading.unit)
        for name in ("start", "end", "reached", "start_temperature", "end_temperature"):
            if _is(getattr(test, name), old):
                setattr(test, name, new)
        if test.minutes is not None and reading.quantity == "duration":
            before = convert(old[0], old[1], "min")
            if abs(before - test.minutes) < 1e-6:
                value = reading.value
                test.minutes = None if value is None else convert(value, reading.unit, "min")
        if test.kind == "evacuation" and reading.quantity == "vacuum":
            _reached_again(record, test)


def _is(amount: Amount | None, value: tuple[float | None, str | None]) -> bool:
    return amount is not None and amount.unit == value[1] and amount.value == value[0]


def _reached_again(record: Record, test: RecordTest) -> None:
    """Set the deepest vacuum of an attempt from its readings as they stand."""
    values = [
        (convert(r.value, r.unit, "micron"), r)
        for r in record.readings
        if r.id in test.readings and r.quantity == "vacuum" and r.role == "measured" and r.value is not None
    ]
    if values:
        deepest = min(values, key=lambda v: v[0])[1]
        test.reached = Amount(value=deepest.value or 0.0, unit=deepest.unit)


def _strike(record: Record, kind: str, item: Any) -> None:
    if isinstance(item, Reading):
        old = (item.value, item.unit)
        for test in record.tests:
            if item.id in test.readings:
                for name in ("start", "end", "reached", "start_temperature", "end_temperature"):
                    if _is(getattr(test, name), old):
                        setattr(test, name, None)
                test.readings = [r for r in test.readings if r != item.id]
                if test.kind == "evacuation":
                    _reached_again(record, test)
        item.role, item.review = "retracted", []
    elif kind == "labour":
        record.labour = None
    else:
        setattr(record, kind, [other for other in getattr(record, kind) if other is not item])


def _add_step(record: Record, entry: Correction) -> None:
    step = Step.model_validate(
        {
            "id": f"{entry.id}.s1",
            "equipment": entry.equipment,
            "step": entry.fields.get("step"),
            "status": entry.fields.get("status"),
            "component": entry.fields.get("component"),
            "heard": f"answered by {entry.by}",
        }
    )
    rank = _STEP_ORDER[step.step]
    place = len(record.steps)
    for n, other in enumerate(record.steps):
        if (
            other.equipment == step.equipment
            and other.step not in _ANY_TIME
            and _STEP_ORDER[other.step] > rank
        ):
            place = n
            break
    record.steps.insert(place, step)
