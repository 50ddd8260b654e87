"""The words of parts.toml and the small words that this folder shares."""

from __future__ import annotations

from functools import cache
from typing import Any

from dictate.mentions.patterns import Matcher, compile_pattern
from dictate.vocabulary.load import table, word_set


@cache
def _data() -> dict[str, Any]:
    return table("parts")


@cache
def part_words(name: str) -> frozenset[str]:
    """Return one list of [words] of parts.toml as a set."""
    return frozenset(_data()["words"][name])


@cache
def matcher() -> Matcher:
    """Return the matcher of all verbs of handling; its labels are the actions."""
    return Matcher(
        compile_pattern(action, line) for action, lines in _data()["actions"].items() for line in lines
    )


@cache
def flat_adverbs() -> frozenset[str]:
    """Return the adverbs of scopes.toml."""
    return frozenset(table("scopes")["adverbs"])


BE = word_set("passive_helpers")
RATINGS = word_set("rating_words")
DETERMINERS = word_set("determiners")
ADJUSTABLE = word_set("adjustable")
