"""Is a number a time of day."""

from __future__ import annotations

from dictate.mentions.doubts.evidence import evidence, goes_on
from dictate.mentions.doubts.number_around import NumberAround
from dictate.mentions.doubts.talk import Talk, word_set
from dictate.mentions.spoken_numbers import Number

_CAN_BE = "the number can be a time of day"
_TWO = "two numbers in a row here can be a time of day"


def shaped_like_time(x: NumberAround) -> str | None:
    """Doubt a number that is said or written like a time of day."""
    c = x.c
    if c.value is not None and c.value.clock and c.bare and not goes_on(c) and evidence(c)[0] > 3:
        return _CAN_BE
    if x.number.form == "clock" and x.reading.quantity != "duration":
        return "the number is written like a time of day"
    return None


def hour_before_minutes(x: NumberAround) -> str | None:
    """Doubt an hour with minutes behind it: "at nine forty"."""
    return _TWO if x.follower is not None and _pair(x.c.talk, x.number, x.follower, x.c.low) else None


def minutes_behind_hour(x: NumberAround) -> str | None:
    """Doubt minutes behind an hour."""
    return _TWO if x.lead is not None and _pair(x.c.talk, x.lead, x.number, x.c.low) else None


def working_hours(x: NumberAround) -> str | None:
    """Doubt a small number where lunch, travel or labor is spoken of."""
    spoken = {"lunch", "travel", "labor", "labour"} & set(x.words[x.c.low : x.c.high])
    if x.whole and 0 <= x.number.value <= 24 and spoken:
        return "working hours are spoken of, so the number can be a time of day"
    return None


def hour_and_minutes(x: NumberAround) -> str | None:
    """Doubt "at nine forty" said as one number where a coming or going is told, and "until nine forty"."""
    value = x.number.value
    if not (x.whole and 100 <= value <= 1259 and value % 100 < 60):
        return None
    told = x.number.form == "pair" and x.before == "at" and word_set("comings") & set(x.c.before(4))
    return _CAN_BE if told or {"after", "until", "till", "since"} & set(x.c.before(2)) else None


def _pair(talk: Talk, a: Number, b: Number, low: int) -> bool:
    if a.end != b.start or not (a.value.is_integer() and b.value.is_integer()):
        return False
    if not (1 <= a.value <= 24 and 0 <= b.value < 60):
        return False
    return bool(word_set("clock_before") & set(talk.words[max(low, a.start - 3) : a.start]))
