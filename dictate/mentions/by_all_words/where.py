"""The component and the point of a value, by all the words around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import Told, told
from dictate.record.visit import Reading

_LIKELY, _UNLIKELY = 0.8, 0.01
"""Another component or point is taken from the first share on, if what was taken has less than the second."""


def settle_where(narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]) -> None:
    """Put the component and the point of readings right; `placed` gives the number of each."""
    components, points = told(narration, "component"), told(narration, "point")
    for i, start in placed.items():
        reading = readings[i]
        if start not in components:
            continue
        thing, place = components[start], points[start]
        if _is_other(thing, reading.component):
            reading.component = thing.best or None
            if not thing.best:
                reading.which = None
        if _is_other(place, reading.point):
            reading.point = place.best or None


def _is_other(read: Told, taken: str | None) -> bool:
    own = taken or ""
    return read.share > _LIKELY and read.best != own and own in read.names and read.of(own) < _UNLIKELY


__all__ = ["settle_where"]
