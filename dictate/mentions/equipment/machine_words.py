"""The words of machines.toml, in the shapes in which the finders look them up."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.mentions.narration import lowers
from dictate.mentions.phrases import by_first_word
from dictate.vocabulary.load import table, word_set

DETERMINERS = word_set("machine_determiners")
MOVES = word_set("moves")
NUMBERS = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10"}  # fmt: skip


_ENOUGH_TO_TELL = 2
"""Words before which a machine's noun may be said loosely."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of machine; `weak` and `room` as machines.toml explains them."""

    type: str
    weak: bool
    room: bool = False


@cache
def machine_lexicon() -> tuple[dict[tuple[str, ...], Kind], dict[str, int]]:
    """Return phrase -> kind, and first word -> how many words the longest phrase has that begins so."""
    out: dict[tuple[str, ...], Kind] = {}
    for entry in table("machines")["machine"]:
        kind = Kind(entry["type"], bool(entry.get("weak")), bool(entry.get("room")))
        for said in [*([] if kind.room else [entry["type"]]), *entry.get("said", [])]:
            words = lowers(said)
            out.setdefault(words, kind)
            if len(words) > _ENOUGH_TO_TELL and words[-1] in ("machine", "dispenser"):
                for loosely in word_set("loosely", "machine_words"):
                    out.setdefault((*words[:-1], loosely), kind)  # "the frozen drink thing"
            if not words[-1].endswith("s"):
                out.setdefault((*words[:-1], words[-1] + "s"), kind)
    longest: dict[str, int] = {}
    for phrase in out:
        longest[phrase[0]] = max(longest.get(phrase[0], 0), len(phrase))
    return out, longest


@cache
def senses() -> dict[
    tuple[str, ...], list[tuple[Kind, tuple[tuple[str, ...], ...], tuple[tuple[str, ...], ...]]]
]:
    """Return name -> (kind, words that tell it, words that tell another one), for names of two kinds."""
    out: dict[
        tuple[str, ...], list[tuple[Kind, tuple[tuple[str, ...], ...], tuple[tuple[str, ...], ...]]]
    ] = {}
    for entry in table("machines")["senses"]:
        told, never = (tuple(tuple(lowers(p)) for p in entry[key]) for key in ("told", "never"))
        for said in entry["said"]:
            out.setdefault(tuple(lowers(said)), []).append((Kind(entry["type"], False), told, never))
    return out


@cache
def phrases(name: str) -> frozenset[tuple[str, ...]]:
    """Return a list of phrases, each as its words."""
    data: dict[str, Any] = table("machines")["words"]
    return frozenset(tuple(lowers(p)) for p in data[name])


@cache
def phrases_by_first(name: str) -> dict[str, list[tuple[str, ...]]]:
    """Sort the phrases of a list by their first word: most words of a narration begin none."""
    return by_first_word(phrases(name))


@cache
def _phrases_by_last(name: str) -> dict[str, list[tuple[str, ...]]]:
    """Sort the phrases of a list by their last word."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in phrases(name):
        found.setdefault(phrase[-1], []).append(phrase)
    return found


def words_ending_at(words: tuple[str, ...], i: int, name: str, start: int) -> int:
    """Return how many words of the longest phrase of a list end just before word i."""
    ending = _phrases_by_last(name).get(words[i - 1], ()) if i > start else ()
    return max((len(p) for p in ending if i - len(p) >= start and words[i - len(p) : i] == p), default=0)


@cache
def unknown_words(name: str) -> frozenset[str]:
    """Return a list of words that tell a kind that is not listed."""
    return frozenset(table("machines")["unknown"][name])
