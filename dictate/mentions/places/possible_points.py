"""Points that a quantity can have at all, and legs that go on being told to the ground.

possible_points(found)   "head on A two twenty, B two thirty": a pressure has no leg; a voltage has no air
legs_to_ground(found)    "phase A to ground two seventy-seven, B two seventy-nine": B to the ground as well
"""

from __future__ import annotations

import re
from itertools import pairwise

from dictate.mentions.whose.taken import ELECTRICAL, Found

_LEG = re.compile(r"L[123]")
_WIRED = re.compile(r"[LT][123]\b.*|common-\w+|run-\w+|start-\w+|primary|secondary")
_AIR = frozenset(("supply", "return", "ambient", "box", "product"))
_NOT_WIRED = frozenset(("pressure", "temperature", "superheat", "subcooling", "vacuum"))
_NO_AIR = ELECTRICAL - {"resistance"}
_ALIKE = 0.7


def possible_points(found: Found) -> None:
    """Take points off the values that cannot have them, in place."""
    for t in found.readings:
        if not can_be_at(t.reading.quantity, t.reading.point):
            t.reading.point = None


def can_be_at(quantity: str, point: str | None) -> bool:
    """Tell whether a quantity can be read at a point: a pressure on no leg, a voltage in no air."""
    if point is None:
        return True
    if quantity in _NO_AIR:
        return point not in _AIR
    return quantity not in _NOT_WIRED or _WIRED.fullmatch(point) is None


def legs_to_ground(found: Found) -> None:
    """Tell the legs of a row to the ground where the first one was, in place."""
    for a, b in pairwise(found.readings):
        one, two = a.reading, b.reading
        leg, _, other = (one.point or "").partition("-")
        if other not in {"ground", "neutral"} or _LEG.fullmatch(leg) is None or a.sentence != b.sentence:
            continue
        if two.quantity != "voltage" or two.point is None or _LEG.fullmatch(two.point) is None:
            continue
        if two.point != leg and one.value and two.value and _ALIKE <= two.value / one.value <= 1 / _ALIKE:
            two.point = f"{two.point}-{other}"


__all__ = ["legs_to_ground", "possible_points"]
