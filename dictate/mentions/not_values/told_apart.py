"""Numbers that stand alone for one of several: "discharge air on 3 now 35", "two out of 5"."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, numbers_by_end, numbers_by_start

_FEW = 12
_LEGS, _ROW = 8, 14
"""Legs, heaters and fans are counted up to here; the words in which the next value of a row stands."""


def which_of_them(narration: Narration, number: Number) -> bool:
    """Tell whether a bare number tells which of several is meant, or how many there are."""
    if number.places or number.negative or not number.value.is_integer() or not 1 <= number.value <= 24:
        return False
    lead = narration.lowers[number.start - 1] if number.start else "."
    if lead == "of":
        return _out_of(narration.lowers, number)
    if lead == "on" and number.value <= _LEGS and _read_off(narration, number):
        return True
    return lead in {"on", "for", "in"} and number.value <= _FEW and _leads_on(narration, number)


def _read_off(narration: Narration, number: Number) -> bool:
    """Tell whether a row is read off, each value with its number: "19.8 on 1, 24.4 on 2, 18.1 on 3"."""
    ends, starts = numbers_by_end(narration), numbers_by_start(narration)
    words = narration.lowers
    if number.start - 1 not in ends:
        return False
    for i in range(max(1, number.start - _ROW), min(len(words) - 1, number.end + _ROW)):
        if words[i] != "on" or i == number.start - 1 or i not in ends:
            continue
        noun = i + 1 not in starts
        other = starts.get(i + 1 + noun)
        if other is not None and other.value != number.value and _names(other):
            return True
        again = other is not None and other.value == number.value and _names(other)
        if again and ends[i].value != ends[number.start - 1].value:
            return True  # "24.4 on 2, scratch that, 22.4 on 2"
        if other is not None and other.form == "ordinal":
            return True
    return False


def _names(n: Number) -> bool:
    return n.value.is_integer() and 1 <= n.value <= _LEGS and not n.places and not n.negative


def _leads_on(narration: Narration, number: Number) -> bool:
    """Tell whether a value of its own follows: "discharge air on 3 now 35, on 4 it's 33"."""
    starts = numbers_by_start(narration)
    behind = narration.lowers[number.end : number.end + 2]
    if behind[:1] in (["now"], ["is"], ["it's"], ["was"], ["reads"], ["'s"]):
        return number.end + 1 in starts
    return behind in (["it", "'s"], ["it", "is"], ["is", "now"], ["it", "was"]) and number.end + 2 in starts


def _out_of(words: Sequence[str], number: Number) -> bool:
    """Tell whether a number counts a lot of things: "two out of 5", "the middle one of three"."""
    if number.value < 2 or number.start < 2 or words[number.start - 2] not in {"out", "one", "ones"}:
        return False
    return words[number.end : number.end + 1] not in (["degrees"], ["amps"])
