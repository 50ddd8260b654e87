"""A number of a reading with the words right around it, as the looks at it need them."""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.doubts.talk import Case
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Reading

_CLOSES = frozenset((".", ",", ";", "and", "then", "even", "flat", "exactly", "on"))


@dataclass(slots=True)
class NumberAround:
    """A number whose reading has a value; `before`, `behind` are the words beside it, "" and "." for none."""

    c: Case
    number: Number
    words: list[str]
    whole: bool
    small: bool
    """A whole number of 1 to 20: as many things may be counted, and be numbered so."""
    before: str
    behind: str
    lead: Number | None
    """The number that ends right before this one."""
    follower: Number | None

    @property
    def reading(self) -> Reading:
        """Return the reading that the number is the value of."""
        return self.c.reading


def number_around(c: Case) -> NumberAround | None:
    """Return the number of a reading with the words around it, None for a reading without one."""
    number, words = c.number, c.talk.words
    if number is None or c.reading.value is None:
        return None
    whole = float(number.value).is_integer() and not number.places
    return NumberAround(
        c,
        number,
        words,
        whole,
        whole and 0 < abs(number.value) <= 20,
        words[c.start - 1] if c.start > c.low else "",
        words[number.end] if number.end < c.high else ".",
        c.talk.number_at.get(c.start - 1),
        c.talk.number_at.get(number.end),
    )


def winding_told(x: NumberAround) -> bool:
    """Tell whether the winding whose ohms a number is stands right in front of it: "common to start four"."""
    point = x.reading.point or ""
    if x.reading.quantity != "resistance" or point not in {"common-run", "common-start", "run-start"}:
        return False
    return x.behind in _CLOSES and x.words[x.c.start - 2 : x.c.start - 1] in (["to"], ["and"])
