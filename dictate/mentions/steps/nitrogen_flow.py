"""Nitrogen that flowed while joints were brazed, in whatever words."""

from __future__ import annotations

from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.steps.found import Found
from dictate.mentions.tense import Scopes
from dictate.vocabulary.load import word_set

_CLAUSE = (".", ",", ";", "!", "?")
LOW_PRESSURE = 5
"""Psi: a regulator that stands higher than this holds a test."""


def nitrogen_that_flowed(words: Words, scopes: Scopes, found: list[Found]) -> list[Found]:
    """Return the purge where nitrogen is told beside joints that were brazed ("nitrogen still going")."""
    if any(f.code == "nitrogen_purged" and f.status == "done" for f in found):
        return []
    brazed = [f for f in found if f.code == "brazed" and f.status == "done"]
    if not brazed:
        return []
    for i, word in enumerate(words.words):
        if word not in word_set("nitrogen_names") or not _beside(words, i, brazed) or not _flows(words, i):
            continue
        if scopes.noun(i, i + 1) == "done":
            return [Found("nitrogen_purged", "done", i, i + 1, None)]
    return []


def swept_while_brazing(words: Words, found: list[Found]) -> list[Found]:
    """Leave out the sweep that was a flow: "nitrogen through it the whole time I had the torch lit"."""
    flows = [f for f in found if f.code == "nitrogen_purged" and f.status == "done"]
    at_once = word_set("at_the_same_time")

    def is_flow(f: Found) -> bool:
        end = words.sentences[words.sentence_of[f.start]][1]
        return any(words.sentence_of[g.start] == words.sentence_of[f.start] for g in flows) and any(
            w in at_once for w in words.words[f.end : min(end, f.end + 6)]
        )

    return [f for f in found if f.code != "nitrogen_swept" or f.status != "done" or not is_flow(f)]


def without_test_gas(words: Words, found: list[Found]) -> list[Found]:
    """Leave out the purge whose nitrogen is the gas of a test: "pumped it to three hundred with nitrogen"."""
    return [
        f for f in found if f.code != "nitrogen_purged" or f.status != "done" or not _holds_a_test(words, f)
    ]


def _holds_a_test(words: Words, f: Found) -> bool:
    """Tell whether the clause of a purge has a level of a test and nothing that says the gas flowed."""
    row = words.words
    start, end = words.sentences[words.sentence_of[f.start]]
    first, last = f.start, f.end
    while first > start and row[first - 1] not in _CLAUSE and row[first - 1] not in ("and", "then"):
        first -= 1
    while last < end and row[last] not in _CLAUSE:
        last += 1
    if row[last : last + 1] == (",",) and last - first <= 4:  # "nitrogen on, two fifty, left it an hour"
        last += 1
        while last < end and row[last] not in _CLAUSE:
            last += 1
    clause = row[first:last]
    if not word_set("nitrogen_names") & set(clause) or not word_set("purge_told").isdisjoint(clause):
        return False
    if "up" in clause:
        return True  # "took it up on nitrogen"
    return any(w in word_set("test_levels") or (w.isdigit() and 20 <= int(w) <= 700) for w in clause)


def _beside(words: Words, i: int, brazed: list[Found]) -> bool:
    """Tell whether a joint was brazed in the sentence of word i, not far from it."""
    here = words.sentence_of[i]
    return any(words.sentence_of[f.start] == here and abs(f.start - i) <= 16 for f in brazed)


def _flows(words: Words, i: int) -> bool:
    """Tell whether the words around the nitrogen at word i say that it flows, and holds no test."""
    start, end = words.sentences[words.sentence_of[i]]
    row = words.words
    first = i
    while first > max(start, i - 4) and row[first - 1] not in (",", ";", "and", "then"):
        first -= 1
    last = i
    while last < min(end, i + 7) and row[last] not in (",", ";", "and", "then"):
        last += 1
    near = row[first:last]
    if any(w in word_set("nitrogen_stands") for w in near):
        return False
    numbers = [w for w in near if w in NUMBER_WORDS or w[:1].isdigit()]
    if any(w in ("psi", "pounds", "bar", "kpa") for w in near):
        low = ("one", "two", "three", "four", "five", "1", "2", "3", "4", "5")
        return len(numbers) == 1 and numbers[0] in low and "bar" not in near
    return any(w in word_set("nitrogen_flows") for w in near)
