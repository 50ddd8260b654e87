"""The word lists of reading_words.toml."""

from __future__ import annotations

from functools import cache

from dictate.vocabulary.load import table


@cache
def word_list(name: str) -> frozenset[str]:
    """Return one list as a set."""
    return frozenset(table("reading_words")[name])
