"""Which number a reading was read from."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.visit import Reading

_SCALES = (1.0, 1e3, 1e6, 60.0)
"""Kilohms, megohms and hours are kept in ohms and minutes."""


def numbers_of(narration: Narration, readings: Sequence[Reading]) -> dict[int, int]:
    """Return the first token of the number of each reading, by the place of the reading in its list.

    Readings without a number are left out ("open"), and those that share their words with others: one number
    that was said of several legs says nothing of any one of them.
    """
    words = {
        (narration.tokens[t].segment, narration.tokens[t].word): x
        for x in find_numbers(narration)
        for t in range(x.start, x.end)
    }
    places = [(r.at.segment, r.at.first_word, r.at.last_word) for r in readings]
    shared = Counter(places)
    out: dict[int, int] = {}
    for i, (reading, (segment, first, last)) in enumerate(zip(readings, places, strict=True)):
        if reading.value is None or segment is None or first is None or last is None:
            continue
        if shared[segment, first, last] > 1:
            continue
        inside = [words[segment, w] for w in range(first, last + 1) if (segment, w) in words]
        value = abs(reading.value)
        same = [x for x in inside if any(abs(abs(x.value) * s - value) <= 1e-6 * value for s in _SCALES)]
        if same or inside:
            out[i] = (same or inside)[-1].start
    return out


__all__ = ["numbers_of"]
