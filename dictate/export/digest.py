"""A record boiled down to what a person reads: what needs a look, then the visit machine by machine.

The printed summary, the printable page and the customer's page show the same digest, so they cannot disagree.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from dictate.export import wording
from dictate.record.base import At
from dictate.record.visit import Movement, Part, Reading, Record, Step, Test

Kind = Literal[
    "doubtful value", "does not add up", "not said", "cannot be told", "failed input", "set aside",
    "put right",
]  # fmt: skip
_ORDER: dict[Kind, int] = {
    "failed input": 0, "doubtful value": 1, "does not add up": 2, "not said": 3, "cannot be told": 4,
    "set aside": 5, "put right": 6,
}  # fmt: skip


@dataclass
class Look:
    """One thing that needs a person: what, why, the words, and where they were said."""

    kind: Kind
    text: str
    target: str
    question: str | None = None
    caution: str | None = None
    source: str = ""
    heard: str = ""
    at: list[At] = field(default_factory=list)
    options: list[str] = field(default_factory=list)
    blocking: bool = False


@dataclass
class Pair:
    """What one thing measured as found and as left; `other` holds values whose side was not said."""

    what: str
    found: list[Reading] = field(default_factory=list)
    left: list[Reading] = field(default_factory=list)
    other: list[Reading] = field(default_factory=list)


@dataclass
class Machine:
    """Everything said about one machine; `id` is null for what belongs to no named machine."""

    id: str | None
    title: str
    plate: list[str] = field(default_factory=list)
    found: list[str] = field(default_factory=list)
    done: list[Step] = field(default_factory=list)
    not_done: list[Step] = field(default_factory=list)
    planned: list[Step] = field(default_factory=list)
    pairs: list[Pair] = field(default_factory=list)
    context: list[Reading] = field(default_factory=list)
    movements: list[Movement] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    tests: list[Test] = field(default_factory=list)


@dataclass
class Digest:
    """A visit as a person reads it."""

    record: Record
    looks: list[Look]
    machines: list[Machine]

    @property
    def open(self) -> list[Look]:
        """Return what still asks something of a person."""
        return [look for look in self.looks if look.kind not in ("set aside", "put right")]

    @property
    def several(self) -> bool:
        """Whether the visit saw more than one machine."""
        return len([m for m in self.machines if m.id is not None]) > 1


def digest(record: Record) -> Digest:
    """Boil a record down."""
    return Digest(record, _looks(record), _machines(record))


def _looks(record: Record) -> list[Look]:
    looks = [
        Look("failed input", f"{p.file}: {p.error}", target=p.file, question=p.advice or None, blocking=True)
        for p in record.problems
        if p.waived is None
    ]
    looks += [
        Look("set aside", f"{p.file}: {p.error} Set aside: {p.waived}", target=p.file)
        for p in record.problems
        if p.waived is not None
    ]
    for reading in record.readings:
        if reading.review and reading.role != "retracted":
            looks.append(
                Look(
                    "doubtful value",
                    f"{wording.what(reading)}: {wording.value(reading)}. " + "; ".join(reading.review),
                    target=reading.id,
                    heard=reading.heard,
                    at=[reading.at],
                    options=[wording.candidate(c) for c in reading.candidates],
                )
            )
    for item in record.refrigerant:
        if item.review:
            looks.append(
                Look(
                    "doubtful value",
                    f"{item.direction} {wording.movement(item)}. " + "; ".join(item.review),
                    target=item.id,
                    heard=item.heard,
                    at=[item.at],
                    options=[wording.candidate(c) for c in item.candidates],
                )
            )
    doubted = [(wording.STEP_WORDS[s.step], s.id, s.review, s.heard, s.at) for s in record.steps]
    doubted += [(f"{p.name} {p.action}", p.id, p.review, p.heard, p.at) for p in record.parts]
    doubted += [(t.kind.replace("_", " "), t.id, t.review, t.heard, t.at) for t in record.tests]
    for name, target, review, heard, at in doubted:
        if review:
            text = f"{name}. " + "; ".join(review)
            looks.append(Look("doubtful value", text, target=target, heard=heard, at=[at]))
    for machine in record.equipment:
        if machine.review:
            name = machine.name or machine.type or machine.id
            text = f"{name}. " + "; ".join(machine.review)
            places = [machine.at] if machine.at else []
            looks.append(Look("doubtful value", text, target=machine.id, heard=machine.heard, at=places))
    if record.labour and record.labour.review:
        text = "labour. " + "; ".join(record.labour.review)
        looks.append(Look("doubtful value", text, target="labour", at=record.labour.at))
    kinds: dict[str, Kind] = {"problem": "does not add up", "missing": "not said", "unsure": "cannot be told"}
    for check in record.checks:
        if check.waived is not None:
            text = f"{check.question or check.message} Set aside: {check.waived}"
            looks.append(Look("set aside", text, target=check.id, caution=check.caution, at=check.at))
        elif check.outcome in kinds and check.resolved:
            looks.append(Look("put right", check.message, target=check.id, source=check.source, at=check.at))
        elif check.outcome in kinds:
            looks.append(
                Look(
                    kinds[check.outcome],
                    check.message,
                    target=check.id,
                    question=check.question,
                    caution=check.caution,
                    source=check.source,
                    at=check.at,
                    blocking=check.blocking,
                )
            )
    return sorted(looks, key=lambda look: _ORDER[look.kind])


def _machines(record: Record) -> list[Machine]:
    machines = [
        Machine(e.id, _title(record, e.id), [wording.plate(p) for p in e.plate]) for e in record.equipment
    ]
    loose = Machine(None, "Not said which machine" if machines else "The machine (not named)")
    by_id = {m.id: m for m in machines}

    def of(equipment: str | None) -> Machine:
        return by_id.get(equipment, loose)

    for step in record.steps:
        machine = of(step.equipment)
        sides = {"done": machine.done, "not_done": machine.not_done, "planned": machine.planned}
        sides[step.status].append(step)
    for reading in record.readings:
        machine = of(reading.equipment)
        if reading.role == "measured":
            _pair(machine, reading)
        elif reading.role != "retracted":
            machine.context.append(reading)
    for item in record.refrigerant:
        of(item.equipment).movements.append(item)
    for part in record.parts:
        of(part.equipment).parts.append(part)
    for test in record.tests:
        of(test.equipment).tests.append(test)
    for conclusion in record.conclusions:
        of(conclusion.equipment).found.append(conclusion.text)
    used = any((loose.done, loose.not_done, loose.planned, loose.pairs, loose.context, loose.movements,
                loose.parts, loose.tests, loose.found))  # fmt: skip
    return machines + ([loose] if used or not machines else [])


def _pair(machine: Machine, reading: Reading) -> None:
    name = wording.what(reading)
    pair = next((p for p in machine.pairs if p.what == name), None)
    if pair is None:
        pair = Pair(name)
        machine.pairs.append(pair)
    side = {"as_found": pair.found, "as_left": pair.left, None: pair.other}[reading.stage]
    side.append(reading)


def _title(record: Record, id: str) -> str:
    machine = next(e for e in record.equipment if e.id == id)
    title = machine.name or machine.type or f"machine {id}"
    facts = [
        f"model {machine.model}" if machine.model else "",
        f"serial {machine.serial}" if machine.serial else "",
        machine.refrigerant or "",
    ]
    return ", ".join([title, *(f for f in facts if f)])
