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
    """Split "a 45 5" or "forty five five, 440 volt" into the two markings of a dual capacitor."""
    if number.form not in {"short_decimal", "two_digits", "decimal"} or number.places != 1:
        return None
    tokens = narration.tokens
    if "point" in [t.lower for t in tokens[number.start : number.end]] or number.end - number.start < 2:
        return None
    large, small = divmod(round(number.value * 10), 10)
    if not (15 <= large <= 100 and large % 5 == 0 and small in {3, 4, 5, 6}):
        return None
    named = find_components(narration)
    caps = [c for c in named if 0 <= number.start - c.end <= 14]
    behind = any("capacitor" in c.name and 0 <= c.start - number.end <= 1 for c in named)
    if not behind and (not caps or "capacitor" not in caps[-1].name):
        return None
    before = tokens[number.start - 1].lower
    after = [t.lower for t in tokens[number.end : number.end + 4]]
    shown = not behind and caps[-1].end == number.start and after[:1] == [","]
    shown = shown and bool(_READS & set(after[1:]))  # "run cap thirty-five five, got thirty-three eight"
    marked = (
        behind
        or shown
        or bool({"volt", "volts", "vac"} & set(after))
        or before
        in {
            "a",
            "an",
            "rated",
            "dual",
            "new",
            "says",
            "marked",
            "fresh",
            "another",
        }
    )
    if not marked:
        return None
    cut = number.end - 1
    return Number(number.start, cut, float(large)), Number(cut, number.end, float(small))


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
