"""The items of a record that the log speaks of: by id, all their places, and a copy that may be changed."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

from dictate.record.base import At
from dictate.record.visit import Record

LISTS = {"readings": "r", "refrigerant": "m", "steps": "s", "parts": "p", "events": "v", "conclusions": "n"}
"""The lists of a record whose items an answer may bring, with the letter of their ids."""


def item_by_id(record: Record, id: str) -> tuple[str, Any] | None:
    """Return (list name, item) for an id of the record, or null."""
    if id == "labour" and record.labour is not None:
        return "labour", record.labour
    for kind in (*LISTS, "tests", "equipment"):
        for item in getattr(record, kind):
            if item.id == id:
                return kind, item
    return None


def places(record: Record) -> Iterator[At]:
    """Yield where each item of a record was said."""
    for kind in (*LISTS, "tests", "remarks", "equipment"):
        for item in getattr(record, kind):
            if item.at is not None:
                yield item.at
    if record.labour is not None:
        yield from record.labour.at


def copied(record: Record) -> Record:
    """Copy a record deeply, but for what is never changed in place: words, clips and verdicts."""
    shared = ("transcript", "clips", "checks", "export")
    made = record.model_copy(
        update={n: copy.deepcopy(getattr(record, n)) for n in type(record).model_fields if n not in shared}
    )
    for name in shared[:3]:
        setattr(made, name, list(getattr(record, name)))
    return made
