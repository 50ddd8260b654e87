"""One machine named by a general word and told closer at once: "the ice machine, it's the flaker"."""

from __future__ import annotations

from functools import cache

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, Kind
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.equipment.roll import PLACES
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import table, word_set

_ANOTHER = word_set("another_one", "machine_words")
_THIS_IS = (("it", "'s"), ("it's",), ("it", "is"), ("this", "is"), ("that", "'s"), ("that's",), ("it", "was"))
_LOOKS = 4
"""Words that may describe a machine between "it's a" and its name: "it's the big old air-cooled flaker"."""


def told_closer(namings: list[Naming], words: Words) -> list[Naming]:
    """Join a machine that is named by a general word with the closer name that follows at once.

    The closer name stands behind a comma or "it's" in the same sentence, or opens the next one. Nothing
    between the two speaks of another machine, and no other one of the general kind was named before.
    """
    out: list[Naming] = []
    for n in namings:
        before = out[-1] if out else None
        if before is not None and is_closer(before, n) and not _others(out, n) and _told(words, before, n):
            general = before.kind.type, before.name
            for o in out:
                if (o.kind.type, o.name) == general:
                    o.kind, o.name = Kind(n.kind.type, False), n.name
            continue
        out.append(n)
    return out


def is_closer(before: Naming, n: Naming) -> bool:
    """Tell whether a name is of a kind that the general name before may stand for."""
    general = before.kind.type
    if before.plural or n.plural or before.number or n.number or before.kind.room:
        return False
    if general == n.kind.type and (set(before.name.split()) & set(n.name.split()) or _told_apart(before, n)):
        return False  # "ice machine number one, ... Ice machine number two"
    own = closer_kinds().get(general, ())
    return n.kind.type in own or (
        general in _HEADS and n.kind.type != general and n.kind.type.endswith(f" {general}")
    )


def _told_apart(*namings: Naming) -> bool:
    """Tell whether a name says which of several it is: "upstairs one"."""
    return any(w in NUMBERS or w.isdigit() or w in PLACES for n in namings for w in n.name.split())


_HEADS = frozenset(("freezer", "cooler", "chiller", "case"))


@cache
def closer_kinds() -> dict[str, frozenset[str]]:
    """Return the kinds that a general word may stand for, from machines.toml."""
    return {general: frozenset(kinds) for general, kinds in table("machines")["closer"].items()}


def _others(out: list[Naming], n: Naming) -> bool:
    return any(o.kind.type == n.kind.type for o in out[:-1])


def _told(words: Words, before: Naming, n: Naming) -> bool:
    """Tell whether the words between the two names say that they are of one machine."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[n.start]]
    apart = words.sentence_of[n.start] - words.sentence_of[before.start]
    between = row[before.end : n.start]
    lead = row[max(start, before.end) : n.start]
    if apart > 1 or any(w in _ANOTHER for w in lead) or not _APART.isdisjoint(between):
        return False
    at = next(
        (k + len(said) for said in _THIS_IS for k in range(len(lead)) if lead[k : k + len(said)] == said), -1
    )
    if at < 0:
        at = 0 if apart else max((k + 1 for k, w in enumerate(lead) if w == ","), default=-1)
    described = lead[at:]
    if at < 0 or len(described) > _LOOKS + 1 or not _BREAKS.isdisjoint(described):
        return False
    return bool(apart == 0 or at or not described or described[0] in DETERMINERS)


_APART = word_set("told_apart", "machine_words")
_BREAKS = frozenset(
    (",", ";", "and", "or", "at", "on", "in", "to", "by", "for", "from", "with", "is", "'s", "was", "plus")
)
