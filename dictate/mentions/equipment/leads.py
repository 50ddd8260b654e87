"""What the words before a machine say: it comes next, nothing was done to it, or what it is for."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import DETERMINERS, phrases, words_ending_at
from dictate.mentions.equipment.namings import Naming
from dictate.mentions.patterns import Words
from dictate.vocabulary.load import word_set

LONGEST_LEAD = 8  # words between a machine and what is said of it
NEXT = frozenset(("last", "next", "then", "second", "third", "fourth", "finally", "lastly"))
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
