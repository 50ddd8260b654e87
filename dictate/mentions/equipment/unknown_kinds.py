"""A machine of a kind that no list has, and rooms that are called by what cools them."""

from __future__ import annotations

from functools import cache

from dictate.mentions.equipment.machine_words import (
    DETERMINERS,
    MOVES,
    Kind,
    machine_lexicon,
    phrases,
    unknown_words,
    words_ending_at,
)
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import table, word_set

GENERAL = frozenset(("cooler", "freezer", "case", "air cooled condenser"))
FIRST_SENTENCES = 2  # sentences in which a narration says what it is about
_WHERE = word_set("where", "machine_words")
_PREPOSITIONS = word_set("before_unknown", "machine_words")


def only_where(words: Words, n: Naming) -> bool:
    """Tell whether a room is only where something stands: "down at the ice rink", "in the server room"."""
    row = words.words
    i = n.start
    start, _ = words.sentences[words.sentence_of[i]]
    while i > start and (row[i - 1] in DETERMINERS or row[i - 1] in unknown_words("no_part")):
        i -= 1
    return i > start and row[i - 1] in _WHERE


def of_an_unknown_kind(words: Words, namings: list[Naming], found: list[Naming]) -> list[Naming]:
    """Return the machine of a kind that no list has, called as it was said: "the tobacco fridge, model ...".

    Only in the first sentences: a noun that machines end in, with words before it that are neither its
    place nor its owner, at the head of a clause or behind an article.
    """
    row = words.words
    listed = {t for n in found if not n.kind.weak and not n.kind.room for t in range(n.start, n.end)}
    heads, no_part, never = unknown_words("heads"), unknown_words("no_part"), unknown_words("never")
    for start, end in words.sentences[:FIRST_SENTENCES]:
        for h in range(start + 1, end):
            if row[h] not in heads or h in listed or row[h + 1 : h + 2] not in _unknown_behind():
                continue
            k = h
            while (
                k > start
                and h - k < 3
                and row[k - 1].isalpha()
                and len(row[k - 1]) > 2
                and row[k - 1] not in no_part
                and row[k - 1] not in DETERMINERS
                and row[k - 1] not in NUMBER_WORDS
                and (row[k - 1],) not in phrases("introduces")
                and (row[k - 1],) not in phrases("place")
                and row[k - 1] not in _PREPOSITIONS
                and row[k - 1] not in MOVES
            ):
                k -= 1
            name = row[k:h]
            general = machine_lexicon()[0].get((row[h],))
            place = table("machine_words")["places_by_head"].get(row[h], ())
            if not never.isdisjoint(name) or (name and name[-1] in place) or (not name and general is None):
                continue
            j = k
            while j > start and (row[j - 1] in no_part or row[j - 1] in NUMBER_WORDS):
                j -= 1
            article = j > start and row[j - 1] in DETERMINERS
            if not article and j > start and row[j - 1] not in (",", ":", "-"):
                continue
            lead = j - 1 if article else j
            if words_ending_at(row, lead, "place", start) > words_ending_at(row, lead, "introduces", start):
                continue
            if any(t.start < h and t.end > k for t in things_of(words) if not t.modifier):
                continue
            if any(not n.kind.weak and start <= n.start < end for n in namings):
                continue
            said = " ".join(row[k : h + 1])
            kind = Kind(said, False) if name or general is None else general
            return [Naming(k, h + 1, kind, said, False)]
    return []


def only_kind(found: list[Naming], words: Words) -> list[Naming]:
    """Return the first naming of the only kind of machine that is named, though no words introduce it.

    As in "High head on the big outdoor condensing unit" and "240 at the air handler".
    """
    row = words.words
    if len({n.kind.type for n in found if not n.kind.room}) != 1:
        return []
    for n in found:
        start, _ = words.sentences[words.sentence_of[n.start]]
        near = any(row[k] in _NEAR for k in range(max(start, n.start - 4), n.start))
        if not n.kind.room and not n.plural and not near and words.sentence_of[n.start] <= _SOON:
            return [n]
    return []


_NEAR = frozenset(("next", "near", "behind", "beside", "by", "from", "no", "not", "another", "other", "like"))
"""Words by which a machine is only a place or a comparison."""
_SOON = 12
"""Sentences in which the only machine of a visit is named."""


@cache
def _unknown_behind() -> frozenset[tuple[str, ...]]:
    return frozenset([*((w,) for w in unknown_words("behind")), ()])
