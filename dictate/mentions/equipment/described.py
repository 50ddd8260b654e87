"""What a machine just named is, where it stands, or which of its kind: no second machine.

"First is the cellar cooler, that's a split"        a general name behind "that's a"
"Kegerator, the two-tap, back bar, at the club"     a place that is called like a machine
"Cuber. Not the big one, the undercounter."         which of two alike it is
"Walk-in freezer ... up on the rooftop"             where its outdoor part stands
"The dairy case is fine."                           one of which nothing else is told
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.equipment.told_closer import is_closer
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import word_set

_GENERAL = word_set("general_kinds", "machine_words")
_PLACES = frozenset(tuple(p.split()) for p in word_set("places_like_machines", "machine_words"))
_LOOKS_ONLY = frozenset(tuple(p.split()) for p in word_set("looks_only", "machine_words"))
_ANOTHER = word_set("another_one", "machine_words")
_SAYING = (("it", "'s"), ("it", "is"), ("that", "'s"), ("that", "is"), ("this", "is"), ("which", "is"),
    ("it", "was"), ("these", "are"), ("she", "'s"))  # fmt: skip
_IS_A = tuple((*said, a) for said in _SAYING for a in ("a", "an"))
_APART = word_set("told_apart", "machine_words")
_MOST_LOOKS = 5
_LOOKS_BETWEEN = 8


def without_described(namings: list[Naming], words: Words) -> list[Naming]:
    """Return the namings without those that only describe the machine named right before.

    Where the general name comes again, it is short for that machine.
    """
    out: list[Naming] = []
    also: dict[str, Naming] = {}
    for n in namings:
        before = out[-1] if out else None
        if before is not None and not n.plural and not before.plural:
            if is_closer(before, n):
                out.append(n)
                continue
            if _is_a(words, before, n):
                also[n.kind.type] = before
                continue
            if _only_where(words, before, n) or _which_one(words, before, n) or _up_there(words, out, n):
                continue
        if n.kind.type in also and not n.plural and not n.number:
            same = also[n.kind.type]
            out.append(Naming(n.start, n.end, same.kind, same.name, False, short=True))
            continue
        out.append(n)
    return [n for n in out if not _only_fine(words, out, n)]


def _up_there(words: Words, out: list[Naming], n: Naming) -> bool:
    """Tell whether "the rooftop", "the roof unit" is where the outdoor part of the one machine stands."""
    row = words.words
    if n.kind.type != "rooftop unit" or row[n.start : n.end] not in _ROOFS or n.last > n.end:
        return False
    if len({(o.kind.type, o.name) for o in out}) != 1 or out[0].kind.type not in _PARTED:
        return False
    start, end = words.sentences[words.sentence_of[n.start]]
    if not _NEXT.isdisjoint(row[start : n.start]) or {"model", "serial"} & set(row[n.end : end]):
        return False
    heading = n.start - start <= 1 and row[n.end : n.end + 1] in ((",",), (".",), (":",))
    return not heading


def _only_fine(words: Words, namings: list[Naming], n: Naming) -> bool:
    """Tell whether all that is told of a machine, named once beside others, is that it is fine."""
    row = words.words
    start, end = words.sentences[words.sentence_of[n.start]]
    if words.sentence_of[n.start] == 0 or sum(o.kind.type == n.kind.type for o in namings) > 1:
        return False
    if len({(o.kind.type, o.name) for o in namings}) < 2 or row[end - 1] != "." or row[end - 2] not in _FINE:
        return False
    if any(row[k] in NUMBER_WORDS or row[k][0].isdigit() or row[k] == "," for k in range(start, end)):
        return False
    return not any(start <= o.start < end and o is not n for o in namings)


_ROOFS = frozenset(
    tuple(p.split()) for p in ("rooftop", "roof unit", "rooftop unit", "roof top unit", "roof top")
)
_PARTED = word_set("parted_machines", "machine_words")
_NEXT = frozenset(("next", "then", "second", "also", "another", "other", "last", "and", "third", "plus"))
_FINE = frozenset(("fine", "ok", "okay", "good", "happy", "alright"))


def _is_a(words: Words, before: Naming, n: Naming) -> bool:
    """Tell whether a general name is told of the machine before: "..., it's a five ton heat pump"."""
    row = words.words
    if n.kind.type not in _GENERAL or before.kind.type == n.kind.type:
        return False
    number = words.sentence_of[n.start]
    start, _ = words.sentences[number]
    if number - words.sentence_of[before.start] > 1:
        return False
    first = max(start, before.end)
    for said in _IS_A:
        for k in range(first, n.start - len(said) + 1):
            if row[k : k + len(said)] != said:
                continue
            looks = row[k + len(said) : n.start]
            return (
                len(looks) <= _MOST_LOOKS and _ANOTHER.isdisjoint(looks) and _APART.isdisjoint(row[first:k])
            )
    return False


def _only_where(words: Words, before: Naming, n: Naming) -> bool:
    """Tell whether a place stands between commas in the sentence of the machine before: ", back bar,"."""
    row = words.words
    if row[n.start : n.end] not in _PLACES or words.sentence_of[n.start] != words.sentence_of[before.start]:
        return False
    if row[n.start - 1] != "," or row[n.end : n.end + 1] not in ((",",), (".",)):
        return False
    between = row[before.end : n.start]
    return len(between) <= _LOOKS_BETWEEN and _ANOTHER.isdisjoint(between)


def _which_one(words: Words, before: Naming, n: Naming) -> bool:
    """Tell whether the words only say which of two alike was meant: "Not the big one, the undercounter"."""
    row = words.words
    number = words.sentence_of[n.start]
    if row[n.start : n.end] not in _LOOKS_ONLY or number - words.sentence_of[before.start] > 1:
        return False
    k = n.start
    if row[k - 1] not in DETERMINERS or row[k - 2] != "," or row[n.end : n.end + 1] not in ((",",), (".",)):
        return False
    start, _ = words.sentences[number]
    lead = row[max(start, before.end) : k - 2]
    return "not" in lead and lead[-1:] in (("one",), ("unit",), ("machine",))
