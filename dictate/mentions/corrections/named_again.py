"""What is named beside a value, and what a value of it looks like."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from operator import attrgetter
from typing import TypeVar

from dictate.mentions.labels import ComponentAt, LabelAt, PointAt
from dictate.mentions.phrases import Phrases
from dictate.mentions.whose.taken import Taken
from dictate.vocabulary.load import table

LONGEST = 12
"""No number has more tokens: how far back one may begin that ends at a place."""


@cache
def again_words(name: str) -> frozenset[str]:
    """Return a list of words of [again] in corrections.toml."""
    return frozenset(table("corrections")["again"][name])


@cache
def again_phrases(name: str) -> Phrases:
    """Return a list of phrases of [again] in corrections.toml, ready to find."""
    return Phrases({name: table("corrections")["again"][name]})


_Placed = TypeVar("_Placed", LabelAt, ComponentAt, PointAt)


def within(found: list[_Placed], a: int, b: int) -> list[_Placed]:
    """Return what begins in the tokens [a, b), of a list in the order of the words."""
    start = attrgetter("start")
    return found[bisect_left(found, a, key=start) : bisect_left(found, b, key=start)]


@dataclass(slots=True)
class Name:
    """Something named at the tokens [start, end): what a value of it looks like."""

    start: int
    end: int
    fits: Callable[[Taken], bool]


def of_label(label: object) -> Callable[[Taken], bool]:
    """Return what tells whether a value is one of a label."""

    def fits(t: Taken) -> bool:
        point = getattr(label, "point", None)
        if t.label is label:
            return True
        return point is not None and t.reading.point == point and label.fits(t.reading.quantity)  # type: ignore[attr-defined]

    return fits


def of_quantity(quantity: str) -> Callable[[Taken], bool]:
    """Return what tells whether a value is one of a quantity."""
    return lambda t: t.reading.quantity == quantity


def of_component(name: str, which: str | None) -> Callable[[Taken], bool]:
    """Return what tells whether a value is one of a part."""

    def fits(t: Taken) -> bool:
        r = t.reading
        return r.component == name and (which is None or r.which is None or r.which == which)

    return fits


def of_a_plate(t: Taken) -> bool:
    """Tell whether a value was read from a plate."""
    return t.reading.role == "rated"


def of_point(name: str) -> Callable[[Taken], bool]:
    """Return what tells whether a value is one of an electrical point."""
    return lambda t: t.reading.point == name
