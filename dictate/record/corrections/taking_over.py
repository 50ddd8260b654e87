"""What a second reading found in the answers, taken over into the record beside what was there."""

from __future__ import annotations

from typing import Any

from dictate.record.base import At
from dictate.record.corrections.items import LISTS
from dictate.record.corrections.machines import machine_of, same_machines
from dictate.record.visit import Correction, Labour, Reading, Record


def take_over(record: Record, read: Record, by_clip: dict[str, Correction], *, whole: bool) -> None:
    """Take over what the answers in `by_clip` brought; `whole` when the whole transcript was read again."""
    machines = same_machines(record, read, by_clip, whole=whole)
    ids: dict[str, str] = {}
    fresh: set[str] = set()
    for kind, letter in LISTS.items():
        have = {_key(i): i for i in getattr(record, kind)}
        numbers: dict[str, int] = {}
        merged = list(getattr(record, kind))
        for item in getattr(read, kind):
            entry = by_clip.get(item.at.clip or "")
            if entry is None:
                known = have.get(_key(item))
                if known is not None:
                    ids[item.id] = known.id
                    _told_by_answer(known, item)
                continue
            numbers[entry.id] = numbers.get(entry.id, 0) + 1
            old, new = item.id, f"{entry.id}.{letter}{numbers[entry.id]}"
            ids[old], item.id = new, new
            fresh.add(new)
            item.equipment = machine_of(record, entry, item.equipment, machines)
            spot = next((n for n, i in enumerate(merged) if _after(i, item)), len(merged))
            merged.insert(spot, item)
        setattr(record, kind, merged)
    for reading in record.readings:
        if reading.id in fresh and reading.retracts is not None:
            reading.retracts = ids.get(reading.retracts)
    _tests(record, read, by_clip, machines, ids, fresh)
    if read.labour is not None and any(a.clip in by_clip for a in read.labour.at):
        record.labour = Labour.model_validate(read.labour.model_dump())
    said = [r for r in read.remarks if r.at.clip in by_clip]
    for remark in said:
        remark.equipment = machines.get(remark.equipment or "")
    record.remarks += said
    record.recommendations += [r.text for r in said if r.kind == "recommendation"]
    record.complaint = record.complaint or next((r.text for r in said if r.kind == "complaint"), None)
    for name in ("date", "site", "customer", "technician", "certificate"):
        if getattr(record.visit, name) is None:
            setattr(record.visit, name, getattr(read.visit, name))


def _key(item: Any) -> tuple[Any, ...]:
    at = item.at or At()
    which = getattr(item, "quantity", None) or getattr(item, "step", None) or getattr(item, "name", None)
    return (at.clip, at.segment, at.first_word, at.last_word, which, getattr(item, "role", None) == "target")


def _after(other: Any, item: Any) -> bool:
    """Tell whether a known item was said after a new one."""
    here, there = other.at.segment, item.at.segment
    return here is not None and there is not None and here > there


def _told_by_answer(known: Any, item: Any) -> None:
    """Take over what only the answer can have told: the side of the repair, or a value taken back."""
    if isinstance(known, Reading):
        if item.role == "retracted" and known.role == "measured":
            known.role = "retracted"
        if known.stage is None:
            known.stage = item.stage


def _tests(
    record: Record,
    read: Record,
    by_clip: dict[str, Correction],
    machines: dict[str, str | None],
    ids: dict[str, str],
    fresh: set[str],
) -> None:
    """Take over the tests that an answer brought or filled in."""
    for n, test in enumerate(read.tests, start=1):
        readings = [ids[r] for r in test.readings if r in ids]
        entry = by_clip.get(test.at.clip or "")
        if entry is None:
            mine = next((r for r in readings if r in fresh), None)
            if mine is None:
                continue
            entry = next(e for e in by_clip.values() if mine.startswith(f"{e.id}."))
        test.readings = readings
        test.equipment = machine_of(record, entry, test.equipment, machines)
        same = [t for t in record.tests if t.kind == test.kind and set(t.readings) & set(readings)] or [
            t
            for t in record.tests
            if t.kind == test.kind and t.equipment == test.equipment and t.attempt == test.attempt
        ]
        if same:
            test.id, test.attempt = same[0].id, same[0].attempt
            record.tests = [test if t is same[0] else t for t in record.tests]
        else:
            test.id = f"{entry.id}.t{n}"
            record.tests = [*record.tests, test]
