"""The phrases of stage_words.toml, as a narration is looked through for them."""

from __future__ import annotations

from functools import cache
from typing import Any

from dictate.mentions.narration import lowers
from dictate.vocabulary.load import table


@cache
def stage_phrases(name: str) -> tuple[tuple[str, ...], ...]:
    """Return a list of phrases, each as its words, the longest first."""
    data: dict[str, Any] = table("stage_words")
    listed = data["cues"].get(name) or data.get(name, {}).get("phrases") or data.get(name, {}).get("verbs")
    return tuple(sorted((tuple(lowers(p)) for p in listed), key=len, reverse=True))


@cache
def by_first(name: str) -> dict[str, list[tuple[str, ...]]]:
    """Sort phrases by their first word: most words of a narration begin none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in stage_phrases(name):
        found.setdefault(phrase[0], []).append(phrase)
    return found


def at_word(row: tuple[str, ...], i: int, name: str) -> tuple[str, ...]:
    """Return the longest phrase of a list that begins at word i, empty when none does."""
    for phrase in by_first(name).get(row[i], ()) if i < len(row) else ():
        if row[i : i + len(phrase)] == phrase:
            return phrase
    return ()
