"""Self-corrections (first version: none)."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.readings import Found
from dictate.record.visit import Reading


def correct(narration: Narration, found: Found) -> list[Reading]:
    """Return the readings."""
    return [t.reading for t in found.readings if not t.movement]
