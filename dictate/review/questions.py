"""What a record asks of a person, in the order in which it is worth answering, and how it can be answered.

The page and the terminal show the same questions. Their sentences come from the digest that the printed page
shows too; what is added here is what a person can do: confirm, choose another value, type one, say that a
step was done or was not, that the question does not apply, that nobody knows, or leave a note.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any

from dictate.export import wording
from dictate.export.digest import Look, digest
from dictate.record.base import At
from dictate.record.corrections import FILE
from dictate.record.visit import Candidate, Check, Record
from dictate.vocabulary.load import table

HEADINGS = {
    "failed input": "Could not be read",
    "doubtful value": "Values to confirm",
    "which machine": "Which machine",
    "does not add up": "Does not add up",
    "not said": "Not said, and this job calls for it",
    "cannot be told": "Cannot be told from what was said",
}
_ORDER = {kind: n for n, kind in enumerate(HEADINGS)}
_LOST = re.compile(r"^answer (x\d+) of ")


@dataclass(frozen=True)
class Choice:
    """Something that one key or one press answers: what is written on it, and the value it sends."""

    label: str
    value: str


@dataclass
class Question:
    """One thing that needs a person; `key` names it as long as it is asked for the same reason."""

    key: str
    kind: str
    text: str
    ask: str | None = None
    heard: str = ""
    at: list[At] = field(default_factory=list)
    choices: list[Choice] = field(default_factory=list)
    can: frozenset[str] = frozenset()
    blocking: bool = False
    caution: str | None = None
    source: str = ""
    rule: str | None = None
    equipment: str | None = None
    machine: str = ""
    evidence: list[str] = field(default_factory=list)
    target: str = ""
    targets: list[str] = field(default_factory=list)
    step: str | None = None

    @property
    def heading(self) -> str:
        """Return the heading that it stands under."""
        return HEADINGS[self.kind]


def questions(record: Record) -> list[Question]:
    """Return the open questions; what stops an export comes first under its heading."""
    checks = {c.id: c for c in record.checks}
    out = [_of(record, look, checks) for look in digest(record).open]
    out += _machines(record)
    return sorted(out, key=lambda q: (_ORDER[q.kind], not q.blocking))


def key_of(check: Check) -> str:
    """Return the key of a check's question: rule, machine and evidence, which outlive a new numbering."""
    return "|".join([check.rule, check.equipment or "", *check.evidence[:4]])


def reasons() -> list[str]:
    """Return the ready reasons for setting a question aside."""
    return list(table("answers")["reasons"]["list"])


def title(record: Record, equipment: str | None) -> str:
    """Name a machine in one or two words; empty where the visit has one machine only or none is meant."""
    machine = next((e for e in record.equipment if e.id == equipment), None)
    if machine is None:
        return ""
    return machine.name or machine.type or f"machine {machine.id}"


def _of(record: Record, look: Look, checks: dict[str, Check]) -> Question:
    made = Question(
        key=look.target,
        kind=look.kind,
        text=look.text,
        ask=look.question,
        heard=look.heard,
        at=[a for a in look.at if a.clip is not None],
        blocking=look.blocking,
        caution=look.caution,
        source=look.source,
        target=look.target,
    )
    check = checks.get(look.target)
    if check is not None:
        return _of_check(record, made, check)
    if look.kind == "failed input":
        made.key = f"input|{look.target}|{look.text}"
        lost = _LOST.match(look.text.removeprefix(f"{FILE}: ")) if look.target == FILE else None
        if lost is not None:
            made.target = lost.group(1)
        made.rule = "input"
        made.can = frozenset({"take_back"} if lost else {"waive", "note"})
        return made
    return _of_item(record, made)


def _of_item(record: Record, made: Question) -> Question:
    from dictate.record.corrections import item_by_id

    found = item_by_id(record, made.target)
    item: Any = found[1] if found else None
    made.targets = [made.target]
    made.equipment = getattr(item, "equipment", None)
    made.machine = title(record, made.equipment)
    can = {"confirm", "note", "strike"}
    kind = found[0] if found else ""
    if kind in ("readings", "refrigerant"):
        can.add("type")
        options: list[Candidate] = item.candidates
        made.choices = [
            Choice(wording.candidate(c), str(n)) for n, c in enumerate(options) if choosable(item, c)
        ]
        made.blocking = kind == "refrigerant" or item.role == "measured"
    if kind == "equipment":
        can.discard("strike")
    made.can = frozenset(can)
    return made


def choosable(item: Any, option: Candidate) -> bool:
    """Tell whether a candidate holds a value that can take the item's place."""
    return option.value is not None and (option.value, option.unit or item.unit) != (item.value, item.unit)


def _of_check(record: Record, made: Question, check: Check) -> Question:
    made.key, made.rule, made.equipment = key_of(check), check.rule, check.equipment
    made.machine = title(record, check.equipment) if len(record.equipment) > 1 else ""
    made.evidence = list(check.evidence)
    made.step = table("answers")["steps"].get(check.rule)
    can = {"type", "waive", "not_apply", "note"}
    if check.outcome == "problem":
        can.add("so")
        can.discard("not_apply")
    if made.step is not None and check.outcome in ("missing", "unsure"):
        can |= {"done", "not_done"}
    made.can = frozenset(can)
    return made


def _machines(record: Record) -> list[Question]:
    """Ask for the machine of what belongs to none, in runs as it was said, where the visit has several."""
    if len(record.equipment) < 2:
        return []
    things = [
        (thing.at.segment if thing.at.segment is not None else -1, thing, words)
        for thing, words in _named(record)
    ]
    things.sort(key=lambda t: t[0])
    out = []
    choices = [Choice(_machine_label(record, e.id), e.id) for e in record.equipment]
    for loose, run in groupby(things, key=lambda t: t[1].equipment is None):
        if not loose:
            continue
        group = list(run)
        names = list(dict.fromkeys(words for _, _, words in group))
        more = f" and {len(names) - 4} more" if len(names) > 4 else ""
        out.append(
            Question(
                key="machine|" + "|".join(t.id for _, t, _ in group),
                kind="which machine",
                text="; ".join(names[:4]) + more,
                ask="Which machine does this belong to?",
                heard=group[0][1].heard,
                at=[group[0][1].at] if group[0][1].at.clip is not None else [],
                choices=choices,
                can=frozenset({"machine", "note"}),
                targets=[t.id for _, t, _ in group],
                target=group[0][1].id,
            )
        )
    return out


def _named(record: Record) -> list[tuple[Any, str]]:
    out: list[tuple[Any, str]] = [
        (r, f"{wording.what(r)} {wording.value(r)}") for r in record.readings if r.role != "retracted"
    ]
    out += [(m, f"{m.direction} {wording.movement(m)}") for m in record.refrigerant]
    out += [(s, wording.STEP_WORDS[s.step]) for s in record.steps]
    out += [(p, f"{p.name} {p.action}") for p in record.parts]
    return out


def _machine_label(record: Record, id: str) -> str:
    machine = next(e for e in record.equipment if e.id == id)
    more = machine.serial or machine.model
    return title(record, id) + (f" ({more})" if more else "")
