"""What was typed for a known item: its value, or its fields as the page shows them."""

from __future__ import annotations

from dictate.record.visit import Correction
from dictate.review.answers.items import changed, item_of
from dictate.review.answers.reply import Ask, NotUnderstoodError
from dictate.review.answers.values import one_number, read_value, refrigerant_name

_FIELDS: dict[str, tuple[str, ...]] = {
    "equipment": ("name", "type", "model", "serial", "refrigerant"),
    "parts": ("name", "part_number", "rating", "quantity"),
    "steps": ("status", "component"),
    "readings": ("stage", "component", "point"),
    "refrigerant": ("refrigerant", "direction"),
    "labour": ("start", "end", "hours", "travel_hours"),
    "visit": ("date", "site", "customer", "technician", "certificate"),
}
_NUMBERS = frozenset({"quantity", "hours", "travel_hours"})


def type_value(ask: Ask, out: Correction) -> Correction:
    """Give a reading or an amount the value that was typed."""
    kind, item = item_of(ask)
    if kind not in ("readings", "refrigerant"):
        raise NotUnderstoodError(
            "a value cannot be typed here.", "Change the item's fields, or leave a note."
        )
    out.text = ask.text
    return changed(ask.record, kind, item, read_value(ask.text, item), out)


def change_fields(ask: Ask, out: Correction) -> Correction:
    """Change the fields that were typed over, of an item or of the visit itself."""
    if ask.reply.target == "visit":
        kind, item = "visit", ask.record.visit
    else:
        kind, item = item_of(ask)
    fields: dict[str, str | float | None] = {}
    for name in _FIELDS.get(kind, ()):
        if name not in ask.reply.fields:
            continue
        value = _field(name, " ".join(ask.reply.fields[name].split())[:200])
        if value != getattr(item, name):
            fields[name] = value
    if not fields:
        raise NotUnderstoodError("nothing was changed.", "Change a field before saving.")
    try:
        if kind == "visit":
            type(item).model_validate({**item.model_dump(), **fields})
            out.action, out.fields = "visit", fields
            out.before = ", ".join(f"{n} {getattr(item, n) or 'not stated'}" for n in fields)
            out.after = ", ".join(f"{n} {v or 'not stated'}" for n, v in fields.items())
            return out
        return changed(ask.record, kind, item, fields, out)
    except ValueError:
        raise NotUnderstoodError("a field holds something that it cannot hold.", "Mend it.") from None


def _field(name: str, text: str) -> str | float | None:
    if not text:
        return None
    if name in _NUMBERS:
        return one_number(text)
    if name == "refrigerant":
        return refrigerant_name(text)
    if name == "date":
        from datetime import date

        try:
            return date.fromisoformat(text).isoformat()
        except ValueError:
            raise NotUnderstoodError(f"{text!r} is not a date.", "Write it like 2026-03-04.") from None
    return text
