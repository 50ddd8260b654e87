"""Texts as they might have been said as well: other digits near by, numbers in figures, marks left out.

A net that has seen each number a few times only would learn the number by heart, and a recogniser that puts
no marks would be new to it. Only words change: what a number is, and its size, stay what they are.
"""

from __future__ import annotations

import re
from dataclasses import replace
from random import Random

from tests.benchmarks.encoder.data import Number, Text

_ROWS = (
    ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    (
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
    ),
    ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"),
)
_ROW_OF = {word: row for row in _ROWS for word in row}
_SPOKEN = frozenset({"plain", "pair", "decimal", "short_decimal", "digits"})
_IN_FIGURES = _SPOKEN - {"digits"}
_MARKS = frozenset(",.;:-?!")
_FIGURES = re.compile(r"\d+(?:\.(\d+))?")
_OTHER_DIGITS, _EACH = 0.5, 0.6
"""The share of texts in which digits change, and of the numbers there."""
_FIGURES_IN, _EACH_IN_FIGURES, _SPELT = 0.15, 0.7, 12
"""The share of texts with figures, of the numbers there; a number up to this stays a word."""
_NO_COMMAS, _NO_MARKS, _NO_STOPS = 0.10, 0.10, 0.05
"""The shares of texts without commas, without any marks, and without all that ends a sentence."""


def varied(text: Text, random: Random) -> Text:
    """Return a text in other words, with the same numbers in the same order."""
    words: list[str | None] = list(text.tokens)
    digits, figures = random.random() < _OTHER_DIGITS, random.random() < _FIGURES_IN
    for number in text.numbers:
        if number.form not in _SPOKEN or number.fixed:
            continue
        if figures and _can_be_figures(number) and random.random() < _EACH_IN_FIGURES:
            words[number.start : number.end] = [
                f"{number.value:g}",
                *[None] * (number.end - number.start - 1),
            ]
        elif digits and random.random() < _EACH:
            words[number.start : number.end] = _others(text.tokens[number.start : number.end], random)
    gone = _left_out(random)
    within = {t for number in text.numbers for t in range(number.start, number.end)}
    for t, word in enumerate(words):
        if word in gone and t not in within:
            words[t] = None
    # Where every token stands now; a token that is gone stands where the next one does.
    places = [0]
    for word in words:
        places.append(places[-1] + (word is not None))
    numbers = [replace(n, start=places[n.start], end=places[n.end]) for n in text.numbers]
    stretches = [replace(x, start=places[x.start], end=places[x.end]) for x in text.stretches]
    kept = [word for word in words if word is not None]
    return replace(
        text, tokens=kept, ends=[] if gone else [places[end] for end in text.ends],
        numbers=numbers, stretches=[x for x in stretches if x.start < x.end],
        words=[replace(x, start=places[x.start], end=places[x.end]) for x in text.words],
        parts=[replace(x, start=places[x.start], end=places[x.end]) for x in text.parts],
    )  # fmt: skip


def _can_be_figures(number: Number) -> bool:
    return (
        number.form in _IN_FIGURES and not number.written and number.size != "neg" and number.value > _SPELT
    )


def _left_out(random: Random) -> frozenset[str]:
    chance = random.random()
    for share, marks in (
        (_NO_COMMAS, frozenset(",")), (_NO_MARKS, _MARKS), (_NO_STOPS, frozenset(".:?!")),
    ):  # fmt: skip
        if chance < share:
            return marks
        chance -= share
    return frozenset()


def _others(words: list[str], random: Random) -> list[str]:
    """Return the words of a number with other digits: about as large, any digit at its end."""
    figures = _FIGURES.fullmatch(words[0]) if len(words) == 1 else None
    if figures:
        value = float(words[0])
        near = value * random.uniform(0.93, 1.07) + (random.choice((-1, 0, 1)) if 5 < value < 60 else 0)
        return [f"{max(near, 0):.{len(figures[1] or '')}f}"]
    if len(words) == 1 and words[0] in _ROWS[0]:
        return words  # "one" alone may be no number at all, and "two" hardly ever is
    out = []
    for i, word in enumerate(words):
        row = _ROW_OF.get(word)
        if row is None:
            out.append(word)
        elif i == len(words) - 1 and i:
            out.append(random.choice(row))
        else:
            place = row.index(word) + random.choice((-1, 0, 1))
            out.append(row[min(max(place, 0), len(row) - 1)])
    return out


__all__ = ["varied"]
