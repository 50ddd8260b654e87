"""What the words before a machine say: it comes next, nothing was done to it, or what it is for."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, phrases, words_ending_at
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import NUMBER_WORDS, Words
from dictate.vocabulary.load import word_set

LONGEST_LEAD = 8  # words between a machine and what is said of it
NEXT = frozenset(("last", "next", "then", "second", "third", "fourth", "finally", "lastly"))
STANDS = (("is",), ("'s",), ("was",), ("sits",), ("holds",), ("reads",), ("shows",), ("runs",), ("had",))
RACKS = frozenset(("rack", "CO2 rack"))
_GOES = frozenset(
    (
        "down",
        "up",
        "over",
        "off",
        "out",
        "across",
        "round",
        "then",
        "from",
        "went",
        "moved",
        "drove",
        "walked",
        "on",
    )
)
_FOR_A_BOX = (("for",), ("on",), ("of",), ("serving",), ("feeding",))
_SIDES = word_set("sides_of_a_rack", "machine_words")


def listed_together(words: Words, namings: list[Naming]) -> set[int]:
    """Return the first words of the machines of a list: "the chill room, the fish room and the counter".

    Three and more of different kinds in one of the first sentences, each named in so many words, with nothing
    between them but a comma or "and", an article, how it looks and what it is for, and "and" before the last.
    """
    row = words.words
    out: set[int] = set()
    run: list[Naming] = []
    for n in [*namings, None]:
        between = row[run[-1].end : n.start] if run and n is not None else ()
        joined = bool(between) and len(between) <= _BETWEEN_LISTED and {",", "and"} & set(between)
        plain = n is not None and not n.kind.weak and not n.kind.room and not n.plural
        if (
            n is not None
            and plain
            and joined
            and words.sentence_of[n.start] == words.sentence_of[run[-1].start]
            and not (_BREAKS_A_LIST & set(between))
        ):
            run.append(n)
            continue
        kinds = {m.kind.type for m in run}
        if len(run) > 2 and len(kinds) == len(run) and "and" in row[run[-2].end : run[-1].start]:
            start, _ = words.sentences[words.sentence_of[run[0].start]]
            i = run[0].start
            while i > start and row[i - 1] in DETERMINERS:
                i -= 1
            if words_ending_at(row, i, "place", start) <= words_ending_at(row, i, "introduces", start):
                out |= {m.start for m in run}
        run = [n] if n is not None and plain and words.sentence_of[n.start] < _FIRST_SENTENCES else []
    return out


_FIRST_SENTENCES = 3
_BETWEEN_LISTED = 8
_BREAKS_A_LIST = frozenset(
    ("next", "beside", "behind", "near", "not", "is", "was", "by", "no", "feeds", "from")
)


def is_a_side(row: tuple[str, ...], n: Naming) -> bool:
    """Tell whether "freezer" or "cooler" is only a side of a rack: "freezer suction is 12.8"."""
    return n.kind.type in ("freezer", "cooler") and n.end < len(row) and row[n.end] in _SIDES


def says_next(row: tuple[str, ...], start: int, i: int) -> bool:
    """Tell whether the sentence up to word i says that the next machine follows: "Second one's the ..."."""
    if row[start : start + 1] and row[start] in _GOES and "to" in row[start + 1 : start + 3]:
        # "Down to the kitchen for the blast chiller", "over to the bar for the froster"
        return row[i - 1] in ("for", "and") and i - start <= LONGEST_LEAD
    if not 0 < i - start <= LONGEST_LEAD or row[i - 1] not in ("is", "'s", "was"):
        return False
    k = start
    while k < i and row[k] in ("and", "then", "so", "okay", "ok", ",", "now", "the", "well", "right"):
        k += 1
    return k < i and (row[k] in NEXT or row[k] in ("first", "other", "final", "fifth"))


def stands_for_its_box(words: Words, n: Naming, i: int, out: list[Naming]) -> bool:
    """Tell whether a box is only what the condensing unit just named is for: one system, one machine."""
    row = words.words
    if not out or out[-1].kind.type != "condensing unit" or out[-1].plural or n.plural:
        return False
    start, _ = words.sentences[words.sentence_of[n.start]]
    if words.sentence_of[n.start] > 1 or out[-1].start < start or len({o.name for o in out}) > 1:
        return False
    if i - out[-1].end > LONGEST_LEAD:
        return False
    lead = row[out[-1].end : i]
    return lead[-1:] in _FOR_A_BOX or any(lead[-len(p) :] == p for p in phrases("serves"))


def one_that_runs(words: Words, n: Naming, rows: list[Naming]) -> Naming | None:
    """Return the condensing unit of several that a box is named for: "left one runs the beer cooler"."""
    row = words.words
    units = [r for r in rows if r.kind.type == "condensing unit" and r.start < n.start]
    if not units or n.plural:
        return None
    start, _ = words.sentences[words.sentence_of[n.start]]
    i = n.start
    while i > start and row[i - 1] in DETERMINERS:
        i -= 1
    length = words_ending_at(row, i, "serves", start)
    k = i - length - 1
    if not length or k <= start or row[k] not in ("one", "unit"):
        return None
    picked = row[k - 1]
    if picked not in word_set("selecting", "machine_words"):
        return None
    return Naming(n.start, n.end, units[-1].kind, f"{picked} condensing unit", False)


def only_talked_of(words: Words, n: Naming, out: list[Naming]) -> bool:
    """Tell whether a machine is only one that somebody wants looked at, or quoted, some other day."""
    row = words.words
    start, end = words.sentences[words.sentence_of[n.start]]
    if any(o.kind.type == n.kind.type for o in out) or {"model", "serial"} & set(row[start:end]):
        return False
    wanted = any(w in _WANTS for w in row[start : n.start])
    behind = row[n.end : end]
    seen_to = any(behind[k : k + len(p)] == p for p in _SEEN_TO for k in range(len(behind)))
    return (wanted and seen_to) or (seen_to and not _QUOTED.isdisjoint(behind))


_WANTS = frozenset(("wants", "want", "asked", "asks", "asking", "wanted", "likes", "like"))
_SEEN_TO = (
    ("looked", "at"),
    ("quoted",),
    ("priced",),
    ("checked",),
    ("serviced",),
    ("done", "too"),
    ("quote",),
)
_QUOTED = frozenset(("quote", "quoted", "estimate", "price"))


def left_alone(lead: tuple[str, ...]) -> bool:
    """Tell whether the words before a machine say that nothing was done to it: "I didn't get to"."""
    return lead[-1:] != (",",) and any(lead[-len(p) :] == p for p in phrases("left_alone"))


def chosen_of_several(lead: tuple[str, ...]) -> bool:
    """Tell whether the words before a machine pick it: "the ticket is for", "call was about"."""
    return (
        lead[0] in word_set("picks_one", "machine_words")
        and lead[1] in ("is", "was", "'s")
        and lead[2] in ("for", "on", "about", "with", "in")
    )


def with_a_plate(words: Words, n: Naming) -> bool:
    """Tell whether a model or serial number follows in the sentence of a naming."""
    _, end = words.sentences[words.sentence_of[n.start]]
    return bool({"model", "serial"} & set(words.words[n.end : end]))


_OF_ITS_OWN = frozenset(("suction", "discharge", "head", "oil", ","))
_NEXT_WORDS = 60


def works_of_its_own(words: Words, n: Naming, at_head: bool) -> bool:
    """Tell whether a sentence turns to a rack: "Pack suction two point seven. Compressor one fourteen amps".

    What its compressors or its oil do is told behind it; a suction pressure alone is only what the case gets.
    """
    row = words.words
    if at_head and row[n.end : n.end + 1] in (("first",), ("next",), ("now",)):
        return True  # "Rack first so I know it's steady"
    if not at_head or row[n.end : n.end + 1] == () or row[n.end] not in _OF_ITS_OWN:
        return False
    behind = row[n.end : n.end + _NEXT_WORDS]
    return bool({"compressor", "compressors", "oil", "comp", "comps"} & set(behind))


def listed_by_its_warmth(words: Words, n: Naming, out: list[Naming]) -> bool:
    """Tell whether a case is one of a list that only says how warm the cases of a rack are."""
    row = words.words
    if n.kind.type not in ("display case", "case") or not any(o.kind.type in RACKS for o in out):
        return False
    _, end = words.sentences[words.sentence_of[n.start]]
    products = {p[-1] for p in phrases("products")}
    if not says_a_value(row, n.end):
        return False
    return any(row[k] in products and says_a_value(row, k + 1) for k in range(n.end + 2, end - 1))


def cooled_by_one(words: Words, n: Naming, namings: list[Naming], out: list[Naming]) -> bool:
    """Tell whether a box is only said to be so warm, where the one machine is what cools it.

    "Condensing unit at the farm ... Milk tank at 38 degrees": wherever it is named only its warmth is told.
    """
    if len({(o.kind.type, o.name) for o in out}) != 1 or out[0].kind.type not in _COOLS:
        return False
    apart = words.sentence_of[n.start] - words.sentence_of[out[0].start]
    if n.kind.type not in _COOLED or apart < (_LATER if out[0].kind.type in RACKS else 1):
        return False
    return all(says_a_value(words.words, o.end) for o in namings if o.kind.type == n.kind.type)


_COOLS = RACKS | {"condensing unit"}
_COOLED = frozenset(
    (
        "display case",
        "case",
        "milk tank",
        "milk vat",
        "walk-in cooler",
        "walk-in freezer",
        "cooler",
        "freezer",
    )
)
_LATER = 2


def the_same_tank(n: Naming, out: list[Naming]) -> Naming | None:
    """Return the farm's one tank where a vat is called a tank too, or its plate cooler is named."""
    if n.kind.type not in _FARM_TANKS or n.number:
        return None
    tank = next((o for o in out if o.kind.type in _FARM_TANKS - {n.kind.type}), None)
    return tank and Naming(n.start, n.end, tank.kind, tank.name, False, short=True)


_FARM_TANKS = frozenset(("milk tank", "milk vat"))


def says_a_value(row: tuple[str, ...], k: int) -> bool:
    """Tell whether a number stands right behind word k, or behind "is", "at" and their like."""
    while row[k : k + 1] in (*STANDS, ("at",), ("minus",)):
        k += 1
    return bool(row[k : k + 1]) and (row[k] in NUMBER_WORDS or row[k][:1].isdigit())


def only_near(words: Words, n: Naming) -> bool:
    """Tell whether the words behind a machine say that it only stands near."""
    row = words.words
    _, end = words.sentences[words.sentence_of[n.start]]
    if {"model", "serial"} & set(row[n.end : end]):
        return False  # "the upright freezer next to it is 404A, serial 20-1176"
    return any(row[k : k + len(p)] == p for p in phrases("near_by") for k in (n.end, n.last))


def shortened(words: Words, n: Naming, out: list[Naming]) -> Naming | None:
    """Return the one machine of another kind whose name begins, or ends, with the words of this naming."""
    if any(o.kind.type == n.kind.type for o in out):
        return None
    said = words.words[n.start : n.end]
    longer = {
        id(o.kind): o
        for o in out
        if o.end - o.start > len(said)
        and said in (words.words[o.start : o.start + len(said)], words.words[o.end - len(said) : o.end])
    }
    if not longer and said in (("ice", "maker"), ("ice", "machine")):
        start, _ = words.sentences[words.sentence_of[n.start]]
        if _ANEW.isdisjoint(words.words[start : n.start]):
            longer = {id(o.kind): o for o in out if o.kind.type in ("ice flaker", "nugget ice machine")}
    return next(iter(longer.values())) if len(longer) == 1 else None


_ANEW = frozenset(("next", "then", "second", "also", "another", "other", "last", "and"))
