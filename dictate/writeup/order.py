"""The order in which things were said: places that can be compared across lists."""

from __future__ import annotations

from dictate.record.base import At

Place = tuple[int, int]
"""(segment, word): places compare as the words follow one another."""


def place(at: At | None) -> Place:
    """Return where something begins; things without a place come first."""
    if at is None:
        return (-1, -1)
    return (at.segment if at.segment is not None else -1, at.first_word if at.first_word is not None else -1)
