"""A row of several kinds that is read again for the next machine: "Standby: 3.9, 17.5, 7.4 amps".

The first row said what each value is of ("suction 4 bar, discharge 17, current 7.2 amps"); the second one
only has its numbers, each of the size of its counterpart.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Taken

_FAR = 40
"""Words between the two rows."""
_LEAST = 3
_LIKE = 1.35


def row_before(readings: Sequence[Taken], group: Sequence[Value], sentence: int) -> list[Taken]:
    """Return the readings before a row, one for each of its values; none where one of them does not fit."""
    if len(group) < _LEAST or any(v.state != "value" or v.range for v in group):
        return []
    before = [t for t in readings[-2 * len(group) :] if t.end <= group[0].start][-len(group) :]
    if len(before) < len(group) or group[0].start - before[-1].end > _FAR:
        return []
    if len({t.reading.quantity for t in before}) < 2 or any(t.reading.role != "measured" for t in before):
        return []
    places = {(t.reading.quantity, t.reading.point) for t in before}
    if len(places) < len(before) or before[0].sentence == sentence:
        return []
    for v, t in zip(group, before, strict=True):
        value = t.reading.value
        if not value or not v.value or not 1 / _LIKE <= v.value / value <= _LIKE:
            return []
        if v.quantity is not None and t.reading.unit not in {u for u, _ in v.quantity.means}:
            return []
    return [] if any(b.start - a.end > 5 for a, b in itertools.pairwise(before)) else before


__all__ = ["row_before"]
