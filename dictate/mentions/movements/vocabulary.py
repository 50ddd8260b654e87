"""The words of movements.toml, as the modules of this folder ask for them."""

from __future__ import annotations

from functools import cache
from typing import Any

from dictate.mentions.patterns import Matcher, compile_pattern
from dictate.mentions.phrases import by_first_word
from dictate.vocabulary.load import table


@cache
def _data() -> dict[str, Any]:
    return table("movements")


@cache
def phrases(name: str) -> frozenset[tuple[str, ...]]:
    """Return the phrases of one list of [words], each as its words."""
    return frozenset(tuple(p.split()) for p in _data()["words"][name])


@cache
def phrases_by_first(name: str) -> dict[str, list[tuple[str, ...]]]:
    """Return the phrases of one list of [words] by their first word: most words begin none."""
    return by_first_word(phrases(name))


@cache
def numbered_names() -> frozenset[str]:
    """Return the numbers of refrigerants that no amount has by chance ("recovered 404, two pounds")."""
    digits = ("".join(c for c in e["name"] if c.isdigit()) for e in table("refrigerants")["refrigerant"])
    return frozenset(d for d in digits if len(d) > 2)


@cache
def matcher() -> Matcher:
    """Return the matcher of all triggers; its labels are the kinds of an amount."""
    lists = _data()["lists"]
    return Matcher(
        compile_pattern(kind, line, lists) for kind, lines in _data()["triggers"].items() for line in lines
    )


@cache
def units_of(name: str) -> dict[str, str]:
    """Return the unit that each word of one list of [units] stands for."""
    return dict(_data()["units"][name])


@cache
def fractions() -> dict[str, float]:
    """Return the parts of a unit that may be said before "of a pound"."""
    return dict(_data()["fractions"]["of_a"])


@cache
def halves() -> dict[str, float]:
    """Return the parts of a unit that may be said behind "ounce and a"."""
    return dict(_data()["fractions"]["and_a"])


@cache
def names_an_earlier_one() -> tuple[str, ...]:
    """Return the phrases by which a sentence speaks of an amount that was said before."""
    return tuple(_data()["words"]["names_an_earlier_one"])


@cache
def told_behind() -> dict[str, tuple[str, ...]]:
    """Return, by direction, what may be said of an amount in the sentence behind it."""
    return {way: tuple(phrases) for way, phrases in _data()["told_next"].items()}
