"""The item of the record that an answer is about: found, described, and as it stands after a change."""

from __future__ import annotations

from typing import Any

from dictate.export import wording
from dictate.record.corrections import anchor, item_by_id
from dictate.record.visit import Correction, Movement, Reading, Record
from dictate.review.answers.reply import Ask, NotUnderstoodError


def item_of(ask: Ask) -> tuple[str, Any]:
    """Return (list name, item) of what is answered. Raises NotUnderstoodError."""
    id = ask.question.target if ask.question is not None else ask.reply.target
    found = item_by_id(ask.record, id)
    if found is None:
        raise NotUnderstoodError(f"there is no {id!r} in this record.", "Look at the page again.")
    return found


def describe(kind: str, item: Any) -> str:
    """Say in a few words what an item is and how it stands."""
    if isinstance(item, Reading):
        return f"{wording.what(item)} {wording.value(item)}"
    if isinstance(item, Movement):
        return f"{item.direction} {wording.movement(item)}"
    if kind == "steps":
        return f"{wording.STEP_WORDS[item.step]}: {item.status.replace('_', ' ')}"
    if kind == "parts":
        return f"{item.name} {item.action}"
    if kind == "equipment":
        facts = (item.name or item.type, item.model, item.serial, item.refrigerant)
        return ", ".join(f for f in facts if f) or "the machine"
    if kind == "labour":
        hours = f", {wording.number(item.hours)} h" if item.hours is not None else ""
        return f"labour {item.start or '?'} to {item.end or '?'}{hours}"
    return str(getattr(item, "event", None) or getattr(item, "text", None) or kind)


def changed(
    record: Record, kind: str, item: Any, fields: dict[str, str | float | None], out: Correction
) -> Correction:
    """Fill in an entry that gives an item other values in some of its fields."""
    after = item.model_copy(update=fields)
    # What was typed is checked by the record's own types before it is written down.
    type(item).model_validate(after.model_dump())
    out.action, out.fields = "change", fields
    out.about = [anchor(record, kind, item)]
    if isinstance(after, Reading) and "value" in fields:
        after.unit_assumed = False
    out.before, out.after = describe(kind, item), describe(kind, after)
    return out
