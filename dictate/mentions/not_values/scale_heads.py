"""Where a weighing that is read aloud opens, which way gas moves then, and a unit that stands in front of it.

"Scale zeroed. In with the liquid..."       goes in
"Nine pounds, by the plate. Four. ..."      goes in, if the numbers come to what the plate tells
"I'll pump it down and weigh in ..."        opens nothing: none of it is done
"Ounces now. Four in. Six."                 in ounces
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from dictate.mentions.not_values.plates_told import PlateTold
from dictate.mentions.quantities import Quantity, mass_of
from dictate.mentions.word_lists import first_words, phrase_at, word_list
from dictate.units import convert

MARKS = frozenset((",", ".", ";", "-", "?", "!", "…", "..."))
SENTENCE_ENDS = frozenset((".", "?", "!", "…", "..."))
TO_A_PLATE = "to_a_plate"
"""A weighing that is one only where it comes to the charge of a plate."""
WAY = "which way it moved was not said: taken as if it {0}, for {1}"
_WAYS = ("charged", "recovered", "either", TO_A_PLATE)
WEIGHTS = ("lb", "oz", "g", "kg")
_ALIKE = 4.0
"""An amount lends its unit to a weighing up to so many times its last number."""
_DRAWN = 16
"""Tokens before "scale" that tell of drawing out."""
_HEADED = 8
"""Tokens before a weighing among which its unit stands alone: "ounces now"."""


class Head(NamedTuple):
    """The words that open a weighing: their first token, the one behind them, and the way of the gas."""

    start: int
    end: int
    way: str


def heads_of(words: Sequence[str], plates: Collection[PlateTold]) -> list[Head]:
    """Return where a weighing may open, in order."""
    out = [Head(plate.start, plate.end, TO_A_PLATE) for plate in plates]
    firsts = first_words(*(f"scale_opens_{way}" for way in _WAYS))
    for i, word in enumerate(words):
        if word not in firsts:
            continue
        for way in _WAYS:
            length = phrase_at(f"scale_opens_{way}", words, i)
            if not length or word_list("scale_not_now") & set(words[max(0, i - 3) : i]):
                continue
            if word_list("scale_plates") & set(words[max(0, i - 1) : i]):
                continue  # "plate charge thirty-four ounce"
            if way == TO_A_PLATE and not _stands_alone(words, i, i + length):
                continue
            out.append(Head(i, i + length, way))
    return sorted((h for h in out if not _planned(words, h.start)), key=lambda h: h.start)


def _stands_alone(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether words stand between two marks: "Liquid. Two. Four."."""
    before, behind = words[max(0, start - 1) : start], words[end : end + 1]
    return all(w in MARKS for w in (*before, *behind))


def _planned(words: Sequence[str], head: int) -> bool:
    """Tell whether the sentence up to here says that nothing of it is done: "I'll pump it, weigh in ..."."""
    first = head
    while first and words[first - 1] not in SENTENCE_ENDS:
        first -= 1
    return not word_list("scale_planned").isdisjoint(words[first:head])


def way_of(words: Sequence[str], head: int, first: int) -> tuple[str, str]:
    """Return which way gas moves over a scale of which only "scale" is said, and the reason to look.

    What is left comes out before a circuit is opened, and goes in when it was evacuated.
    """
    before = words[:head]
    if word_list("scale_draws_out") & set(before[-_DRAWN:]):
        return "recovered", WAY.format("came out", "words beside it speak of drawing out")
    if word_list("scale_lets_in") & set(words[head:first]):
        return "charged", WAY.format("went in", "words beside it speak of letting it in")
    if word_list("scale_evacuated") & set(before):
        return "charged", WAY.format("went in", "it was evacuated before")
    if word_list("scale_evacuated") & set(words[head:]):
        return "recovered", WAY.format("came out", "it was evacuated later")
    return "charged", WAY.format("went in", "nothing was evacuated")


def headed_by(words: Sequence[str], head: int, first: int, taken: Collection[int]) -> str | None:
    """Return the unit that stands alone in front of a weighing; `taken` are the tokens of other values."""
    for i in range(max(0, head - _HEADED), first):
        if words[i] in word_list("scale_units") and i not in taken:
            return {"ounces": "oz", "grams": "g", "pounds": "lb"}.get(words[i], "kg")
    return None


def unit_alike(quantities: Iterable[Quantity], value: float, pounds: bool) -> str | None:
    """Return the unit of the amount that is nearest in size to a weighing without a unit."""
    best: tuple[float, str] | None = None
    for q in quantities:
        mass = mass_of(q)
        if mass is None or mass[0] <= 0 or not any(u in WEIGHTS for u, _ in q.means):
            continue
        for unit in {mass[1], "lb"} if pounds else {mass[1]}:
            there = convert(mass[0], mass[1], unit) if unit != mass[1] else mass[0]
            ratio = max(value / there, there / value)
            if ratio <= _ALIKE and (best is None or ratio < best[0]):
                best = ratio, unit
    return None if best is None else best[1]


def words_beside(words: Sequence[str], start: int, end: int, since: int = 0) -> tuple[int, int]:
    """Return how many words stand before and behind the words [start, end) in their clause."""
    first, last = start, end
    while first > since and words[first - 1] not in MARKS:
        first -= 1
    while last < len(words) and words[last] not in MARKS:
        last += 1
    return start - first, last - end


__all__ = [
    "MARKS", "SENTENCE_ENDS", "TO_A_PLATE", "WEIGHTS", "Head", "headed_by", "heads_of", "unit_alike",
    "way_of", "words_beside",
]  # fmt: skip
