"""Is a number a piece of something longer: of another number, of a model or of the name of a refrigerant."""

from __future__ import annotations

import re
from functools import cache

from dictate.mentions.doubts.number_around import NumberAround, winding_told
from dictate.mentions.doubts.talk import ELECTRIC
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table

_BROKEN = re.compile(r"\d\.[A-Za-z]")


def with_refrigerant(x: NumberAround) -> str | None:
    """Doubt amps right behind "R22": "A" may be the end of the refrigerant's name."""
    before = x.words[x.c.start - 1] if x.c.start else ""
    amps = x.reading.quantity == "current" and x.whole
    if amps and before.startswith("r") and before[1:].isdigit():
        return "may be a piece of a refrigerant's name"
    return None


def short_for_refrigerant(x: NumberAround) -> str | None:
    """Doubt "on 134", "of 404"."""
    named = x.whole and x.before in {"on", "of", "with"} and x.number.value in _names_in_digits()
    if named and x.c.after(1)[:1] != ["degrees"]:
        return "may be the refrigerant and not a value"
    return None


def behind_a_letter(x: NumberAround) -> str | None:
    """Doubt a number behind a letter that names no leg and is no word."""
    letter = len(x.before) == 1 and x.before.isalpha() and x.before not in {"a", "b", "c", "i", "l", "t"}
    if x.whole and letter and not (x.reading.point or "").startswith("L") and not winding_told(x):
        return "may be a piece of a model or serial number"
    return None


def behind_doubted_number(x: NumberAround) -> str | None:
    """Doubt a number right behind another one whose own reading is in doubt."""
    before, lead = x.c.previous, x.lead
    if lead is None or before is None or before.end < x.c.start or not before.reading.review:
        return None
    if x.whole and lead.value <= 24 and not lead.places and before.reading.quantity not in ELECTRIC:
        return "stands right behind a number that is in doubt"
    return None


def broken_off(x: NumberAround) -> str | None:
    """Doubt a number that is written oddly or has nothing behind its point."""
    first = x.c.talk.tokens[x.number.start]
    if _BROKEN.search(x.c.talk.n.segments[first.segment].words[first.word].text):
        return "the number is written oddly"
    if x.words[x.number.end : x.number.end + 1] == ["point"]:
        return "the number breaks off behind its point"
    return None


def parted(x: NumberAround) -> str | None:
    """Doubt two numbers in a row that may be one: "4 5", "twelve .5"; the one goes to the candidates."""
    number, lead, follower = x.number, x.lead, x.follower
    for a, b in ((number, follower), (lead, number)):
        if a is None or b is None or a.end != b.start or not (a.form == b.form == "plain"):
            continue
        if a.written and b.written and 0 <= a.value <= 9 and 0 <= b.value <= 9 and not a.places + b.places:
            return "single digits one after the other may be one number"
    tokens = x.c.talk.tokens
    if follower is not None and follower.written and tokens[number.end].text.startswith(".") and x.whole:
        other, heard = number.value + follower.value, f"{number.value:g} {follower.value:g}"
        one = Candidate(value=other, unit=x.reading.unit, heard=heard, why="one number")
        x.reading.candidates.append(one)
        return f"may be the one number {other:g}"
    pointed = number.written and tokens[number.start].text.startswith(".")
    if pointed and lead is not None and not lead.places:
        return "may be the end of the number before it"
    return None


@cache
def _names_in_digits() -> frozenset[float]:
    """Return the numbers that are short for refrigerants: "on 134"."""
    return frozenset(float(m.group(1)) for n in table("refrigerant_data") if (m := re.match(r"R-(\d+)", n)))
