"""The cues of scopes.toml and the small words that the rules of this folder share."""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from dictate.vocabulary.load import table, word_set

Status = Literal["done", "planned", "not_done"]


@cache
def _data() -> dict[str, Any]:
    return table("scopes")


@cache
def phrases(*path: str) -> dict[int, frozenset[tuple[str, ...]]]:
    """Return the phrases of a list by their length in words."""
    node: Any = _data()
    for key in path:
        node = node[key]
    out: dict[int, set[tuple[str, ...]]] = {}
    for phrase in node:
        words = tuple(str(phrase).lower().split())
        out.setdefault(len(words), set()).add(words)
    return {n: frozenset(v) for n, v in out.items()}


@cache
def openers(*path: str) -> frozenset[str]:
    """Return the words that the phrases of a list begin with: most words of a narration begin none."""
    return frozenset(phrase[0] for listed in phrases(*path).values() for phrase in listed)


@cache
def enders(*path: str) -> frozenset[str]:
    """Return the words that the phrases of a list end with."""
    return frozenset(phrase[-1] for listed in phrases(*path).values() for phrase in listed)


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
