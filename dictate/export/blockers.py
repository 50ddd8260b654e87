"""What stops a final export: each open thing that would put a number or a statement on paper unchecked."""

from __future__ import annotations

from dictate.errors import ExportRefusedError
from dictate.export import wording
from dictate.record.visit import Record


def blockers(record: Record) -> list[str]:
    """Return one line for each blocking thing that is open, in the order of the record."""
    lines = [f"{p.file} could not be read: {p.error}" for p in record.problems if p.waived is None]
    for reading in record.readings:
        if reading.review and reading.role == "measured":
            lines.append(f"{reading.id} {wording.what(reading)} {wording.value(reading)} is not confirmed")
    for item in record.refrigerant:
        if item.review:
            lines.append(f"{item.id} {item.direction} {wording.movement(item)} is not confirmed")
    lines += [f"{c.id} {c.rule}: {c.message}" for c in record.checks if c.blocking and wording.is_open(c)]
    return lines


def refuse_if_blocked(record: Record, *, draft: bool) -> None:
    """Raise ExportRefusedError that names what is open, unless a draft was asked for."""
    lines = blockers(record)
    if lines and not draft:
        more = f" (and {len(lines) - 3} more)" if len(lines) > 3 else ""
        raise ExportRefusedError(
            f"visit {record.visit.id} has {len(lines)} open: {'; '.join(lines[:3])}{more}.",
            "Answer with 'dictate review', or write a draft with --draft.",
        )
