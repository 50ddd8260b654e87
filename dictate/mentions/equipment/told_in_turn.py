"""Machines of a counted row that are told in turn by their looks, and others of a kind told by number.

"two vaccine fridges. The first is the tall one, model ... The second is the small undercounter fridge"
"precision unit number 2. ... Unit 1 is on the same panel and shows 415."
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, Kind
from dictate.mentions.equipment.namings import Naming, counts_several
from dictate.mentions.equipment.senses import picked_one
from dictate.mentions.equipment.worked_on import described
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import word_set

LOOKS = word_set("looks_apart", "machine_words")
_SELECTING = word_set("selecting", "machine_words")
_OPENERS = word_set("openers", "machine_words")
_IN_THE_NEXT = 3
"""Sentences behind a counted row in which its machines are told in turn."""


def told_in_turn(found: list[Naming], accepted: list[Naming], words: Words) -> list[Naming]:
    """Return the machines of a row that are told by their looks; a closer name for one is made its name."""
    row = words.words
    out: list[Naming] = []
    for counted in found:
        if not counted.plural or counted.kind.weak or not counts_several(words, counted):
            continue
        number = words.sentence_of[counted.start]
        kind = Kind(counted.kind.type, False)
        for start, end in words.sentences[number : number + _IN_THE_NEXT + 1]:
            for k in range(max(start, counted.end), end - 1):
                if row[k] not in LOOKS | _SELECTING or not picked_one(row, start, k):
                    continue
                name = f"{row[k]} one {kind.type}"
                closer = next((n for n in accepted if n.start == k + 1 and not n.plural), None)
                if row[k + 1] == "one":
                    out.append(Naming(k, k + 2, kind, name, False))
                elif closer is not None and (
                    closer.kind.type == kind.type or described(kind.type, closer.kind.type)
                ):
                    closer.kind, closer.name = kind, name
                break
    return out


_NOUNS = frozenset(("unit", "machine"))
_IS = frozenset(("is", "'s", "was", "has", "shows", "reads", "had"))
_FEW = 12


def other_by_number(namings: list[Naming], words: Words) -> list[Naming]:
    """Return the namings with "unit 1 is ..." where the one machine of the visit is number 2 of its kind.

    What is only compared with it is told in one sentence; behind it the talk is of the machine of the visit.
    """
    if len({(n.kind.type, n.name) for n in namings}) != 1 or not namings[0].kind.type:
        return namings
    own = namings[0]
    mine = [NUMBERS.get(w, w) for w in own.name.split()[-1:]]
    if not mine or not mine[0].isdigit():
        return namings
    row = words.words
    out = list(namings)
    for start, end in words.sentences:
        k = start
        while k < end and (row[k] in _OPENERS or row[k] in DETERMINERS):
            k += 1
        if k < own.end or k + 2 >= end or row[k] not in _NOUNS:
            continue
        number = NUMBERS.get(row[k + 1], row[k + 1])
        if not number.isdigit() or int(number) > _FEW or number == mine[0] or row[k + 2] not in _IS:
            continue
        out.append(Naming(k, k + 2, own.kind, f"{own.kind.type} {number}", False))
        if end < len(row):
            out.append(Naming(end, end + 1, own.kind, own.name, False))
    return sorted(out, key=lambda n: n.start)
