"""What stands around bare numbers: a range or a change of two, and the side of zero."""

from __future__ import annotations

import itertools

from dictate.mentions.narration import SENTENCE_END, Narration
from dictate.mentions.quantities.ranges import ends_of_one
from dictate.mentions.quantities.side_of_zero import above_zero, below_zero
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list

_UPPER = 12  # words before "below" in which the place above it was told
_LOW = 25  # a level from here on may be that of a lower place as well


def mark_side_of_zero(narration: Narration, value: Value) -> None:
    """Make the bare "five below" negative, and note "two above"; nothing but a temperature is said so."""
    words = narration.lowers
    if value.end >= len(words) or words[value.end] not in {"below", "above", "under"} or value.value <= 0:
        return
    if words[value.end] == "above":
        value.above = above_zero(words, value.end)
        return
    end = below_zero(words, value.end)
    if end is None:
        return
    near = words[max(0, value.start - _UPPER) : value.start]
    near = near[max((i for i, w in enumerate(near) if w in SENTENCE_END), default=-1) + 1 :]
    if words[end - 1] == "below" and not word_list("upper_places").isdisjoint(near):
        if value.value <= _LOW:
            value.reasons.append("'below' may tell where it was read, or that it was below zero")
        return
    value.value, value.end, value.below = -value.value, end, True


def mark_bare_ranges(narration: Narration, values: list[Value]) -> None:
    """Mark "between forty and forty five", "six to seven", "six or seven" of bare numbers as ranges."""
    tokens = narration.tokens
    for a, b in itertools.pairwise(values):
        if a.range or b.range or a.change or not (a.numbers and b.numbers) or not (a.bare and b.bare):
            continue
        between = [t.lower for t in tokens[a.end : b.start]]
        before = [t.lower for t in tokens[max(0, a.start - 4) : a.start]]
        close = 0 < b.value - a.value <= max(3.0, 0.35 * abs(b.value))
        if (between == ["and"] and ends_of_one(narration, a.start)) or (
            between in (["to"], ["or"], ["-"])
            and close
            and not {"from", "went", "dropped", "down", "up"} & set(before)
        ):
            a.range, b.range = "low", "high"
        elif between == ["to"] and {"from", "went", "dropped", "rose", "climbed", "came"} & set(before):
            a.change, b.change = "from", "to"
