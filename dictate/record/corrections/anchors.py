"""What finds an item again in a record that was made anew: its id and words, or its words and place."""

from __future__ import annotations

from typing import Any

from dictate.record.base import At
from dictate.record.visit import Anchor, Record


def anchor(record: Record, kind: str, item: Any) -> Anchor:
    """Return what finds an item of the record again."""
    if kind == "labour":
        return Anchor(kind="labour", id="labour")
    at = item.at or At()
    clip = next((c.sha256 for c in record.clips if c.id == at.clip), None)
    return Anchor(
        kind=kind,
        id=item.id,
        heard=getattr(item, "heard", ""),
        clip=clip,
        start_s=at.start_s,
        first_word=at.first_word,
    )


def find(record: Record, wanted: Anchor) -> Any | None:
    """Return the item that an anchor means, or null when none or more than one fits."""
    if wanted.kind == "labour":
        return record.labour
    items = [*record.equipment] if wanted.kind == "equipment" else list(getattr(record, wanted.kind))
    for item in items:
        if item.id == wanted.id and getattr(item, "heard", "") == wanted.heard:
            return item
    fits = [i for i in items if wanted.heard and i.heard == wanted.heard and _same_place(record, i, wanted)]
    return fits[0] if len(fits) == 1 else None


def _same_place(record: Record, item: Any, wanted: Anchor) -> bool:
    at: At = item.at or At()
    clip = next((c.sha256 for c in record.clips if c.id == at.clip), None)
    if clip != wanted.clip:
        return False
    if at.start_s is None or wanted.start_s is None:
        return at.start_s == wanted.start_s and at.first_word == wanted.first_word
    return abs(at.start_s - wanted.start_s) < 0.5
