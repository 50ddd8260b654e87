"""One machine of several that were counted, picked at the head of a sentence."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import NUMBERS, Kind, phrases
from dictate.mentions.equipment.namings import Naming, counts_several
from dictate.mentions.equipment.senses import picked_one
from dictate.mentions.equipment.told_in_turn import LOOKS
from dictate.mentions.equipment.unknown_kinds import GENERAL
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

_OPENERS = word_set("openers", "machine_words")
_GOES_ON_WITH = word_set("goes_on_with", "machine_words")
_ONE_OF_THEM = word_set("one_of_them", "machine_words")
_SELECTING = word_set("selecting", "machine_words")


def picked_of_a_row(found: list[Naming], accepted: list[Naming], words: Words) -> list[Naming]:
    """Return the machines of a counted row that are picked at the head of a sentence.

    "Two water coolers ... Left one, ..."; "three PTACs ... Room 112 ..."; "two condensing units ... Unit
    number two is ...".
    """
    row = words.words
    rows = [n for n in found if n.plural and counts_several(words, n)]
    racks = [n for n in found if n.kind.type in ("rack", "display case", "case")]
    products = {p[-1] for p in phrases("products")}
    out: list[Naming] = []
    fed: list[Naming] = []
    told_apart = {n.start: _told_of(n, words) for n in rows}
    for start, end in words.sentences:
        before = [n for n in rows if n.start < start]
        before = [n for n in before if not n.kind.weak or n.kind.type == before[0].kind.type]
        told = told_apart[before[-1].start] if before else frozenset()
        cases = any(n.start < start for n in racks)
        if not before and not cases:
            continue
        heads = frozenset(row[n.end - 1].removesuffix("s") for n in before[-1:])
        k = start
        while k < end and k - start < 5 and row[k] in _OPENERS and not _picks(words, k, end, heads):
            k += 1
        if k >= end:
            continue
        picked = _picks(words, k, end, heads)
        if picked and before and row[k] in _OLD_AND_NEW and not _told_so(words, row[k], before[-1]):
            continue  # "New one, fifty-two ohms": the new part
        own_noun = picked and row[k + picked - 1] in heads  # "small tank": no compressor of it
        if (
            picked
            and before
            and not own_noun
            and row[k] in _SELECTING
            and _of_counted_parts(words, start, row[k], before[-1])
        ):
            continue
        if not picked and before and k + 1 < end:
            picked = _by_number(words, k, end, told)
            if not picked and row[k] in told:
                picked = _by_its_place(row, k)
        if not picked and before and row[k + 1 : k + 2] == ("one",) and row[k].isalpha():
            _, last = words.sentences[words.sentence_of[before[-1].start]]
            known = row[before[-1].end : last]
            picked = 2 if (row[k] in known or row[k] in told) and row[k] not in _OPENERS else 0
        if k + 2 < end and row[k] in ("number", "no", "#") and row[k + 2] in _GOES_ON_WITH:
            # "Number 31 then": the machine that was named with this number.
            meant = [a for a in accepted if a.start < k and row[k + 1] in a.name.split()]
            if meant:
                out.append(Naming(k, k + 2, meant[-1].kind, meant[-1].name, False))
                continue
        if not picked and not before and row[k] in ("case", "cases") and k + 2 < end:
            numbered = row[k + 1].isdigit() or row[k + 1] in NUMBERS
            picked = 2 if numbered and row[k + 2] in _OF_A_CASE else 0
        if picked and not before and row[k] == "case" and any(n.kind.type == "rack" for n in racks):
            # "Rack A. ... Case 12 is iced up. ... Case 14 ...": those that the rack feeds, one by one
            near = any(row[k + picked : k + picked + len(p)] == p for p in phrases("near_by"))
            if not near and not any(k <= a.start < k + picked + 2 for a in accepted):
                same = [
                    a
                    for a in accepted
                    if row[a.end : a.end + 1] == (",",)
                    and row[a.end + 1 : a.end + 1 + picked] == row[k : k + picked]
                ]  # "the dairy case, case 12"
                name = same[0].name if same else " ".join(row[k : k + picked])
                fed.append(Naming(k, k + picked, Kind("display case", False), name, False))
            continue
        if picked and before:
            name = " ".join(w for w in row[k : k + picked] if w not in ("number", "#", "no"))
            name += " one" if picked == 1 and row[k] in told else ""
            kind = before[-1].kind
            if any(
                a.start in range(k, k + picked + 4) and not a.kind.weak and not a.kind.room for a in found
            ):
                continue  # "second one, the vaccine fridge"
            if any(k <= a.start < k + picked + 2 and not a.kind.room for a in accepted):
                continue
            out.append(Naming(k, k + picked, kind, f"{name} {kind.type}", False))
        elif before and before[-1].kind.type == "walk-in cooler" and row[k + 1 : k + 2] == ("room",):
            # "Two cold rooms ... Then the rose room, ..."
            if row[k].isalpha() and not any(a.start <= k + 1 < a.end for a in accepted):
                out.append(Naming(k, k + 2, before[-1].kind, f"other {row[k]} room", False))
        elif (
            cases
            and row[k : k + 1]
            and row[k] in products
            and row[k + 1 : k + 2] in (("first",), ("next",), ("now",), ("then",))
        ):
            # "Dairy first, ...": the case is called by what it holds.
            out.append(Naming(k, k + 2, Kind("display case", False), row[k], False))
    called = {a.name for a in accepted}
    return out + (fed if len({n.name for n in fed}) > 1 or any(n.name in called for n in fed) else [])


def without_rows(namings: list[Naming], words: Words) -> list[Naming]:
    """Leave out the naming of several machines that are then named one by one."""
    out: list[Naming] = []
    for i, n in enumerate(namings):
        several = n.plural and counts_several(words, n)
        kinds = {n.kind.type, *_ROW_OF.get(n.kind.type, ())}
        later = {
            m.name
            for m in namings[i + 1 :]
            if (m.kind.type in kinds or (n.kind.type in GENERAL and m.kind.type.endswith(n.kind.type)))
            and not m.plural
            and m.name != n.name
        }
        if several and len(later) > 1:
            continue
        out.append(n)
    return out


_ROW_OF = {
    "walk-in cooler": ("walk-in freezer",),
    "condensing unit": ("walk-in cooler", "walk-in freezer"),
    "case": ("display case",),
}


_OF_A_CASE = frozenset(
    (
        "discharge",
        "return",
        "air",
        "product",
        "superheat",
        "suction",
        "coil",
        "fans",
        "defrost",
        "temp",
        "reads",
        "runs",
    )
)
_FIRST_OR_NEXT = frozenset(("first", "next", "now", "then", "last", "again", ":", ".", ",", "cooler", "unit"))
_FLOORS = ("upstairs", "downstairs", "outside", "inside")
_BY = ("by", "at", "near", "in", "for", "outside", "behind")
_NOT_TOLD = _OPENERS | word_set("tells_none_apart", "machine_words")
_IN_THE_NEXT = 2  # sentences behind a row in which its machines are told apart


def _told_of(row_named: Naming, words: Words) -> frozenset[str]:
    """Return what the machines of a row are told apart by: "the server closet one and the lab one"."""
    row = words.words
    number = words.sentence_of[row_named.start]
    last = words.sentences[min(number + _IN_THE_NEXT, len(words.sentences) - 1)][1]
    told = {
        row[j - 1]
        for j in range(row_named.end + 1, last)
        if row[j] == "one" and row[j - 1].isalpha() and row[j - 1] not in _NOT_TOLD and len(row[j - 1]) > 2
    }
    for j in range(row_named.end + 1, last - 2):
        if row[j] == "one" and row[j + 1] in _FLOORS and row[j - 1] not in _SELECTING:
            told.add(row[j + 1])  # "one upstairs, one downstairs"
        picked = row[j - 1] in _SELECTING  # "first one by the gym": named by its order
        if row[j] in ("one", "other") and not picked and row[j + 1] in _BY and row[j + 2] == "the":
            told |= {w for w in row[j + 3 : j + 4] if w.isalpha() and w not in _NOT_TOLD and len(w) > 2}
    told |= _several_places(row, row_named.end, last)
    for start, end in words.sentences[number + 1 : number + 1 + _IN_THE_NEXT]:
        looks = [k for k in range(start, end) if row[k] in LOOKS and picked_one(row, start, k)]
        told |= {row[k] for k in looks}  # "the second is the short undercounter fridge"
    numbers = {
        f"number {NUMBERS.get(row[j + 1], row[j + 1])}"
        for j in range(row_named.end, last - 1)
        if row[j] in ("number", "#") and (row[j + 1].isdigit() or row[j + 1] in NUMBERS)
    }
    return frozenset(told | numbers if len(numbers) > 1 else told)


def _several_places(row: tuple[str, ...], start: int, end: int) -> set[str]:
    """Return the places of a list: "the meeting room and the server room", "the bar, the lab and ..."."""
    told: list[str] = []
    last = start
    for j in range(start, end - 1):
        if row[j] != "the" or row[j + 1] in _NOT_TOLD or not row[j + 1].isalpha():
            continue
        stop = (
            j + 2
            if row[j + 1] in _PLACE_NOUNS
            else j + 3
            if row[j + 2 : j + 3] and row[j + 2] in _PLACE_NOUNS
            else 0
        )
        if stop and row[stop : stop + 1] and row[stop] in (",", "and", "."):
            if told and any(w not in (",", "and") for w in row[last:j]):
                break
            told.append(row[j + 1])
            last = stop
    return set(told) if len(told) > 1 else set()


def _told_so(words: Words, picked: str, counted: Naming) -> bool:
    """Tell whether the machines of a row were told apart by a word where they were counted."""
    number = words.sentence_of[counted.start]
    _, last = words.sentences[min(number + _IN_THE_NEXT, len(words.sentences) - 1)]
    return picked in words.words[counted.start : last]


_OLD_AND_NEW = frozenset(("old", "new", "older", "newer"))


def _by_number(words: Words, k: int, end: int, told: frozenset[str]) -> int:
    """Return 2 where "number two" at word k picks a machine of the row: told before, or with its plate."""
    row = words.words
    if row[k] not in ("number", "#", "no") or k + 1 >= end:
        return 0
    number = NUMBERS.get(row[k + 1], row[k + 1])
    if not number.isdigit():
        return 0
    plate = row[k + 2 : k + 3] == (",",) and row[k + 3 : k + 4] in (("serial",), ("model",), ("type",))
    return 2 if plate or f"number {number}" in told else 0


def _of_counted_parts(words: Words, start: int, picked: str, counted: Naming) -> bool:
    """Tell whether a pick is of parts counted right before: "Two fans on that coil. Front one's 1.1 amps"."""
    row = words.words
    number = words.sentence_of[counted.start]
    last = words.sentences[min(number + _IN_THE_NEXT, len(words.sentences) - 1)][1]
    first, _ = words.sentences[max(number + 1, words.sentence_of[start] - 2)]
    parts = [
        t.start
        for t in things_of(words)
        if counted.end <= t.start < start
        and t.plural
        and any(w in _COUNTS for w in row[max(0, t.start - 3) : t.start])
    ]
    if picked in row[counted.start : min(last, *parts) if parts else last]:
        return False
    # "She has two compressors, left and right": told apart so once, they are for the rest of the visit
    return any(first <= at or picked in row[at : words.sentences[words.sentence_of[at]][1]] for at in parts)


_COUNTS = word_set("counted", "machine_words")


def _by_its_place(row: tuple[str, ...], k: int) -> int:
    """Return 1 where the place at word k picks its machine: "Closet first", "Meeting room one's first"."""
    j = k + 1
    j += row[j : j + 1] != () and row[j] in _PLACE_NOUNS
    j += row[j : j + 1] in (("one",), ("unit",), ("split",))
    return int(row[j : j + 1] != () and row[j] in _FIRST_OR_NEXT | (_IS_IT if j > k + 1 else frozenset()))


_IS_IT = frozenset(("'s", "is", "was"))
_PLACE_NOUNS = word_set("place_nouns", "machine_words")


def _picks(words: Words, k: int, end: int, heads: frozenset[str]) -> int:
    """Return how many words at word k pick one of several: "left one", "unit number two", "room 112".

    `heads` is what the machines were counted as: "First table" after "three prep tables".
    """
    row = words.words
    if row[k] in _SELECTING and row[k + 1 : k + 2]:
        hand = row[k + 1] == "hand" or row[k + 1 : k + 3] == ("-", "hand")
        j = k + 1 + (hand and (1 if row[k + 1] == "hand" else 2))
        if row[j : j + 2] == ("side", "of"):
            return 0  # "other side of the contactor"
        if row[j : j + 1] and (row[j] in _ONE_OF_THEM or row[j] in heads):
            return j - k + (row[j] != "'s")
        if heads and row[j : j + 2] in (("is", "model"), ("is", "serial"), ("is", "a"), ("is", "an")):
            return j - k  # "Left is model CU 10"
    if row[k] not in ("unit", "machine", "room", "case", "system"):
        return 0
    j = k + 1
    if j < end and row[j] in ("number", "no", "#"):
        j += 1
    first = j
    while j < end and j - first < 3 and (row[j].isdigit() or row[j] in NUMBERS or row[j] in NUMBER_WORDS):
        j += 1
    if "point" in row[first : j + 1]:
        return 0  # "room four point two": a reading
    if j == first or (j < end and row[j] not in _GOES_ON_WITH):
        return 0
    return j - k
