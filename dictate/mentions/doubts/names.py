"""Does a number name or count something, or is it a time of day or a piece of something longer."""

from __future__ import annotations

from collections.abc import Callable

from dictate.mentions.doubts.day_times import (
    hour_and_minutes,
    hour_before_minutes,
    minutes_behind_hour,
    shaped_like_time,
    working_hours,
)
from dictate.mentions.doubts.evidence import evidence
from dictate.mentions.doubts.number_around import NumberAround, number_around, winding_told
from dictate.mentions.doubts.number_pieces import (
    behind_a_letter,
    behind_doubted_number,
    broken_off,
    parted,
    short_for_refrigerant,
    with_refrigerant,
)
from dictate.mentions.doubts.talk import CUTS, ELECTRIC, Case, linking, word_set


def name_or_count(c: Case) -> str | None:
    """Doubt a number that can be a name, a count, a time of day, or a piece of a longer number."""
    x = number_around(c)
    if x is None or (c.value is not None and (c.value.below or c.value.above)):
        return None  # "eleven above" is counted from zero, and is no name
    for look in _LOOKS_AT_BARE if c.bare else _LOOKS_AT_SAID:
        why = look(x)
        if why is not None:
            return why
    return None


def _first_of_several(x: NumberAround) -> str | None:
    """Doubt "one to two", "2-3": legs, or the first of several."""
    number, end = x.number, x.number.end
    low = x.c.bare and x.small and number.value <= 3 and x.behind in {"to", "-"} and end + 1 < x.c.high
    if low and x.words[end + 1] in word_set("legs"):
        return "the number can be the name of a leg or the first of several"
    return None


def _stands_for_thing(x: NumberAround) -> str | None:
    """Doubt "one" where it can be the thing that is spoken of."""
    number = x.number
    if x.before in {"between", "minus", "about", "at"} or number.end - number.start != 1:
        return None
    one = number.value == 1 and not number.written and x.before in word_set("one_for")
    return '"one" may stand for the thing and be no number' if number.pronoun or one else None


def _tells_which(x: NumberAround) -> str | None:
    """Doubt "fan 2 ...", "circuit one": the number may be the name of the thing before it."""
    value, before, quantity = x.number.value, x.before, x.reading.quantity
    numbered = before in word_set("numbered") or x.words[x.c.start - 2 : x.c.start] == ["number", "'s"]
    goes_on = x.behind not in CUTS and x.behind not in {"now", "degrees", "on", "and"}
    if x.small and value >= 1 and numbered and (goes_on or (quantity in ELECTRIC and value <= 9)):
        return f"the number may tell which {before} it was"
    apart = before in word_set("told_apart") and x.behind in CUTS and quantity == "temperature"
    if x.small and 0 < value <= 12 and apart:
        return f"the number may tell which {before} it was"
    return None


def _tells_which_box(x: NumberAround) -> str | None:
    """Doubt "to freezer 2"."""
    if (
        x.small
        and x.before in {"freezer", "cooler", "fridge"}
        and x.words[x.c.start - 2] in {"to", "from", "in", "behind", "beside"}
    ):
        return f"the number may tell which {x.before} it was"
    return None


def _amps_of_nothing(x: NumberAround) -> str | None:
    """Doubt amps where no word of amps stands, and small whole ones that may be a count."""
    r, c = x.reading, x.c
    if r.quantity != "current" or not x.whole:
        return None
    near = set(c.before(7)) | set(c.after(4))
    amps = bool(near & word_set("amps")) or "legs" in near or (r.point or "").startswith("L")
    if r.component is None and not amps:
        return "nothing says that these are amps, and of what"
    row = c.previous if c.previous is not None and c.previous.reading.quantity == r.quantity else None
    tenths = row is not None and row.reading.unit == r.unit and (row.reading.value or 0) % 1 > 0
    exact = x.behind in {"flat", "even"} or (tenths and row is not None and c.start - row.end <= 2)
    drawing = bool(near & (word_set("amps") | word_set("drawing")))
    if x.small and x.number.value <= 12 and not exact and not drawing:
        return "a small whole number with no word of amps near it may be a count or a name"
    return None


def _few_volts_or_ohms(x: NumberAround) -> str | None:
    """Doubt a few volts or ohms without their word and outside a list."""
    quantity, before = x.reading.quantity, x.c.previous
    listed = (
        before is not None and before.reading.quantity == quantity and x.c.start - before.end <= 2
    )  # fmt: skip
    if (
        quantity in {"voltage", "resistance"}
        and x.reading.retracts is None
        and x.small
        and not listed
        and x.number.value <= 6
        and x.before not in linking()
        and x.behind not in {"even", "flat"}
        and not winding_told(x)
        and not {"ohms", "ohm", "volts", "volt"} & set(x.c.before(8))
    ):
        return "a small whole number here may be a count or a name"
    return None


def _counts_what_follows(x: NumberAround) -> str | None:
    if x.follower is not None or x.words[x.number.end : x.number.end + 3] == ["half", "an", "hour"]:
        return None  # "still one fifty | twenty minutes later": a number counts no number
    if x.whole and x.behind.isalpha() and not _may_follow(x.c, x.number.end, x.behind):
        return f"the number may count or describe what follows, {x.behind!r}"
    return None


def _behind_number_and_word(x: NumberAround) -> str | None:
    """Doubt the second number of "two of three", "70 at 9", "10 past 2"."""
    c, before = x.c, x.before
    leader = c.talk.number_at.get(c.start - 2) if before in {"at", "of", "after", "past"} else None
    if leader is None or leader.start < c.low:
        return None
    if before == "of" and x.small:
        return "some of several are spoken of, so the number may be a count"
    last = c.previous
    like = last is not None and last.reading.quantity == x.reading.quantity
    if before == "at" and last is not None and like and last.end >= c.start - 2:
        return "may be when or where, not a second value"
    if before in {"after", "past"} and x.whole and x.number.value <= 12:
        return "the number can be a time of day"
    return None


def _in_the_number_of_a_place(x: NumberAround) -> str | None:
    """Doubt the end of "room 2 12"."""
    lead, low = x.lead, x.c.low
    if lead is None or not x.whole or evidence(x.c)[0] <= 2:
        return None
    name = x.words[lead.start - 1] if lead.start > low else ""
    if name in word_set("places") and not lead.places and lead.value <= 99:
        return f"may be part of the number of the {name}"
    return None


def _may_follow(c: Case, at: int, word: str) -> bool:
    """Tell whether a word right behind a bare number says nothing against its being a reading."""
    if word in word_set("follow") or word in word_set("reads") or "'" in word:
        return True
    if word.endswith(("ing", "ly")):
        return True
    talk = c.talk
    far = abs(c.reading.value or 0) > 12
    if far and talk.components_from(at, at + 2):
        return True
    if talk.labels_from(at, at + 1) or talk.points_from(at, at + 1):
        return True
    return c.reading.quantity in ELECTRIC and bool(talk.components_from(at, at + 1))


Look = Callable[[NumberAround], "str | None"]

_OF_ANY: tuple[Look, ...] = (shaped_like_time, _first_of_several, _stands_for_thing)
_OF_BARE: tuple[Look, ...] = (
    _tells_which,
    short_for_refrigerant,
    behind_a_letter,
    _tells_which_box,
    _amps_of_nothing,
    _few_volts_or_ohms,
    _counts_what_follows,
    hour_before_minutes,
    _behind_number_and_word,
    behind_doubted_number,
    _in_the_number_of_a_place,
    broken_off,
    parted,
    minutes_behind_hour,
    working_hours,
    hour_and_minutes,
)
_LOOKS_AT_BARE: tuple[Look, ...] = (*_OF_ANY, *_OF_BARE)
_LOOKS_AT_SAID: tuple[Look, ...] = (*_OF_ANY, with_refrigerant)
"""The looks at a number without and with a unit, in order: the first reason found is the one given."""
