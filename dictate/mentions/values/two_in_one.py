"""One number as heard that is two: a time behind a value, the two markings of a dual capacitor."""

from __future__ import annotations

import re

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number


def time_behind(narration: Narration, q: Quantity) -> Number | None:
    """Take "suction forty eight | two minutes in" apart: nobody says minutes and their tenths like that.

    The time keeps the last word; the number in front of it is returned.
    """
    number = q.numbers[0]
    if q.word not in {"minute", "second", "hour"} or len(q.numbers) > 1 or number.form != "short_decimal":
        return None
    words = [t.lower for t in narration.tokens[number.start : number.end]]
    large, small = divmod(round(number.value * 10), 10)
    if number.written or "point" in words or len(words) < 3 or not small:
        return None
    q.start, q.value = number.end - 1, float(small)
    q.numbers = (Number(number.end - 1, number.end, float(small)),)
    return Number(number.start, number.end - 1, float(large))


_READS = frozenset(
    {"got", "get", "getting", "reads", "reading", "read", "tests", "tested", "measures", "meters", "metered"}
)


def dual_capacitor(narration: Narration, number: Number) -> tuple[Number, Number] | None:
    """Split "a 45 5", "new cap, forty five five", "an eighty ten" into the markings of a dual capacitor."""
    sizes = _two_sizes(narration, number)
    if sizes is None:
        return None
    words = narration.lowers
    named = find_components(narration)
    caps = [c for c in named if 0 <= number.start - c.end <= 14]
    behind = any("capacitor" in c.name and 0 <= c.start - number.end <= 1 for c in named)
    fresh = words[number.start - 1 : number.start] in (["new"], ["another"], ["fresh"])
    if fresh and not behind and (not caps or "capacitor" not in caps[-1].name):
        # "the cap was swelled. ... put a new | forty-five five | in"
        caps = [c for c in named if 0 <= number.start - c.end <= _FRESH and "capacitor" in c.name]
    if not behind and (not caps or "capacitor" not in caps[-1].name):
        return None
    after = words[number.end : number.end + 4]
    marked = behind or bool({"volt", "volts", "vac"} & set(after)) or words[number.start - 1] in _MARKED
    if not marked:
        between = words[caps[-1].end : number.start]
        # "run cap thirty-five five, got thirty-three eight"
        read = _READS | {"big", "herm", "fan", "small", "compressor"}
        shown = not between and (
            (after[:1] == [","] and bool(read & set(after[1:]))) or bool(_READS & set(after[:1]))
        )
        # "the run cap, forty five five": nothing between says that it was measured
        named_so = 1 <= len(between) <= 2 and set(between) <= {",", "is", "'s", ":", "was", "of"}
        marked = shown or named_so
    if not marked:
        return None
    large, small = sizes
    cut = number.end - 1
    return Number(number.start, cut, float(large)), Number(cut, number.end, float(small))


_FRESH = 60
"""Tokens back in which a capacitor was spoken of, where a new one is told by its two sizes only."""
_MARKED = frozenset(("a", "an", "rated", "dual", "new", "says", "marked", "fresh", "another"))


def _two_sizes(narration: Narration, number: Number) -> tuple[int, int] | None:
    """Return the two sizes that a number as heard can be: 45.5 is "forty five five", 8010 is "eighty ten"."""
    if number.form == "pair" and not number.places and number.end - number.start == 2:
        large, small = divmod(round(number.value), 100)
        return (large, small) if 30 <= large <= 100 and large % 5 == 0 and small in {10, 12, 15} else None
    if number.form not in {"short_decimal", "two_digits", "decimal"} or number.places != 1:
        return None
    if "point" in narration.lowers[number.start : number.end] or number.end - number.start < 2:
        return None
    large, small = divmod(round(number.value * 10), 10)
    return (large, small) if 15 <= large <= 100 and large % 5 == 0 and small in {3, 4, 5, 6} else None


def dual_markings(narration: Narration) -> list[tuple[Number, Number]]:
    """Return both numbers of "45/5" on a dual capacitor."""
    out = []
    for token in narration.tokens:
        if "/" not in token.lower:
            continue
        match = re.fullmatch(r"(\d{1,3}(?:\.\d)?)/(\d{1,2}(?:\.\d)?)", token.lower)
        if (
            match
            and 10 <= float(match[1]) <= 100
            and 1.5 <= float(match[2]) <= 15
            and float(match[1]) > float(match[2])
        ):
            i = token.index
            out.append(
                (
                    Number(i, i + 1, float(match[1]), written=True),
                    Number(i, i + 1, float(match[2]), written=True),
                )
            )
    return out
