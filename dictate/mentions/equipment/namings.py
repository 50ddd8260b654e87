"""Every place where a narration names a machine, worked on or not."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from dictate.mentions.equipment.machine_words import NUMBERS, Kind, machine_lexicon, phrases
from dictate.mentions.equipment.senses import (
    kind_here,
    names_none,
    picked_one,
    split_alone,
    unit_of_a_vehicle,
    vehicle_of,
)
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import word_set

_CARS = {"van": "van", "truck": "truck", "lorry": "truck", "trailer": "trailer"}
_AFTER_NUMBER = word_set("after_number", "machine_words")
_NO_MACHINE = frozenset(tuple(p.split()) for p in word_set("no_machine", "machine_words"))
_COLDER = {
    "reach-in cooler": "reach-in freezer",
    "walk-in cooler": "walk-in freezer",
    "under-counter refrigerator": "under-counter freezer",
    "prep table": "under-counter freezer",
}
_FREEZERS = (("freezer",), ("freezers",))
_COUNTED = word_set("counted", "machine_words")
_THEM = (("them",), ("'em",), ("em",), ("those",), ("these",), ("the",))
_ALSO_BEGIN = frozenset(
    ("a", "ac", "split", "splits", "fridge", "refrigeration", "reefer", "freezer", "cooling")
)


@dataclass(slots=True)
class Naming:
    """A machine named at the words [start, end)."""

    start: int
    end: int
    kind: Kind
    name: str
    plural: bool
    last: int = 0  # the word behind its name
    number: str = ""  # its number, where that stands inside the name ("unit two on the roof")
    short: bool = False  # a general word for one that was named ("at the case")


@cache
def _products() -> frozenset[str]:
    """Return the words for what is kept cold, the last of each phrase."""
    return frozenset(p[-1] for p in phrases("products"))


@cache
def _begins() -> frozenset[str]:
    """Return the words with which a machine's name can begin: most words of a narration begin none."""
    _, longest = machine_lexicon()
    return _products() | _ALSO_BEGIN | longest.keys()


def find_namings(words: Words) -> list[Naming]:
    """Return every naming of a machine, a vehicle's unit under the vehicle's name, in order.

    Who asks may give them names: they are found once, and each gets its own.
    """
    done: list[Naming] | None = words.narration.found.get("namings")
    if done is None:
        done = words.narration.found["namings"] = _find_namings(words)
    return [replace(n) for n in done]


def _find_namings(words: Words) -> list[Naming]:
    lexicon, longest = machine_lexicon()
    out: list[Naming] = []
    row = words.words
    products, begins = _products(), _begins()
    i = 0
    while i < len(row):
        if row[i] not in begins:
            i += 1
            continue
        if row[i] == "a" and row[i + 1 : i + 2] == ("c",) and _article(words, i):
            i += 2  # "the breaker was a C sixteen"
            continue
        if row[i] in ("a", "ac") and _spelled_model(words, i):
            i += 1  # "model number A C forty slash two"
            continue
        if row[i : i + 2] in _NO_MACHINE:
            i += 2  # "gas cooler", "unit cooler": a part
            continue
        for length in range(min(longest.get(row[i], 0), len(row) - i), 0, -1):
            kind = lexicon.get(row[i : i + length])
            if kind is not None:
                end = i + length
                if row[end - 1] in ("fridge", "refrigerator", "reefer") and row[end : end + 1] == ("unit",):
                    continue  # "fridge unit VF 20" on a van
                if names_none(words, i, end):
                    continue
                kind = kind_here(words, row[i:end], kind, i)
                if kind.type in _COLDER and row[end : end + 1] in _FREEZERS:
                    kind, end = Kind(_COLDER[kind.type], False), end + 1  # "single door upright freezer"
                out.append(Naming(i, end, kind, "", row[end - 1].endswith("s")))
                i = end - 1
                break
        else:
            after = row[i + 1 : i + 2]
            if row[i] in ("split", "splits") and split_alone(words, i):
                out.append(Naming(i, i + 1, Kind("split system", False), "", row[i] == "splits"))
            elif length := unit_of_a_vehicle(words, i):
                kind = Kind("transport refrigeration unit", False)
                out.append(Naming(i, i + length, kind, "", False))
                i += length - 1
            elif row[i] in products and after in (("case",), ("cases",)):
                out.append(Naming(i, i + 2, Kind("display case", False), "", after == ("cases",)))
                i += 1
            elif row[i] in products and after and after[0] in _CARS:
                kind = Kind(f"refrigerated {_CARS[after[0]]}", False)
                out.append(Naming(i, i + 2, kind, "", False))
                i += 1
        i += 1
    return out


def _told_in_turn(namings: list[Naming], words: Words) -> None:
    """Put the order into the names of machines of one kind that are told by it: "Second one is the ..."."""
    turns: dict[str, list[tuple[Naming, str]]] = {}
    for n in namings:
        start, _ = words.sentences[words.sentence_of[n.start]]
        turn = picked_one(words.words, start, n.start)
        if turn and not n.plural and not n.kind.room:
            turns.setdefault(n.kind.type, []).append((n, turn))
    for told in turns.values():
        if len({turn for _, turn in told}) > 1:
            for n, turn in told:
                n.name = n.name if turn in n.name.split() else f"{turn} {n.name}"


def name_them(namings: list[Naming], words: Words) -> None:
    """Give each naming its name, and a vehicle's unit the vehicle's kind."""
    row = words.words
    for n in namings:
        _name(n, words)
        if n.number:
            n.name = f"{n.name} {n.number}"
    _told_in_turn(namings, words)
    for n in namings:
        if n.kind.type == "transport refrigeration unit":
            # The vehicle that the unit is on tells what it is called.
            vehicle = next((v for v in ("van", "truck", "trailer") if v in row), None) or vehicle_of(words)
            if vehicle is not None:
                n.kind = Kind(f"refrigerated {vehicle}", False)


def _name(n: Naming, words: Words) -> None:
    """Set the name: the words that tell this machine from another, and its kind."""
    row = words.words
    start, stop = words.sentences[words.sentence_of[n.start]]
    first = n.start
    while (
        first - 1 >= start
        and n.start - first < 3
        and (row[first - 1] in {w for p in phrases("ordinals") for w in p} or row[first - 1] in ("#",))
        and row[first - 1] not in ("at", "on")
    ):
        first -= 1
    last = n.end
    if (
        last < stop
        and row[last] in ("number", "no", "#", "unit")
        and last + 1 < stop
        and (row[last + 1] in NUMBERS or row[last + 1].isdigit())
    ):
        last += 2
    elif (
        last < stop
        and (row[last] in NUMBERS or row[last].isdigit())
        and not n.plural
        and (last + 1 >= stop or row[last + 1] in _AFTER_NUMBER)
    ):
        last += 1
    if (
        row[last : last + 1] == (",",)
        and row[last + 1 : last + 2] in (("number",), ("no",), ("#",))
        and row[last + 2 : last + 3]
        and (row[last + 2] in NUMBERS or row[last + 2].isdigit())
        and not n.plural
    ):
        last += 3
    if row[last : last + 2] == ("in", "room") and last + 2 < stop and row[last + 2].isdigit():
        last += 3
    elif not n.plural and row[last : last + 1] in (("upstairs",), ("downstairs",)):
        last += 1
    if n.plural and counts_several(words, n):
        first = n.start  # "two new package units": of all of them
    n.last = last
    n.name = " ".join(w for w in row[first:last] if w != ",")


def counts_several(words: Words, n: Naming) -> bool:
    """Tell whether a naming counts several machines: "two water coolers", "both of the reach-ins"."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[n.start]]
    if any(w in _COUNTED for w in row[max(start, n.start - 3) : n.start]):
        return True
    before = row[max(start, n.start - 5) : n.start]
    if any(
        before[j] in _COUNTED and before[j + 1] == "of" and before[j + 2 : j + 3] in _THEM
        for j in range(len(before) - 2)
    ):
        return True  # "two of these seawater air conditioners"
    if row[n.start - 2 : n.start] == ("nos", ".") and n.start > 2 and row[n.start - 3] in _COUNTED:
        return True  # "four nos. split units"
    behind = row[n.end : n.end + 4]
    if behind[2:3] == ("of",) and behind[0] in (".", ",") and behind[1] in _COUNTED and behind[3:4] in _THEM:
        return True  # "Dentist office mini splits. 2 of them, ..."
    # "cases 11 and 12"
    k = n.end + (row[n.end : n.end + 1] == ("number",) or row[n.end : n.end + 1] == ("numbers",))
    listed = row[k : k + 3]
    return (
        len(listed) == 3
        and listed[1] in ("and", ",", "to", "through")
        and all(w.isdigit() or w in NUMBERS for w in (listed[0], listed[2]))
    )


def _article(words: Words, i: int) -> bool:
    """Tell whether "a" before "C" is an article: written small beside a capital, with a number behind."""
    first, second = (words.narration.tokens[words.tokens[k]].text for k in (i, i + 1))
    behind = words.words[i + 2 : i + 3]
    counted = bool(behind) and (behind[0] in NUMBER_WORDS or behind[0].isdigit())
    return first == "a" and second == "C" and counted


def _spelled_model(words: Words, i: int) -> bool:
    """Tell whether the letters at word i begin a model that is announced before or goes on behind."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[i]]
    end = i + 1 if row[i] == "ac" else i + 2
    if row[i] == "a" and row[i + 1 : i + 2] != ("c",):
        return False
    while end < len(row) and len(row[end]) == 1 and row[end].isalpha():
        end += 1  # "model A C H thirty"
    digits = end < len(row) and (row[end] in NUMBER_WORDS or row[end][:1].isdigit())
    behind = row[end + 1 : end + 5]
    if digits and i == start and {"serial", "model"} & set(behind) and "." not in behind:
        return True  # "Process chiller. A C thirty, serial five five nine"
    return digits and any(w in row[max(start, i - 4) : i] for w in ("model", "number", "serial", "type"))
