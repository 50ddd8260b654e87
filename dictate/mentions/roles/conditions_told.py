"""Temperatures at which a book holds: "the chart says twenty minutes with the room at | twenty-five"."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.word_lists import word_list

_REACH = 6  # words from "with" to the temperature
_FRONT = 14  # words of the clause before it
_CUTS = frozenset((".", ";", ",", "but", "?", "!"))


def condition_told(words: Sequence[str], first: int, start: int) -> bool:
    """Tell whether the temperature at `start` is a condition of what a book says, and was not read."""
    if words[start - 1 : start] not in (["at"], ["of"]):
        return False
    near = range(start - 2, max(first, start - _REACH) - 1, -1)
    led = next((i for i in near if words[i] == "with" or words[i] in _CUTS), None)
    if led is None or words[led] != "with":
        return False
    begin = led
    while begin > max(first, led - _FRONT) and words[begin - 1] not in _CUTS:
        begin -= 1
    front = words[begin:led]
    said = next((i for i, w in enumerate(front) if w in word_list("books")), None)
    return said is not None and not word_list("books_say").isdisjoint(front[said + 1 : said + 4])


__all__ = ["condition_told"]
