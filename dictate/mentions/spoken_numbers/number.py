"""A number as it was said, and what else it may be."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Other:
    """Another reading of the same words: one value, or several numbers said one after the other."""

    values: tuple[float, ...]
    why: str


@dataclass(frozen=True, slots=True)
class Number:
    """A number at the tokens [start, end).

    `form` is one of: `plain` (a usual cardinal, in words or digits), `pair` (hundreds as pairs), `digits`
    (digit by digit; `text` then has them, "007"), `decimal`, `fraction`, `ordinal`, `clock` (value in hours),
    `counted` (counts things off), `two_digits` ("six eight"),
    `short_decimal` ("eleven two": 11.2, the point left out). `written` is true
    when it stands in digits. `places` counts the decimal places said. `pronoun` marks a "one" that stands for
    a thing.
    """

    start: int
    end: int
    value: float
    form: str = "plain"
    written: bool = False
    places: int = 0
    text: str = ""
    alternatives: tuple[Other, ...] = ()
    pronoun: bool = False
    negative: bool = False
