"""The word lists of reading_words.toml."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from dictate.vocabulary.load import table


@cache
def word_list(name: str) -> frozenset[str]:
    """Return one list as a set."""
    return frozenset(table("reading_words")[name])


@cache
def phrases_by_first(*names: str) -> dict[str, list[tuple[str, ...]]]:
    """Return the phrases of some lists by their first word, the longest first: most words begin none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    said = {tuple(phrase.split()) for name in names for phrase in word_list(name)}
    for phrase in sorted(said, key=len, reverse=True):
        found.setdefault(phrase[0], []).append(phrase)
    return found


@cache
def first_words(*names: str) -> frozenset[str]:
    """Return the words that the phrases of some lists begin with."""
    return frozenset(first for name in names for first in phrases_by_first(name))


def phrase_at(name: str, words: Sequence[str], at: int) -> int:
    """Return how many words the longest phrase of a list that stands at a place has, 0 for none."""
    if not 0 <= at < len(words):
        return 0
    for phrase in phrases_by_first(name).get(words[at], ()):
        if len(phrase) == 1 or tuple(words[at : at + len(phrase)]) == phrase:
            return len(phrase)
    return 0
