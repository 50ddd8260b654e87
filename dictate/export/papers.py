"""The papers that people read: the customer's page and the warranty evidence, as HTML and as PDF.

Both come from the same list of blocks, so the printed and the shown page say the same.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from dictate.export import wording
from dictate.export.csv_file import fragment
from dictate.export.digest import Machine, digest
from dictate.export.page import environment
from dictate.record.base import At
from dictate.record.visit import Check, Reading, Record

CAUTION = (
    "This page repeats what was said and measured on the job. It does not state that anything is safe. The "
    "nameplate, the maker's literature, local codes and licensed practice rule."
)


@dataclass
class Block:
    """A heading with paragraphs, list items or a table beneath; `strong` marks what must be seen."""

    heading: str
    lines: list[str] = field(default_factory=list)
    table: list[list[str]] = field(default_factory=list)
    strong: bool = False


@dataclass
class Paper:
    """A page to print."""

    title: str
    facts: list[tuple[str, str]]
    blocks: list[Block]
    draft: bool
    footer: str = CAUTION

    def html(self) -> str:
        """Return the page as one self-contained HTML file."""
        return environment().get_template("paper.html").render(paper=self)


def customer_page(record: Record, *, draft: bool) -> Paper:
    """Return the customer's page: complaint, cause, correction, before and after, in and out, open points."""
    view = digest(record)
    blocks = []
    if record.complaint:
        blocks.append(Block("Complaint", [record.complaint]))
    for machine in view.machines:
        blocks += _machine_blocks(machine)
    if record.recommendations:
        blocks.append(Block("Recommended", list(record.recommendations)))
    opened = [
        look.question or look.text for look in view.looks if look.kind not in ("cannot be told", "put right")
    ]
    if opened:
        blocks.append(Block("Open points", list(dict.fromkeys(opened)), strong=True))
    cautions = [look.caution for look in view.looks if look.caution]
    if cautions:
        blocks.append(Block("Cautions", list(dict.fromkeys(cautions)), strong=True))
    if record.acknowledgement:
        seen = record.acknowledgement
        blocks.append(Block("Seen by the customer", [f"{seen.name}, {seen.at}, revision {seen.revision}"]))
    return Paper("Service visit", _facts(record), blocks, draft)


def _machine_blocks(machine: Machine) -> list[Block]:
    cause = list(machine.found) or ["not stated"]
    done = [wording.STEP_WORDS[s.step] + (f" ({s.component})" if s.component else "") for s in machine.done]
    parts = [
        f"{p.name} {p.action}" + (f", number {p.part_number}" if p.part_number else "") for p in machine.parts
    ]
    blocks = [
        Block(machine.title),
        Block("Cause, as found", cause),
        Block("Correction", list(dict.fromkeys([*parts, *done])) or ["not stated"]),
    ]
    if machine.not_done or machine.planned:
        left = [f"not done: {wording.STEP_WORDS[s.step]}" for s in machine.not_done]
        left += [f"still planned: {wording.STEP_WORDS[s.step]}" for s in machine.planned]
        blocks.append(Block("Not done", list(dict.fromkeys(left)), strong=True))
    if machine.pairs:
        table = [["Reading", "As found", "As left", "Side not stated"]]
        for pair in machine.pairs:
            sides = (pair.found, pair.left, pair.other)
            table.append([pair.what, *("; ".join(map(_value, side)) for side in sides)])
        blocks.append(Block("Readings", table=table))
    if machine.movements:
        moved = [f"{m.direction}: {wording.movement(m)}" for m in machine.movements]
        blocks.append(Block("Refrigerant", moved))
    return blocks


def _facts(record: Record) -> list[tuple[str, str]]:
    visit = record.visit
    facts = [
        ("Visit", f"{visit.id}, revision {visit.revision}"),
        ("Date", visit.date or "not stated"),
        ("Customer", visit.customer or "not stated"),
        ("Site", visit.site or "not stated"),
        ("Technician", visit.technician or "not stated"),
        ("Certificate", visit.certificate or "not stated"),
    ]
    if visit.revision > 1:
        facts.append(("Supersedes", f"revision {visit.revision - 1}"))
    return facts


# What proves a failed compressor to the one who pays for it (common practice): the windings to each other
# and to ground, the supply, the current, the start parts, and that the shell was cold when it was judged.
_EVIDENCE = ("winding.", "compressor.", "voltage.", "current.", "capacitor.", "contactor.")


def claim(record: Record, completeness: list[tuple[str, str, At | None]], *, draft: bool) -> Paper:
    """Return the warranty evidence: the tests that prove the failure, with times and places in the sound.

    `completeness` lists (field, value or "not stated", where it was said).
    """
    table = [["Test", "Value", "Side", "Words", "Place in the sound"]]
    for r in record.readings:
        if r.role == "measured" and (r.component or "") in _tested(record):
            side = {"as_found": "as found", "as_left": "as left", None: "not stated"}[r.stage]
            table.append([wording.what(r), _value(r), side, r.heard, _place(record, r.at)])
    verdicts = [_verdict(record, c) for c in record.checks if _counts(c)]
    parts = [
        f"{p.name} {p.action}" + (f", number {p.part_number}" if p.part_number else ", number not stated")
        for p in record.parts
    ]
    words = [f"{c.text} [{_place(record, c.at)}]" for c in record.conclusions]
    blocks = [
        Block("Machine", [m.title for m in digest(record).machines]),
        Block("Parts", parts or ["not stated"]),
        Block("Tests", table=table) if len(table) > 1 else Block("Tests", ["not stated"], strong=True),
        Block("What the tests say", verdicts or ["no test of the failure was said"]),
        Block("The technician's words", words or ["not stated"]),
        Block("Fields of a claim", [_field(record, *entry) for entry in completeness]),
    ]
    return Paper("Warranty evidence", _facts(record), [b for b in blocks if b.lines or b.table], draft)


def _tested(record: Record) -> set[str]:
    replaced = {p.name for p in record.parts if p.action in ("replaced", "installed", "removed")}
    always = {"compressor", "run capacitor", "start capacitor", "contactor", "start relay", "overload"}
    return replaced | always


def _value(reading: Reading) -> str:
    return wording.value(reading) + (" (to confirm)" if reading.review else "")


def _field(record: Record, name: str, value: str, at: At | None) -> str:
    return f"{name}: {value}" + (f" [{_place(record, at)}]" if at else "")


def _counts(check: Check) -> bool:
    return check.rule.startswith(_EVIDENCE) and check.outcome != "not_applicable"


def _verdict(record: Record, check: Check) -> str:
    numbers = ", ".join(
        f"{n.replace('_', ' ')} {wording.amount(a.value, a.unit)}" for n, a in check.computed.items()
    )
    places = ", ".join(_place(record, at) for at in check.at if at.clip)
    text = f"{check.message}" + (f" ({numbers})" if numbers else "")
    return f"{text} [{places}]" if places else text


def _place(record: Record, at: At) -> str:
    said = f" at {at.said_at}" if at.said_at else ""
    return fragment(record, at) + said if at.clip else "place not known"
