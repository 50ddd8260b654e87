"""A unit said in the middle of its number: "nine bar point four", "four ohm six", "two bar and a half"."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.quantities.quantity import Quantity
from dictate.mentions.quantities.unit_behind import unit_behind
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_words
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.vocabulary.load import word_set

_SAID_AS_DIGITS = frozenset({"plain", "digits", "pair"})


def join_decimals(
    narration: Narration, numbers: Sequence[Number], n: int, q: Quantity, used: set[int]
) -> None:
    """Take the number right behind a unit as the decimals of the one before it.

    Plain digits are decimals only of units that are said so, and where nothing follows that they may count;
    the value keeps the other reading as a candidate.
    """
    if not q.value.is_integer() or q.parts or n + 1 >= len(numbers):
        return
    nxt = numbers[n + 1]
    if nxt.start - q.end > 2 or unit_behind(narration, nxt.end, nxt) is not None:
        return
    words = narration.lowers
    between = words[q.end : nxt.start]
    told = between == [] and words[nxt.start] == "point"
    halved = between in (["and"], ["and", "a"]) and nxt.form == "fraction"
    if (told or halved) and 0 < nxt.value < 1:
        decimals = nxt.value
    elif between == [] and unit_words()[q.word].decimals_behind and _digits(nxt) and _ends(words, nxt.end):
        decimals = nxt.value / 10 ** (2 if nxt.value >= 10 or nxt.end - nxt.start > 1 else 1)
    else:
        return
    alone, end = q.value, q.end
    q.value, q.numbers, q.end = alone + decimals, (*q.numbers, nxt), nxt.end
    used.add(id(nxt))
    if decimals == nxt.value:
        return
    heard = narration.heard(q.start, end)
    q.candidates.append(Candidate(value=alone, unit=q.unit, heard=heard, why="without the digits behind"))
    if words[end - 1] in _SEVERAL:
        q.reasons.append(f"{nxt.value:g} behind its unit is taken as decimals, and may be a value of its own")


_SEVERAL = frozenset(("ohms", "oms", "omes", "kilohms", "megs", "microfarads", "mikes", "mics", "mfds"))
"""Units in the plural end what was said more often than the same in the singular: "four ohms six"."""


def _ends(words: Sequence[str], at: int) -> bool:
    """Tell whether nothing that may be counted stands behind digits, nor the next pin of a row of pins."""
    if at >= len(words):
        return True
    if words[at] == "to":  # "four ohm six to common", but "four ohm, two to three"
        behind = words[at + 1] if at + 1 < len(words) else "."
        return behind.isalpha() and behind not in word_set("number_words")
    return words[at] in word_list("unit_inside_ends")


def _digits(number: Number) -> bool:
    """Tell whether a number can be decimals: "one", "forty-five", "nought five"."""
    return (
        number.form in _SAID_AS_DIGITS
        and number.value.is_integer()
        and 0 < number.value < 100
        and not number.negative
    )


__all__ = ["join_decimals"]
