"""Machines that are told by their number only: "three units. Unit one, the nail place. ... Unit two, ..."."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import NUMBERS, Kind
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import word_set

_NOUNS = frozenset(("unit", "machine", "system"))
_OPENERS = word_set("openers", "machine_words")
_BEHIND = frozenset((",", ".", ":", ";", "-", "is", "was", "'s", "at", "over", "on", "in", "next"))
_MOST = 12
"""Machines of one visit that are counted off by their numbers, at most."""


def numbered_units(words: Words) -> list[Naming]:
    """Return the machines named by "unit one", "unit 2" at the head of sentences, where two or more are."""
    row = words.words
    if _NOUNS.isdisjoint(row):
        return []
    out: list[Naming] = []
    for start, end in words.sentences:
        k = start
        while k < end and k - start < 3 and (row[k] in _OPENERS or row[k] == ","):
            k += 1
        if k + 1 >= end or row[k] not in _NOUNS:
            continue
        number = NUMBERS.get(row[k + 1], row[k + 1])
        if not number.isdigit() or not 1 <= int(number) <= _MOST:
            continue
        if k + 2 < end and row[k + 2] not in _BEHIND:
            continue
        out.append(Naming(k, k + 2, Kind("", False), f"{row[k]} {number}", False))
    return out if len({n.name for n in out}) > 1 else []
