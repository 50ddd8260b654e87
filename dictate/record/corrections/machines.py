"""Which machine of the record one of a second reading is, and to which one an answer belongs."""

from __future__ import annotations

from typing import Any

from dictate.record.base import At
from dictate.record.visit import Correction, Equipment, Record


def machine_of(
    record: Record, entry: Correction, equipment: str | None, machines: dict[str, str | None]
) -> str | None:
    """Return the machine of something in an answer: the one it names, the question's, or none.

    With several machines an answer that belongs to no question and names none of them is not put to the one
    that happened to be talked of last: which machine it is becomes a question.
    """
    known = machines.get(equipment or "")
    named = entry.fields.get("names_machine")
    if entry.equipment is not None:
        return known if named and known is not None else entry.equipment
    if len(record.equipment) > 1 and not named:
        return None
    if known is None and len(record.equipment) == 1:
        return record.equipment[0].id
    return known


def same_machines(
    record: Record, read: Record, by_clip: dict[str, Correction], *, whole: bool
) -> dict[str, str | None]:
    """Return {id in the second reading: id in the record}; a machine that an answer names is added."""
    out: dict[str, str | None] = {}
    taken: set[str] = set()
    numbers: dict[str, int] = {}
    known = list(record.equipment)
    for n, machine in enumerate(read.equipment):
        fits = [
            e
            for e in known
            if e.id not in taken
            and (
                (machine.serial and e.serial == machine.serial)
                or (
                    e.at is not None
                    and machine.at is not None
                    and _key_of_machine(e) == _key_of_machine(machine)
                )
            )
        ]
        if not fits and whole and len(read.equipment) == len(known) and known[n].id not in taken:
            fits = [known[n]]
        if not fits:
            named = [e for e in known if e.id not in taken and _names(e) & _names(machine)]
            fits = named if len(named) == 1 else []
        entry = by_clip.get(machine.at.clip or "") if machine.at is not None else None
        if not fits and entry is not None and entry.equipment is not None:
            fits = [e for e in known if e.id == entry.equipment]
        if not fits and entry is not None and len(known) == 1 and not machine.type and not machine.name:
            fits = known
        if fits:
            taken.add(fits[0].id)
            out[machine.id] = fits[0].id
            _fill(fits[0], machine)
        elif entry is not None:
            numbers[entry.id] = numbers.get(entry.id, 0) + 1
            old, machine.id = machine.id, f"{entry.id}.e{numbers[entry.id]}"
            out[old] = machine.id
            record.equipment = [*record.equipment, machine]
    return out


def _names(machine: Equipment) -> set[str]:
    return {n.casefold() for n in (machine.name, machine.type) if n}


def _key_of_machine(machine: Equipment) -> tuple[Any, ...]:
    at = machine.at or At()
    return (at.clip, at.segment, at.first_word)


def _fill(known: Equipment, machine: Equipment) -> None:
    for name in ("name", "type", "model", "serial", "refrigerant"):
        if getattr(known, name) is None:
            setattr(known, name, getattr(machine, name))
    have = {(p.quantity, p.value, p.unit) for p in known.plate}
    known.plate = [*known.plate, *(p for p in machine.plate if (p.quantity, p.value, p.unit) not in have)]
