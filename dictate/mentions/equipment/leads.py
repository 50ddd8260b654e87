"""What the words before a machine say: it comes next, nothing was done to it, or what it is for."""

from __future__ import annotations

from dictate.mentions.equipment.machine_words import phrases
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
