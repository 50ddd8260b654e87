"""One field of a completeness view."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from dictate.record.base import At

Need = Literal["asked for", "useful"]


@dataclass(frozen=True)
class Field:
    """One field: its name, whether it is there, its value in words, and where it was said.

    `need` is "asked for" where a claim or a log is not complete without it, "useful" otherwise. `at` is None
    when it was not said, or when the record does not tell where.
    """

    name: str
    present: bool
    value: str = ""
    at: At | None = None
    equipment: str | None = None
    need: Need = "asked for"
    source: str = ""


def field(
    name: str, things: Any, value: str = "", *, equipment: str | None = None, need: Need = "asked for",
    source: str = "",
) -> Field:  # fmt: skip
    """Make a field from what it rests on: things of the record (none: not there), or a text or None."""
    if things is None or isinstance(things, str):
        return Field(name, bool(things), things or "", None, equipment, need, source)
    first = next(iter(things), None)
    at = getattr(first, "at", None)
    text = value or (getattr(first, "heard", "") if first is not None else "")
    return Field(name, first is not None, text if first is not None else "", at, equipment, need, source)
