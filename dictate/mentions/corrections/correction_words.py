"""The lists of corrections.toml, in the shapes in which the finders look them up."""

from __future__ import annotations

from functools import cache

from dictate.mentions.phrases import Phrases
from dictate.vocabulary.load import table

CUTS = frozenset({".", "?", "!", ",", ";", ":"})
STOPS = frozenset({".", "?", "!"})


@cache
def correction_words(group: str, name: str) -> frozenset[str]:
    """Return a list of words of one group of corrections.toml."""
    return frozenset(table("corrections")[group][name])


@cache
def correction_phrases(group: str, name: str) -> Phrases:
    """Return a list of phrases of one group of corrections.toml, ready to find."""
    return Phrases({name: table("corrections")[group][name]})
