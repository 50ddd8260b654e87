"""What stands around bare numbers: a range or a change of two, and the side of zero."""

from __future__ import annotations

import itertools

from dictate.mentions.narration import Narration
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list


def below_zero(narration: Narration, value: Value) -> None:
    """Make the bare "five below" negative, and note "two above"; nothing but a temperature is said so."""
    tokens = narration.tokens
    end = value.end
    if end >= len(tokens) or tokens[end].lower not in {"below", "above"} or value.value <= 0:
        return
    nxt = tokens[end + 1].lower if end + 1 < len(tokens) else "."
    if tokens[end].lower == "above":
        value.above = nxt in word_list("values_below_zero")
    elif nxt in word_list("values_below_zero"):
        value.value, value.end, value.below = -value.value, end + 1 + (nxt == "zero"), True


def mark_bare_ranges(narration: Narration, values: list[Value]) -> None:
    """Mark "between forty and forty five", "six to seven", "six or seven" of bare numbers as ranges."""
    tokens = narration.tokens
    for a, b in itertools.pairwise(values):
        if a.range or b.range or a.change or not (a.numbers and b.numbers) or not (a.bare and b.bare):
            continue
        between = [t.lower for t in tokens[a.end : b.start]]
        before = [t.lower for t in tokens[max(0, a.start - 4) : a.start]]
        close = 0 < b.value - a.value <= max(3.0, 0.35 * abs(b.value))
        if (between == ["and"] and "between" in before) or (
            between in (["to"], ["or"], ["-"])
            and close
            and not {"from", "went", "dropped", "down", "up"} & set(before)
        ):
            a.range, b.range = "low", "high"
        elif between == ["to"] and {"from", "went", "dropped", "rose", "climbed", "came"} & set(before):
            a.change, b.change = "from", "to"
