"""What is read at a power supply that feeds a blower or fans: its volts, and the windings of its transformer.

"Tower blower isn't spinning. The power brick's putting out | 12.1 | ... The brick's primary, | 62 ohms": the
words speak of a blower all along, and the value is the supply's.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.record.visit import Reading

_SUPPLY = "power supply"
_STOPS = frozenset((".", "?", "!", ";"))
_LEAD = 14  # words of a sentence between the name and a value


def settle_supplies(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give what was read at a power supply to it, in place."""
    named = find_components(narration)
    if all(c.name != _SUPPLY for c in named):
        return
    for r in readings:
        if r.role != MEASURED or r.quantity not in {"voltage", "resistance"}:
            continue
        start = next(tokens_at(narration, r.at), None)
        if start is None:
            continue
        first = start
        while first > 0 and start - first < _LEAD and narration.lowers[first - 1] not in _STOPS:
            first -= 1
        last = next((c for c in reversed(named) if first <= c.start < start and not c.backdrop), None)
        if last is None or last.name != _SUPPLY:
            continue
        primary = "primary" in narration.lowers[last.end : start]
        if r.quantity == "voltage" or primary or start - last.end <= _LEAD // 2:
            r.component, r.which = _SUPPLY, None
            r.point = (
                "primary"
                if primary
                else r.point
                if r.point in {"primary", "secondary", "load", "line"}
                else None
            )


__all__ = ["settle_supplies"]
