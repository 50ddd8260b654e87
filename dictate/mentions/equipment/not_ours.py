"""Machines and gases that are said to be none of this visit: "the other skid is 448A, neither one's mine"."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import phrases_by_first
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import Words


def not_ours(words: Words) -> frozenset[int]:
    """Return the sentences that say that something is none of this visit; never the first."""
    begun = phrases_by_first("not_ours")
    row = words.words
    found = {
        words.sentence_of[i]
        for i in words.starting(begun.keys())
        if any(row[i : i + len(p)] == p for p in begun[row[i]])
    }
    return frozenset(found - {0})


def without_others(namings: list[Naming], words: Words) -> list[Naming]:
    """Leave out the machines that are named in such a sentence."""
    others = not_ours(words)
    return [n for n in namings if words.sentence_of[n.start] not in others]


__all__ = ["not_ours", "without_others"]
