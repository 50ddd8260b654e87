"""Warmth and humidity that are wished for together: "30 and 80 percent is what they want"."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.by_all_words.words_taken import tokens_at
from dictate.mentions.narration import Narration
from dictate.record.visit import Reading


def settle_climate_roles(narration: Narration, readings: Sequence[Reading]) -> None:
    """Give the one of a pair that was taken for a reading of now the role of the other, in place."""
    pairs: list[tuple[int, int]] = narration.found.get("climate pairs", [])
    if not pairs:
        return
    at = {t: r for r in readings for t in tokens_at(narration, r.at)}
    for one, other in pairs:
        a, b = at.get(one), at.get(other)
        if a is None or b is None or "retracted" in {a.role, b.role} or a.role == b.role:
            continue
        wished, taken = (a, b) if b.role == "measured" else (b, a)
        if taken.role == "measured":
            taken.role, taken.stage = wished.role, wished.stage


__all__ = ["settle_climate_roles"]
