"""The machines of a visit as they are named: `find_equipment(narration) -> list[Equipment]`.

One entry for each naming, in order, also when the same machine is named again ("back on the second
freezer"); the writeup joins those that are one machine. `name` is the machine as said, `type` the trade's
name for it. A model or serial number, and the refrigerant of the plate, go to the machine that was named
last; a number of a part does not.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

from dictate.mentions.designations import Designation, read_designation
from dictate.mentions.narration import Narration, lowers
from dictate.mentions.patterns import NUMBER_WORDS, Words, words_of
from dictate.mentions.refrigerants import find_refrigerants
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.things import things_of
from dictate.record.visit import Equipment
from dictate.vocabulary.load import table, word_set

_DETERMINERS = word_set("machine_determiners")
_MOVES = word_set("moves")
_NUMBERS = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7",
    "eight": "8", "nine": "9", "ten": "10"}  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Kind:
    type: str
    weak: bool
    room: bool = False


@cache
def _lexicon() -> tuple[dict[tuple[str, ...], _Kind], dict[str, int]]:
    """Return phrase -> kind, and first word -> how many words the longest phrase has that begins so."""
    out: dict[tuple[str, ...], _Kind] = {}
    for entry in table("machines")["machine"]:
        kind = _Kind(entry["type"], bool(entry.get("weak")), bool(entry.get("room")))
        for said in [*([] if kind.room else [entry["type"]]), *entry.get("said", [])]:
            words = lowers(said)
            out.setdefault(words, kind)
            if not words[-1].endswith("s"):
                out.setdefault((*words[:-1], words[-1] + "s"), kind)
    longest: dict[str, int] = {}
    for phrase in out:
        longest[phrase[0]] = max(longest.get(phrase[0], 0), len(phrase))
    return out, longest


@cache
def _phrases(name: str) -> frozenset[tuple[str, ...]]:
    data: dict[str, Any] = table("machines")["words"]
    return frozenset(tuple(lowers(p)) for p in data[name])


@cache
def _by_first(name: str) -> dict[str, list[tuple[str, ...]]]:
    """Sort the phrases of a list by their first word: most words of a narration begin none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in _phrases(name):
        found.setdefault(phrase[0], []).append(phrase)
    return found


def _ends(words: tuple[str, ...], i: int, name: str, start: int) -> int:
    """Return how many words of the longest phrase of a list end just before word i."""
    return max(
        (len(p) for p in _phrases(name) if i - len(p) >= start and words[i - len(p) : i] == p), default=0
    )


@dataclass(slots=True)
class _Naming:
    start: int
    end: int
    kind: _Kind
    name: str
    plural: bool
    last: int = 0  # the word behind its name
    short: bool = False  # a general word for one that was named ("at the case")


def find_equipment(narration: Narration) -> list[Equipment]:
    """Return the machines as they are named, each naming once, with what was said of their plates."""
    words = words_of(narration)
    scopes = scopes_of(words)
    found = _namings(words)
    namings = _accepted([n for n in found if not n.kind.room], words, scopes)
    if not namings or namings[0].kind.type in _GENERAL or words.sentence_of[namings[0].start] >= _FIRST:
        rooms = [n for n in found if n.kind.room and words.sentence_of[n.start] < _FIRST]
        at_home = [n for n in rooms if not _only_where(words, n)]
        kinds = _of_an_unknown_kind(words, namings, found)
        own = [k for k in kinds if not k.kind.weak] or at_home or kinds[: 0 if namings else 1] or rooms
        if own and own[0] in rooms and own[0] not in at_home and namings:
            own = []
        namings = [*own[:1], *(n for n in namings if not own or n.kind.type not in _GENERAL)]
    namings = sorted([*namings, *_selected(found, namings, words)], key=lambda n: n.start)
    for before, n in pairwise(namings):
        if n.short and n.kind.type == before.kind.type:
            n.name = before.name  # the one that is spoken of
    entries: list[tuple[int, Equipment]] = []
    for n in namings:
        start, end = words.span(n.start, n.end)
        entries.append(
            (
                n.start,
                Equipment(
                    name=n.name,
                    type=n.kind.type,
                    at=narration.at(start, end),
                    heard=narration.heard(start, end),
                ),
            )
        )
    _plates(narration, words, entries)
    _refrigerants(narration, words, entries)
    return [e for _, e in sorted(entries, key=lambda x: x[0])]


def _namings(words: Words) -> list[_Naming]:
    lexicon, longest = _lexicon()
    out: list[_Naming] = []
    row = words.words
    products = {p[-1] for p in _phrases("products")}
    i = 0
    while i < len(row):
        if row[i] in ("a", "ac") and _spelled_model(words, i):
            i += 1  # "model number A C forty slash two"
            continue
        for length in range(min(longest.get(row[i], 0), len(row) - i), 0, -1):
            kind = lexicon.get(row[i : i + length])
            if kind is not None:
                end = i + length
                if kind.type == "cooler" and row[end : end + 1] == ("unit",):
                    continue  # "fridge unit VF 20" on a van
                out.append(_Naming(i, end, kind, "", row[end - 1].endswith("s")))
                i = end - 1
                break
        else:
            after = row[i + 1 : i + 2]
            if row[i] in products and after in (("case",), ("cases",)):
                out.append(_Naming(i, i + 2, _Kind("display case", False), "", after == ("cases",)))
                i += 1
            elif row[i] in products and after and after[0] in _CARS:
                kind = _Kind(f"refrigerated {_CARS[after[0]]}", False)
                out.append(_Naming(i, i + 2, kind, "", False))
                i += 1
        i += 1
    for n in out:
        _name(n, words)
        if n.kind.type == "transport refrigeration unit":
            # The vehicle that the unit is on tells what it is called.
            for vehicle in ("van", "truck", "trailer"):
                if vehicle in row:
                    n.kind = _Kind(f"refrigerated {vehicle}", False)
                    break
    return out


_GENERAL = frozenset(("cooler", "freezer", "case"))
_FIRST = 2  # sentences in which a narration says what it is about


@cache
def _unknown_words(name: str) -> frozenset[str]:
    return frozenset(table("machines")["unknown"][name])


def _only_where(words: Words, n: _Naming) -> bool:
    """Tell whether a room is only where something stands: "down at the ice rink", "in the server room"."""
    row = words.words
    i = n.start
    start, _ = words.sentences[words.sentence_of[i]]
    while i > start and (row[i - 1] in _DETERMINERS or row[i - 1] in _unknown_words("no_part")):
        i -= 1
    return i > start and row[i - 1] in _WHERE


_WHERE = frozenset(
    ["at", "in", "by", "near", "behind", "from", "inside", "outside", "next", "to", "below", "above"]
)


def _of_an_unknown_kind(words: Words, namings: list[_Naming], found: list[_Naming]) -> list[_Naming]:
    """Return the machine of a kind that no list has, called as it was said: "the tobacco fridge, model ...".

    Only in the first sentences: a noun that machines end in, with words before it that are neither its
    place nor its owner, at the head of a clause or behind an article.
    """
    row = words.words
    listed = {t for n in found if not n.kind.weak and not n.kind.room for t in range(n.start, n.end)}
    heads, no_part, never = _unknown_words("heads"), _unknown_words("no_part"), _unknown_words("never")
    for start, end in words.sentences[:_FIRST]:
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
                and row[k - 1] not in _DETERMINERS
                and row[k - 1] not in NUMBER_WORDS
                and (row[k - 1],) not in _phrases("introduces")
                and (row[k - 1],) not in _phrases("place")
                and row[k - 1] not in _PREPOSITIONS
                and row[k - 1] not in _MOVES
            ):
                k -= 1
            name = row[k:h]
            general = _lexicon()[0].get((row[h],))
            if not never.isdisjoint(name) or (not name and general is None):
                continue
            j = k
            while j > start and (row[j - 1] in no_part or row[j - 1] in NUMBER_WORDS):
                j -= 1
            article = j > start and row[j - 1] in _DETERMINERS
            if not article and j > start and row[j - 1] not in (",", ":", "-"):
                continue
            lead = j - 1 if article else j
            if _ends(row, lead, "place", start) > _ends(row, lead, "introduces", start):
                continue
            if any(t.start < h and t.end > k for t in things_of(words) if not t.modifier):
                continue
            if any(not n.kind.weak and start <= n.start < end for n in namings):
                continue
            said = " ".join(row[k : h + 1])
            kind = _Kind(said, False) if name or general is None else general
            return [_Naming(k, h + 1, kind, said, False)]
    return []


@cache
def _unknown_behind() -> frozenset[tuple[str, ...]]:
    return frozenset([*((w,) for w in _unknown_words("behind")), ()])


_PREPOSITIONS = frozenset(
    [
        "of",
        "for",
        "at",
        "in",
        "on",
        "with",
        "from",
        "behind",
        "to",
        "is",
        "was",
        "has",
        "and",
        "or",
        "but",
        "are",
        "were",
        "be",
        "been",
        "by",
        "got",
        "had",
        "have",
        "called",
        "not",
        "off",
        "into",
        "like",
        "just",
        "very",
    ]
)
_MACHINES_OF_THEIR_OWN = frozenset(
    (
        "compressor",
        "condenser fan motor",
        "evaporator fan motor",
        "fan motor",
        "pump",
        "water pump",
        "motor",
        "control board",
        "controller",
        "contactor",
        "expansion valve",
        "gear motor",
        "blower motor",
    )
)
_OPENERS = frozenset(
    (
        "okay",
        "ok",
        "then",
        "now",
        "and",
        "so",
        "next",
        "back",
        "to",
        "on",
        "in",
        "at",
        "the",
        "over",
        "moving",
        "moved",
        "onto",
        "up",
        "alright",
        "right",
        ",",
        "first",
        "well",
        "start",
        "started",
        "with",
        "for",
    )
)
_GOES_ON_WITH = frozenset(
    (
        ",",
        ".",
        ":",
        ";",
        "is",
        "'s",
        "was",
        "has",
        "had",
        "then",
        "first",
        "now",
        "reads",
        "draws",
        "pulls",
        "runs",
        "shows",
        "did",
        "does",
        "got",
        "needs",
        "needed",
        "on",
        "at",
        "came",
        "with",
        "trips",
        "drips",
        "and",
        "again",
        "next",
        "isn't",
        "wasn't",
        "won't",
        "not",
        "serial",
        "model",
        "same",
    )
)
_COUNTED = frozenset(
    ("two", "three", "four", "five", "six", "2", "3", "4", "5", "6", "both", "couple", "pair")
)
_ONE_OF_THEM = frozenset(("one", "unit", "machine", "box", "case", "cabinet", "'s", "side"))
_SELECTING = frozenset(
    (
        "first",
        "second",
        "third",
        "fourth",
        "left",
        "right",
        "other",
        "big",
        "small",
        "smaller",
        "bigger",
        "larger",
        "upper",
        "lower",
        "top",
        "bottom",
        "front",
        "back",
        "upstairs",
        "downstairs",
        "outside",
        "inside",
        "last",
        "old",
        "older",
        "new",
        "newer",
        "near",
        "far",
        "north",
        "south",
        "east",
        "west",
    )
)


def _selected(found: list[_Naming], accepted: list[_Naming], words: Words) -> list[_Naming]:
    """Return the machines of a counted row that are picked at the head of a sentence.

    "Two water coolers ... Left one, ..."; "three PTACs ... Room 112 ..."; "two condensing units ... Unit
    number two is ...".
    """
    row = words.words
    rows = [n for n in found if n.plural and _counted(words, n)]
    out: list[_Naming] = []
    for start, end in words.sentences:
        before = [n for n in rows if n.start < start]
        cases = [n for n in found if n.start < start and n.kind.type in ("rack", "display case", "case")]
        if not before and not cases:
            continue
        k = start
        while k < end and k - start < 5 and row[k] in _OPENERS and not _picks(words, k, end):
            k += 1
        picked = _picks(words, k, end) if k < end else 0
        if k + 2 < end and row[k] in ("number", "no", "#") and row[k + 2] in _GOES_ON_WITH:
            # "Number 31 then": the machine that was named with this number.
            meant = [a for a in accepted if a.start < k and row[k + 1] in a.name.split()]
            if meant:
                out.append(_Naming(k, k + 2, meant[-1].kind, meant[-1].name, False))
                continue
        if picked and before:
            name = " ".join(w for w in row[k : k + picked] if w not in ("number", "#", "no"))
            kind = before[-1].kind
            if any(a.start in range(k, k + picked + 2) for a in accepted):
                continue
            out.append(_Naming(k, k + picked, kind, f"{name} {kind.type}", False))
        elif (
            cases
            and row[k : k + 1]
            and row[k] in {p[-1] for p in _phrases("products")}
            and row[k + 1 : k + 2] in (("first",), ("next",), ("now",), ("then",))
        ):
            # "Dairy first, ...": the case is called by what it holds.
            out.append(_Naming(k, k + 2, _Kind("display case", False), row[k], False))
    return out


def _counted(words: Words, n: _Naming) -> bool:
    """Tell whether a naming counts several machines: "two water coolers", "both of the reach-ins"."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[n.start]]
    return any(w in _COUNTED for w in row[max(start, n.start - 3) : n.start])


def _picks(words: Words, k: int, end: int) -> int:
    """Return how many words at word k pick one of several: "left one", "unit number two", "room 112"."""
    row = words.words
    if row[k] in _SELECTING and row[k + 1 : k + 2] and row[k + 1] in _ONE_OF_THEM:
        return 2 if row[k + 1] != "'s" else 1
    if row[k] not in ("unit", "machine", "room", "case", "number", "no", "#", "system"):
        return 0
    j = k + 1
    if j < end and row[j] in ("number", "no", "#"):
        j += 1
    if row[k] == "number" and j > k + 1:
        return 0
    first = j
    while j < end and j - first < 3 and (row[j].isdigit() or row[j] in _NUMBERS or row[j] in NUMBER_WORDS):
        j += 1
    if j == first or (j < end and row[j] not in _GOES_ON_WITH):
        return 0
    if row[k] in ("number", "no", "#"):
        return 0
    return j - k


def _spelled_model(words: Words, i: int) -> bool:
    """Tell whether the letters at word i begin a model that is announced before or goes on behind."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[i]]
    end = i + 1 if row[i] == "ac" else i + 2
    if row[i] == "a" and row[i + 1 : i + 2] != ("c",):
        return False
    digits = end < len(row) and (row[end] in NUMBER_WORDS or row[end][:1].isdigit())
    return digits and any(w in row[max(start, i - 4) : i] for w in ("model", "number", "serial", "type"))


def _name(n: _Naming, words: Words) -> None:
    """Set the name: the words that tell this machine from another, and its kind."""
    row = words.words
    start, stop = words.sentences[words.sentence_of[n.start]]
    first = n.start
    while (
        first - 1 >= start
        and n.start - first < 3
        and (row[first - 1] in {w for p in _phrases("ordinals") for w in p} or row[first - 1] in ("#",))
        and row[first - 1] not in ("at", "on")
    ):
        first -= 1
    last = n.end
    if (
        last < stop
        and row[last] in ("number", "no", "#", "unit")
        and last + 1 < stop
        and (row[last + 1] in _NUMBERS or row[last + 1].isdigit())
    ):
        last += 2
    elif (
        last < stop
        and (row[last] in _NUMBERS or row[last].isdigit())
        and not n.plural
        and (last + 1 >= stop or row[last + 1] in _AFTER_NUMBER)
    ):
        last += 1
    if (
        row[last : last + 1] == (",",)
        and row[last + 1 : last + 2] in (("number",), ("no",), ("#",))
        and row[last + 2 : last + 3]
        and (row[last + 2] in _NUMBERS or row[last + 2].isdigit())
        and not n.plural
    ):
        last += 3
    if row[last : last + 2] == ("in", "room") and last + 2 < stop and row[last + 2].isdigit():
        last += 3
    elif not n.plural and row[last : last + 1] in (("upstairs",), ("downstairs",)):
        last += 1
    if n.plural and _counted(words, n):
        first = n.start  # "two new package units": of all of them
    n.last = last
    n.name = " ".join(w for w in row[first:last] if w != ",")


_AFTER_NUMBER = frozenset(
    (
        ",",
        ".",
        ":",
        ";",
        "is",
        "'s",
        "and",
        "has",
        "was",
        "at",
        "then",
        "reads",
        "draws",
        "pulls",
        "runs",
        "shows",
        "holds",
        "sits",
        "needs",
        "wants",
        "on",
        "first",
        "now",
        "are",
        "had",
        "got",
        "gets",
    )
)


def _accepted(namings: list[_Naming], words: Words, scopes: Scopes) -> list[_Naming]:
    """Keep the namings of machines that are worked on; drop places, parts and comparisons."""
    row = words.words
    out: list[_Naming] = []
    for n in namings:
        start, _ = words.sentences[words.sentence_of[n.start]]
        i = n.start
        while i - 1 >= start and (
            row[i - 1] in _DETERMINERS
            or any(row[i - 1] in p for p in _phrases("ordinals"))
            or row[i - 1] in NUMBER_WORDS
            or row[i - 1] in ("door", "drawer", "stainless", "ton", "sandwich")
            or row[i - 1].isdigit()
        ):
            i -= 1
        # "walk-in cooler evaporator", "ice machine contactor", "freezer door" are parts of it; still its
        # naming.
        place = _ends(row, i, "place", start)
        moved = row[i - 1] == "to" and i - 2 >= start and row[i - 2] in _MOVES
        introduced = _ends(row, i, "introduces", start)
        if introduced > place:
            place = 0  # "called out to a heat pump"
        elif place and not moved:
            introduced = 0
        opens = i == start or (row[i - 1] in (",", ":", "-") and (i - start <= 6))
        if (
            place
            and not (row[i - 1] == "to" and i - 2 >= start and row[i - 2] in word_set("moves"))
            and not (out == [] and row[i - place : i] in (("with",), ("by",), ("under",), ("new",), ("old",)))
        ):
            continue
        if scopes._reported(start, n.start) and out:
            continue
        on_it = i > start and row[i - 1] in ("at", "on", "back")
        if out and start <= out[-1].start and i - out[-1].end <= 1 and row[out[-1].end] == ",":
            continue  # "larder fridge, back bar": where it stands
        listed = bool(out) and start <= out[-1].start and row[i - 1] == "and"
        listed = listed and i - max(out[-1].end, out[-1].last) <= 1
        if listed and not n.kind.weak and words.sentence_of[i] <= 1:
            out.append(n)  # "the prep table and the reach-in freezer next to it"
            continue
        if out and out[-1].kind.type in _VEHICLES and n.kind.type in _ON_VEHICLES:
            continue  # "dairy van, roof unit"
        told_apart = _key(n.name, n.kind.type)
        if (
            n.kind.weak
            and told_apart
            and not n.plural
            and any(o.kind.type == n.kind.type and _key(o.name, o.kind.type) != told_apart for o in out)
            and (opens or introduced or on_it or i - start <= 3)
        ):
            # "condensing unit two", "the second freezer": one of several of a kind that was named.
            out.append(n)
            continue
        if n.kind.type == "van" and not any(o.kind.type in _VEHICLES for o in out):
            continue
        if n.kind.weak and out and (on_it or opens or introduced):
            # "at the case", "back on the freezer": a short name of one that was named.
            meant = [
                o
                for o in out
                if n.kind.type in o.kind.type or (n.kind.type == "van" and o.kind.type in _VEHICLES)
            ]
            if meant:
                out.append(_Naming(n.start, n.end, meant[-1].kind, meant[-1].name, n.plural, short=True))
                continue
        if (
            out
            and start <= out[-1].start
            and i - out[-1].end <= 3
            and row[i - 1] in ("for", "of", "serving", "feeding", "to")
        ) or (
            i - 2 >= start
            and row[i - 1] in _DETERMINERS
            and row[i - 2] in ("for", "of", "serving", "feeding")
            and out
            and out[-1].start >= start
            and i - out[-1].end <= 3
        ):
            continue
        if n.kind.weak:
            known = [o for o in out if _related(o.kind.type, n.kind.type)]
            if known:
                continue
            if (not introduced and not opens) or n.kind.type == "case":
                continue
            if out and n.kind.type in ("condensing unit", "rack", "air handler", "furnace"):
                continue
        same = [o for o in out if o.kind.type == n.kind.type]
        beside = i - start > 3 and row[i - 1] not in ("on", "at")
        if row[i - 1] in ("and", "but") and row[n.end : n.end + 1] in _STANDS:
            beside = False  # "..., and the walk-in sits at 37"
        if out and not same and not introduced and not opens and beside:
            # A machine of another kind in the middle of a sentence is mostly a place or a neighbour.
            continue
        if out and _described(out[-1].kind.type, n.kind.type) and not told_apart:
            near = words.sentence_of[n.start] - words.sentence_of[out[-1].start]
            if near <= 1 and not {"next", "then", "second", "also", "another", "and"} & set(row[start:i]):
                continue  # "Heat pump, north side. Three ton split, ...": what the machine is, once more
        if n.kind.type == "display case" and out and out[-1].kind.type == "rack" and out[-1].start >= start:
            out.pop()
        returned = row[i - 1] in ("on", "at", "back", "in") and i - start <= 3
        if same and not introduced and not opens and not returned and _key(n.name, n.kind.type) == "":
            continue
        out.append(n)
    return out


_STANDS = (("is",), ("'s",), ("was",), ("sits",), ("holds",), ("reads",), ("shows",), ("runs",), ("had",))
_CARS = {"van": "van", "truck": "truck", "lorry": "truck", "trailer": "trailer"}
_VEHICLES = frozenset(("refrigerated van", "refrigerated truck", "refrigerated trailer"))
_ON_VEHICLES = frozenset(("rooftop unit", "transport refrigeration unit", "refrigerated van"))


def _described(known: str, again: str) -> bool:
    """Tell whether a general name can describe a machine named by its own ("bottle cooler under the bar")."""
    described: dict[str, list[str]] = table("machines")["described_by"]
    return again in described.get(known, ())


def _related(known: str, weak: str) -> bool:
    """Tell whether a general word is only short for a machine that was named ("the freezer", "the unit")."""
    if weak == "freezer":
        return "freezer" in known or known in (
            "display case",
            "soft serve machine",
            "blast chiller",
            "beverage machine",
            "refrigerated van",
        )
    if weak == "cooler":
        return any(k in known for k in word_set("cooled"))
    return True


def _key(name: str, kind: str) -> str:
    """Return what tells the machine from others of its kind."""
    products = {p[-1] for p in _phrases("products")} if kind == "display case" else frozenset()
    kept = [
        w
        for w in name.split()
        if any(w in p for p in _phrases("ordinals")) or w in _NUMBERS or w.isdigit() or w in products
    ]
    kind_words = set(kind.replace("-", " ").split())
    return " ".join(_NUMBERS.get(w, w) for w in kept if w not in kind_words)


def machine_key(name: str | None, kind: str | None) -> str:
    """Return what tells a machine from others of its kind ("second", "2", "left"), or nothing."""
    return _key((name or "").lower(), kind or "")


def _current(entries: list[tuple[int, Equipment]], i: int) -> Equipment | None:
    before = [e for start, e in entries if start <= i]
    return before[-1] if before else None


def _plates(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Read model and serial numbers."""
    row = words.words
    _both(narration, words, entries)
    cues = [(field, _by_first(field)) for field in ("model", "serial")]
    namings = {n.start: n.end for n in _namings(words)}
    i = 0
    refused = -1
    while i < len(row):
        for field, begun in cues:
            n = (
                max((len(p) for p in begun.get(row[i], ()) if row[i : i + len(p)] == p), default=0)
                if row[i] in begun
                else 0
            )
            if not n:
                continue
            start, _ = words.sentences[words.sentence_of[i]]
            known = [k for k, e in entries if e.type is not None]
            if _of_a_part(row, i, start) or _of_a_new_part(words, i, start, known) or refused == start:
                refused = start
                i += n
                break
            made = _said_before(narration, words, i, i + n, start, field)
            if made is None:
                k = _first_of_number(words, i + n, namings)
                if k >= len(row):
                    i += n
                    break
                made = read_designation(narration, words.tokens[k])
                if made is None or (field == "model" and len(made.text) < 2):
                    made = _said_before(narration, words, i, i + n, start, field, bare=True)
                if made is None:
                    i += n
                    break
                made = _corrected(narration, made)
            _give(narration, words, entries, made, field, i)
            i = max(i + n, words.word_of_token(made.end) - 1)
            break
        i += 1
    _weakly_named(narration, words, entries, namings)


def _first_of_number(words: Words, k: int, namings: dict[int, int]) -> int:
    """Return the word where the number announced right before word k begins."""
    row = words.words
    between = {w for p in _phrases("between") for w in p}
    steps = 0
    while k < len(row) and steps < 7:
        if namings.get(k, k) > k and row[k - 1] in _DETERMINERS and row[namings[k] : namings[k] + 1] in _IS:
            k = namings[k]  # "the serial number on this reach-in is ..."
            continue
        if row[k] not in between and not (row[k] in _DETERMINERS and k + 1 in namings):
            break
        if (
            row[k] == "a"
            and k + 1 < len(row)
            and (
                len(row[k + 1]) == 1
                or row[k + 1] in NUMBER_WORDS
                or row[k + 1][:1].isdigit()
                or row[k + 1 : k + 3] == ("as", "in")
            )
        ):
            break
        if (
            row[k] == "."
            and words.sentence_of[min(k + 1, len(row) - 1)] != words.sentence_of[k]
            and steps > 0
        ):
            break
        k += 1
        steps += 1
    return k


_IS = (("is",), ("'s",), ("was",), ("reads",), ("says",))
_THAT_IS = frozenset(("that", "'s", "is", "the", "for", "its", "it", ",", "was", "a", "as", "be", "would"))


def _said_before(
    narration: Narration, words: Words, i: int, end: int, start: int, field: str, *, bare: bool = False
) -> Designation | None:
    """Return the number said before its own word: "UC24, that's the model", and `bare`: "TF23, model."."""
    row = words.words
    k = i
    while k > start and i - k < 5 and row[k - 1] in _THAT_IS:
        k -= 1
    lead = row[k:i]
    if k == start or not ({"is", "'s", "for", "was", "as"} & set(lead) or (bare and lead in ((), (",",)))):
        return None
    if row[end : end + 1] not in ((",",), (".",), (";",), ("and",), ()):
        return None
    made = _ending_at(narration, words, k, start, letters_first=field == "model")
    if made is None or (field == "model" and not any(c.isalpha() for c in made.text)):
        return None
    return made


def _ending_at(
    narration: Narration, words: Words, k: int, start: int, *, letters_first: bool = False
) -> Designation | None:
    """Return the longest designation of the sentence that ends right before word k."""
    end = words.tokens[k - 1] + 1
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    for j in range(max(start, k - 14), k):
        token = narration.tokens[words.tokens[j]]
        letters = token.text.rstrip("-")
        said = letters.lower() in NUMBER_WORDS or letters[:1].isdigit() or letters.lower() in _REPEATS
        if said and letters_first:
            continue
        if not said and not (letters[:1].isalpha() and letters == letters.upper()):
            continue
        made = read_designation(narration, words.tokens[j])
        if made is None or made.end != end or not named.isdisjoint(range(made.start, made.end)):
            continue
        if any(c.isdigit() for c in made.text) and 3 <= len(made.text) <= 16:
            return made
    return None


_REPEATS = frozenset(("double", "triple", "oh"))


def _give(
    narration: Narration,
    words: Words,
    entries: list[tuple[int, Equipment]],
    made: Designation,
    field: str,
    i: int,
) -> None:
    """Put a number announced at word i into the machine that is spoken of."""
    row = words.words
    start, _ = words.sentences[words.sentence_of[i]]
    target = _current(entries, i)
    if target is None:
        following = [e for s, e in entries if s > i and words.sentence_of[s] - words.sentence_of[i] <= 1]
        target = following[0] if following else None
    if target is None:
        s, _ = words.span(i, min(len(row), words.word_of_token(made.end)))
        target = Equipment(at=narration.at(min(s, made.start), made.end), heard=narration.heard(s, made.end))
        entries.insert(0, (i, target))
    correcting = i >= 2 and any(
        w in row[max(start, i - 6) : i] for w in ("no", "sorry", "correction", "wait", "mean")
    )
    if getattr(target, field) is None or correcting:
        setattr(target, field, made.text)
    if field == "model" and target.serial is None:
        number = _number_behind(narration, words, made)
        target.serial = number.text if number is not None else None
    if field == "serial" and target.model is None:
        before = _before_serial(narration, words, i, start)
        target.model = before.text if before is not None else None


def _number_behind(narration: Narration, words: Words, made: Designation) -> Designation | None:
    """Return the number that follows a model at once: "type PS 61, number 10 22 7"."""
    row = words.words
    k = words.word_of_token(made.end)
    if row[k : k + 1] != (",",):
        return None
    k += 2 if row[k + 1 : k + 2] in (("plate",), ("and",)) else 1
    if row[k : k + 1] not in (("number",), ("no",), ("nr",)) or k + 1 >= len(row):
        return None
    number = read_designation(narration, words.tokens[k + 1])
    if number is None or len(number.text) < 4 or number.end >= len(narration.tokens):
        return None
    return number if narration.tokens[number.end].lower in (",", ".", ";", "and") else None


def _same_model(words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Give a machine of "same model" the model of the one before it of its kind."""
    row = words.words
    for i in range(len(row) - 2):
        if row[i : i + 2] != ("same", "model") or row[i + 2] in ("as", "number"):
            continue
        target = _current(entries, i)
        if target is None or target.model is not None:
            continue
        before = [e for k, e in entries if k < i and e.type == target.type and e.model and e is not target]
        if before:
            target.model = before[-1].model


def _weakly_named(
    narration: Narration, words: Words, entries: list[tuple[int, Equipment]], namings: dict[int, int]
) -> None:
    """Read a model behind "it's marked", "type" or "the badge says": letters and digits, of no part."""
    row = words.words
    begun = _by_first("model_weak")
    named = {t for n in find_refrigerants(narration) for t in range(n.start, n.end)}
    at_once = {
        namings[k] - 1: k for k, _ in entries if k in namings and row[namings[k] : namings[k] + 1] == (",",)
    }
    for i in range(len(row)):
        n = max((len(p) for p in begun.get(row[i], ()) if row[i : i + len(p)] == p), default=0)
        if not n and i in at_once:
            n = 2  # "the prep table, PT forty-eight, ..."
        target = _current(entries, i) if n else None
        if target is None or target.model is not None:
            continue
        start, _ = words.sentences[words.sentence_of[i]]
        if i not in at_once and any(
            t.start < i and not t.modifier for t in things_of(words) if start <= t.start
        ):
            continue
        k = _first_of_number(words, i + n, namings)
        token = narration.tokens[words.tokens[k]].text if k < len(row) else ""
        if not token[:1].isupper() or token.upper() != token:
            continue
        made = read_designation(narration, words.tokens[k])
        if made is None or not named.isdisjoint(range(made.start, made.end)):
            continue
        behind = narration.tokens[made.end].lower if made.end < len(narration.tokens) else "."
        whole = behind in (",", ".", ";", "and", "serial", "with", "on", "no")
        digits = sum(c.isdigit() for c in made.text)
        if whole and len(made.text) >= 3 and digits >= (2 if i in at_once else 1) and made.text[0].isalpha():
            target.model = made.text
            if target.serial is None:
                number = _number_behind(narration, words, made)
                target.serial = number.text if number is not None else None
    _same_model(words, entries)


_TO_SERIAL = frozenset(
    (",", "and", "the", "its", "it", "'s", "on", "tag", "plate", "is", "model", "with", "label")
)


def _before_serial(narration: Narration, words: Words, i: int, start: int) -> Designation | None:
    """Return the model right before "serial" without its own word: "a CU nine hundred, serial ..."."""
    k = i
    while k > start and i - k < 7 and words.words[k - 1] in _TO_SERIAL:
        k -= 1
    if k in (start, i):
        return None
    made = _ending_at(narration, words, k, start, letters_first=True)
    if made is None or not made.text[0].isalpha() or len(made.text) > 14:
        return None
    return made


def _both(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Read "model and serial, R3SS and 6021D4"."""
    row = words.words
    for i in range(len(row) - 3):
        if row[i : i + 3] != ("model", "and", "serial"):
            continue
        k = i + 3
        while k < len(row) and row[k] in (",", ":", "are", "is", "number", "numbers", "it", "'s"):
            k += 1
        first = read_designation(narration, words.tokens[k]) if k < len(row) else None
        if first is None:
            continue
        k = words.word_of_token(first.end)
        while k < len(row) and row[k] in (",", "and", "serial", "then", "is"):
            k += 1
        second = read_designation(narration, words.tokens[k]) if k < len(row) else None
        target = _current(entries, i)
        if target is not None and second is not None and target.model is None and target.serial is None:
            target.model, target.serial = first.text, second.text


_CUES = word_set("number_taken_back")


def _corrected(narration: Narration, made: Designation) -> Designation:
    """Return what takes the place of a number just said ("... five five, no wait, five six")."""
    tokens = narration.tokens
    k = made.end
    cues = 0
    while k < len(tokens) and tokens[k].lower in _CUES and k - made.end < 6:
        cues += tokens[k].lower != ","
        k += 1
    if not cues or k >= len(tokens):
        return made
    again = read_designation(narration, k)
    return (
        again if again is not None and any(c.isdigit() for c in again.text) and len(again.text) >= 3 else made
    )


_BESIDE = word_set("beside_part_number")


def _of_a_new_part(words: Words, i: int, start: int, namings: list[int]) -> bool:
    """Tell whether the sentence has told of a part put in, and of no machine since.

    "New compressor's in, model ...".
    """
    row = words.words
    told = [t for t in things_of(words) if start <= t.start and t.end <= i and not t.modifier]
    if (
        told
        and told[0].name in _MACHINES_OF_THEIR_OWN
        and told[0].start - start <= 2
        and row[told[0].end : told[0].end + 1] in (("on",), ("in",), ("of",))
    ) and not any(start <= n < told[0].start for n in namings):
        return True  # "the compressor on the walk-in is model ..."
    if not told or any(told[-1].start < n <= i for n in namings):
        return False
    if any(w in ("unit", "machine", "its", "it's") for w in row[told[-1].end : i]):
        return False
    sentence = row[start:i]
    return any(
        w in ("new", "replacement", "replaced", "installed", "fitted", "swapped", "spare", "old")
        for w in sentence
    )


def _of_a_part(row: tuple[str, ...], i: int, start: int) -> bool:
    """Tell whether a number announced at word i belongs to a part ("the new one's model is ...")."""
    window = row[max(start, i - 6) : i]
    for k in range(len(window)):
        for p in _phrases("not_machine"):
            tail = window[k + len(p) :]
            # "K X four fifty, serial": a comma between means another thing, unless "its" leads back.
            apart = "," in tail[:-1] and "its" not in tail
            if window[k : k + len(p)] == p and not apart and all(w in _BESIDE for w in tail):
                return True
    return False


def _refrigerants(narration: Narration, words: Words, entries: list[tuple[int, Equipment]]) -> None:
    """Give each machine the first refrigerant that was named while it was the subject."""
    names = find_refrigerants(narration)
    rows = {
        words.sentence_of[n.start]: n.kind.type for n in _namings(words) if n.plural and _counted(words, n)
    }
    if not names or not entries:
        if names and not entries:
            own = [n for n in names if not n.others]
            if own:
                entries.append(
                    (
                        0,
                        Equipment(
                            refrigerant=own[0].name,
                            at=narration.at(own[0].start, own[0].end),
                            heard=narration.heard(own[0].start, own[0].end),
                        ),
                    )
                )
        return
    for name in names:
        i = words.word_of_token(name.start)
        if i >= len(words.words):
            continue
        start, _ = words.sentences[words.sentence_of[i]]
        before = words.words[max(start, i - 4) : i]
        behind = words.words[words.word_of_token(name.end) : words.word_of_token(name.end) + 8]
        if any(w in ("not", "instead", "old", "or", "isn't", "than") for w in before) and behind[:1] not in (
            ("system",),
            ("unit",),
            ("machine",),
        ):
            continue
        if any(w in before for w in ("all", "both", "each")) and words.sentence_of[i] in rows:
            # "Three PTACs, all 410A": it is every one's.
            for _, each in entries:
                if each.type == rows[words.sentence_of[i]] and each.refrigerant is None:
                    each.refrigerant = name.name
        if any(w in before for w in ("both", "all", "each")):
            # "Cold room and the freezer room, both R 449A".
            for k, each in entries:
                if start <= k < i and each.refrigerant is None:
                    each.refrigerant = name.name
        for _, each in entries:
            # "It's 404A too, same as the chiller".
            if (
                each.refrigerant is None
                and each.type
                and any(
                    behind[j : j + 3] == ("same", "as", "the")
                    and behind[j + 3 : j + 4] == (each.type.split()[-1],)
                    for j in range(len(behind))
                )
            ):
                each.refrigerant = name.name
        target = _current(entries, i) or entries[0][1]
        if target.refrigerant is None and not any(
            e.model and _inside(e.model, narration, name.start) for _, e in entries
        ):
            target.refrigerant = name.name
            if name.others:
                target.review.extend(r for r in name.reasons if r not in target.review)


def _inside(model: str, narration: Narration, start: int) -> bool:
    """Tell whether what sounds like a refrigerant is the end of a model ("model ICE dash four fifty A")."""
    made = read_designation(narration, start)
    dashed = narration.tokens[start - 1].lower in ("dash", "hyphen", "-") if start else False
    return dashed and made is not None and model.endswith(made.text)
