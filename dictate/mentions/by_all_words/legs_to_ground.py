"""Legs of a supply that are told to the ground behind its pairs.

"207 A to B, 209 B to C, 206 A to C, and to ground | 119, 120, 118": the last pair that was named is not
theirs; there are three of them, each less than the pairs by what a leg has to the ground.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED
from dictate.record.visit import Reading

_PAIRS = frozenset(("L1-L2", "L2-L3", "L1-L3"))
_LEGS = ("L1", "L2", "L3")
_SHARE = (0.4, 0.65)
"""What a leg has to the ground, as a share of what it has to another leg: the half, or one by root three."""
_GROUND = frozenset(("ground", "earth", "neutral"))


def settle_legs_to_ground(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give three values to the ground behind the pairs of a supply a leg each, in place."""
    for i in range(3, len(readings) - 2):
        pairs, row = readings[max(0, i - 3) : i], readings[i : i + 3]
        if any(r.quantity != "voltage" or r.role != MEASURED or not r.value for r in (*pairs, *row)):
            continue
        if {r.point for r in pairs} != _PAIRS or not {r.point for r in row} <= _PAIRS | {
            "L1",
            "ground",
            None,
        }:
            continue
        whole = max(r.value or 0.0 for r in pairs)
        if not all(_SHARE[0] <= (r.value or 0.0) / whole <= _SHARE[1] for r in row):
            continue
        end = max(tokens_at(narration, pairs[-1].at), default=None)
        start = next(tokens_at(narration, row[0].at), None)
        if end is None or start is None or _GROUND.isdisjoint(narration.lowers[end:start]):
            continue
        for r, leg in zip(row, _LEGS, strict=True):
            r.point = leg


__all__ = ["settle_legs_to_ground"]
