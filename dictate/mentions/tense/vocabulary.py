"""The cues of scopes.toml and the small words that the rules of this folder share."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from dictate.vocabulary.load import table, word_set

Status = Literal["done", "planned", "not_done"]


@cache
def _data() -> dict[str, Any]:
    return table("scopes")


Phrases = dict[str, tuple[tuple[str, ...], ...]]


def _phrases(path: tuple[str, ...], place: int) -> Phrases:
    node: Any = _data()
    for key in path:
        node = node[key]
    out: Phrases = {}
    for words in sorted((tuple(str(phrase).lower().split()) for phrase in node), key=len, reverse=True):
        out[words[place]] = (*out.get(words[place], ()), words)
    return out


@cache
def beginning(*path: str) -> Phrases:
    """Return the phrases of a list by their first word, the longest first: most words begin none."""
    return _phrases(path, 0)


@cache
def ending(*path: str) -> Phrases:
    """Return the phrases of a list by their last word, the longest first."""
    return _phrases(path, -1)


@cache
def flat(*path: str) -> frozenset[str]:
    """Return the single words of a list as a set."""
    node: Any = _data()
    for key in path:
        node = node[key]
    return frozenset(node)


BE = word_set("be_forms")
SENTENCE_END = frozenset(".?!")
COMPOUND = word_set("compound_halves")
TELLING = word_set("telling_verbs")
OURS = word_set("speaker_and_crew")
OBJECTS = word_set("opens_object")
CLOSERS = word_set("closes_plan_head")
