"""Names that are made of two: "hi wall heat pump", "pastry display case", "unit two on the roof".

Also names that are taken back in the same breath ("dry cooler, no, it's a remote condenser").
"""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, NUMBERS, Kind, phrases
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import word_set

_TAKEN_BACK = (("no", ","), ("no", "wait"), ("no", "sorry"), ("no", "it's"), ("no", "that's"), ("sorry", ","),
    ("sorry", "no"), ("i", "mean"), ("correction", ","), ("rather", ","))  # fmt: skip


def join_names(found: list[Naming], words: Words) -> list[Naming]:
    """Return the namings with neighbours made one, with composed ones added, without those taken back."""
    row = words.words
    out: list[Naming] = []
    for n in [*found, *_composed(found, words), *_on_the_roof(found, words)]:
        behind = row[n.end : n.end + 3]
        if behind[:1] == (",",) and behind[1:] in _TAKEN_BACK:
            continue
        out.append(n)
    out.sort(key=lambda n: (n.start, -n.end))
    joined: list[Naming] = []
    for n in out:
        before = joined[-1] if joined else None
        if before is not None and n.start < before.end:
            continue
        if before is not None and n.start == before.end and not before.plural and not before.kind.room:
            if n.kind.type in before.kind.type or n.kind.type == before.kind.type:
                before.end = n.end  # "brewery glycol chiller", "rooftop RTU"
                before.plural = n.plural
                continue
            general = before.kind.weak and before.kind.type in ("freezer", "cooler", "case")
            if (not n.kind.weak and not before.kind.weak) or general:
                n.start = before.start + (
                    row[before.start] in DETERMINERS
                )  # the last noun says what it is: "hi wall heat pump"
                joined[-1] = n
                continue
        joined.append(n)
    return joined


def without_said_again(namings: list[Naming], words: Words) -> list[Naming]:
    """Join a machine and its number in one breath: "the roof chiller, tower block C, chiller number 2".

    The second naming stands in the same sentence, or opens the next one with "this is" or "it's", with no
    other machine, no value and no word for another one between them.
    """
    row = words.words
    out: list[Naming] = []
    for n in namings:
        before = out[-1] if out else None
        if before is not None and before.kind.type == n.kind.type and row[n.end - 1] in _MEASURES:
            continue  # "meat case, twelve footer, five decks": what it looks like
        if (
            before is not None
            and before.kind.type == n.kind.type
            and not before.plural
            and not n.plural
            and _numbers_of(n.name)
            and not _numbers_of(before.name)
            and not any(o.kind.type == n.kind.type for o in out[:-1])
        ):
            if _numbered_later(words, before, n) or row[n.start - 2 : n.start] in _CALLED:
                before.name = n.name
                continue
            between = row[before.end : n.start]
            apart = words.sentence_of[n.start] - words.sentence_of[before.start]
            tail = between[between.index(".") + 1 :] if apart == 1 and "." in between else between
            told = apart == 0 or (apart == 1 and _THIS_IS & {tail[:2]})
            plain = all(w not in _ANOTHER and w not in NUMBER_WORDS and not w.isdigit() for w in between)
            if told and plain:
                before.name = n.name
                continue
        out.append(n)
    return out


def _numbered_later(words: Words, before: Naming, n: Naming) -> bool:
    """Tell whether the first words only number the machine just named: "Meat case, twelve footer, case 14".

    A sentence that is nothing but the number, or an apposition between commas, and no other one is told of.
    """
    row = words.words
    start, end = words.sentences[words.sentence_of[n.start]]
    if words.sentence_of[n.start] > _OPENING or any(w in _ANOTHER for w in row[before.end : n.end]):
        return False
    behind = n.end
    while behind < end and (
        row[behind].isdigit() or row[behind] in NUMBER_WORDS or row[behind] in _NUMBERING
    ):
        behind += 1
    if behind == n.end and not any(w in NUMBERS or w.isdigit() for w in row[n.start : n.end]):
        return False
    alone = n.start == start and row[behind : behind + 1] == (".",)
    among = before.start >= start and row[n.start - 1] == "," and row[behind : behind + 1] in ((",",), (".",))
    return alone or among


_CALLED = {("call", "it"), ("calls", "it"), ("called", "it"), ("call", "her"), ("known", "as"),
    ("named", "it"), ("label", "it"), ("labelled", "it"), ("labeled", "it"), ("tagged", "it"),
    ("tagged", "as"), ("labelled", "as"), ("labeled", "as"), ("numbered", "as"), ("goes", "by")}  # fmt: skip
_MEASURES = frozenset(("decks", "tiers", "shelves", "doors", "footers"))
_OPENING = 2
_NUMBERING = ("number", "no", "#")
_THIS_IS = {("this", "is"), ("it", "'s"), ("it's", "the"), ("that", "'s"), ("it", "is"), ("this", "one")}
_ANOTHER = word_set("another_one", "machine_words")


def _numbers_of(name: str) -> bool:
    return any(w in NUMBERS or w.isdigit() for w in name.split())


def _composed(found: list[Naming], words: Words) -> list[Naming]:
    """Return "pastry display case", "dairy lineup", "dairy pack": what it holds and the noun for it."""
    row = words.words
    nouns = {kind: word_set(kind, "machine_words") for kind in ("case_nouns", "pack_nouns")}
    products = {p[-1] for p in phrases("products")}
    out: list[Naming] = []
    for i, w in enumerate(row[:-1]):
        if w not in products:
            continue
        k = i + 1
        while k < len(row) and k - i < 3 and row[k] in word_set("case_adjectives", "machine_words"):
            k += 1
        if k >= len(row):
            break
        last = row[k]
        first = i - 1 if w == "cream" and row[i - 1 : i] == ("ice",) else i
        if last in nouns["case_nouns"]:
            end = k + 1
            if row[k : k + 2] == ("display", row[k + 1] if k + 1 < len(row) else "") and (
                row[k + 1 : k + 2] and row[k + 1] in word_set("behind_display", "machine_words")
            ):
                end = k + 2
            if any(n.start <= i and n.end >= end for n in found):
                continue
            kind = "merchandiser" if row[end - 1] in ("merchandiser", "merchandisers") else "display case"
            out.append(Naming(first, end, Kind(kind, False), "", row[end - 1].endswith("s")))
        elif last in nouns["pack_nouns"] and not any(n.start <= i and n.end > k for n in found):
            out.append(Naming(first, k + 1, Kind("rack", True), "", last.endswith("s")))
    return out


def _on_the_roof(found: list[Naming], words: Words) -> list[Naming]:
    """Return "unit two on the roof": a unit that is called by nothing but where it stands."""
    row = words.words
    out: list[Naming] = []
    if "roof" not in row:
        return out
    for i, w in enumerate(row):
        if w not in ("unit", "units") or any(n.start <= i < n.end for n in found):
            continue
        k = i + 1
        while (
            k < len(row)
            and k - i <= 2
            and (row[k] in NUMBERS or row[k].isdigit() or row[k] in ("number", "no", "#"))
        ):
            k += 1
        before = row[i - 1] if i else ""
        if row[k : k + 3] == ("on", "the", "roof") and before not in _NOT_WHOLE:
            end = k + 3
            n = Naming(i, end, Kind("rooftop unit", False), "", w == "units")
            n.number = " ".join(NUMBERS.get(x, x) for x in row[i + 1 : k] if x not in ("number", "no", "#"))
            out.append(n)
    return out or _up_there(found, words)


def _up_there(found: list[Naming], words: Words) -> list[Naming]:
    """Return "up on the roof, unit 4" and "on the roof of the mall, condenser three": called by number only.

    In the first sentence, where no machine is named in so many words in it or in the next one.
    """
    row = words.words
    if not words.sentences or any(words.sentence_of[n.start] <= 1 and not n.kind.weak for n in found):
        return []
    start, end = words.sentences[0]
    for i in range(start + 3, end - 1):
        number = NUMBERS.get(row[i + 1], row[i + 1])
        if row[i] not in _UP_THERE or not number.isdigit() or "roof" not in row[start:i]:
            continue
        if row[i - 1] not in (",", "roof", "at", "on") or row[i + 2 : i + 3] not in _BEHIND_A_NUMBER:
            continue
        return [Naming(i, i + 1, Kind(_UP_THERE[row[i]], False), "", False)]
    return []


_UP_THERE = {"unit": "rooftop unit", "condenser": "air cooled condenser"}
_BEHIND_A_NUMBER = ((",",), (".",), (":",), ("is",), ("'s",), ("the",), ("over",))


_NOT_WHOLE = frozenset(
    (
        "condensing",
        "condenser",
        "outdoor",
        "outside",
        "fan",
        "cooling",
        "control",
        "evaporator",
        "refrigeration",
        *NUMBER_WORDS,
    )
) - {"one"}
