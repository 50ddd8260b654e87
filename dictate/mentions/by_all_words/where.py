"""The component and the point of a value, and its stage, by all the words around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import cast

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED, Told, told
from dictate.record.visit import Reading, Stage

_LIKELY, _UNLIKELY = 0.8, 0.01
"""Another component or point is taken from the first share on, if what was taken has less than the second."""

_TOLD, _OTHER_STAGE = 0.95, 0.98
"""The shares from which a stage is told that nothing else tells, and another one than was told."""
_NO_STAGE = frozenset({"vacuum", "mass", "length", "level"})
"""What is not of the machine before or after the work."""


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


def settle_when(narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int]) -> None:
    """Tell whether measured values are of the machine as found or as left."""
    stages = told(narration, "stage")
    for i, start in placed.items():
        reading, read = readings[i], stages.get(start)
        if read is None or reading.role != MEASURED or reading.quantity in _NO_STAGE:
            continue
        if read.share > (_TOLD if reading.stage is None else _OTHER_STAGE):
            reading.stage = cast(Stage, read.best)


def _is_other(read: Told, taken: str | None) -> bool:
    own = taken or ""
    return read.share > _LIKELY and read.best != own and own in read.names and read.of(own) < _UNLIKELY


__all__ = ["settle_when", "settle_where"]
