"""Is it a name, a count or a time of day, or a piece of a longer number."""

from __future__ import annotations

import re
from functools import cache

from dictate.mentions.doubts.evidence import evidence, goes_on
from dictate.mentions.doubts.talk import CUTS, ELECTRIC, Case, Talk, linking, word_set
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table

_AMPS = frozenset(("amps", "amp", "amperage", "current", "currents", "l1", "l2", "l3", "leg"))
_DRAWING = frozenset(("pulling", "pulls", "pulled", "draws", "drawing", "drew", "draw", "drops", "settled"))
_BROKEN = re.compile(r"\d\.[A-Za-z]")


def _near(c: Case) -> set[str]:
    """Return the words close around a value."""
    return set(c.before(7)) | set(c.after(4))


def name_or_count(c: Case) -> str | None:
    """Doubt a number that can be a name, a count, a time of day, or a piece of a longer number."""
    r, number = c.reading, c.number
    if number is None or r.value is None:
        return None
    words = c.talk.words
    whole = float(number.value).is_integer() and not number.places
    if c.value is not None and c.value.clock and c.bare and not goes_on(c) and evidence(c)[0] > 3:
        return "the number can be a time of day"
    if number.form == "clock" and r.quantity != "duration":
        return "the number is written like a time of day"
    small = whole and 0 < abs(number.value) <= 20
    before = words[c.start - 1] if c.start > c.low else ""
    nxt = words[number.end] if number.end < c.high else "."
    if (
        c.bare
        and small
        and number.value <= 3
        and nxt in {"to", "-"}
        and number.end + 1 < c.high
        and words[number.end + 1] in {"one", "two", "three", "1", "2", "3", "four", "4"}
    ):
        return "the number can be the name of a leg or the first of several"
    if before in {"between", "minus", "about", "at"}:
        pass
    elif (
        number.pronoun or (number.value == 1 and not number.written and before in word_set("one_for"))
    ) and number.end - number.start == 1:
        return '"one" may stand for the thing and be no number'
    if not c.bare:
        if (
            r.quantity == "current"
            and whole
            and c.start
            and words[c.start - 1].startswith("r")
            and words[c.start - 1][1:].isdigit()
        ):
            return "may be a piece of a refrigerant's name"
        return None
    if (
        small
        and number.value >= 1
        and (before in word_set("numbered") or words[c.start - 2 : c.start] in (["number", "'s"],))
    ) and (
        (nxt not in CUTS and nxt not in {"now", "degrees", "on", "and"})
        or (r.quantity in ELECTRIC and number.value <= 9)
    ):
        return f"the number may tell which {before} it was"
    if (
        small
        and number.value > 0
        and before in word_set("told_apart")
        and nxt in CUTS
        and number.value <= 12
        and r.quantity == "temperature"
    ):
        return f"the number may tell which {before} it was"
    if (
        whole
        and before in {"on", "of", "with"}
        and number.value in _names_in_digits()
        and c.after(1)[:1] != ["degrees"]
    ):
        return "may be the refrigerant and not a value"
    if (
        whole
        and len(before) == 1
        and before.isalpha()
        and before not in {"a", "b", "c", "i", "l", "t"}
        and not (r.point or "").startswith("L")
    ):
        return "may be a piece of a model or serial number"
    if (
        small
        and before in {"freezer", "cooler", "fridge"}
        and words[c.start - 2] in {"to", "from", "in", "behind", "beside"}
    ):
        return f"the number may tell which {before} it was"
    amps = bool(_near(c) & (_AMPS | {"legs"})) or (r.point or "").startswith("L")
    if r.quantity == "current" and whole and r.component is None and not amps:
        return "nothing says that these are amps, and of what"
    row = c.previous if c.previous is not None and c.previous.reading.quantity == r.quantity else None
    tenths = row is not None and row.reading.unit == r.unit and (row.reading.value or 0) % 1 > 0
    exact = nxt in {"flat", "even"} or (tenths and row is not None and c.start - row.end <= 2)
    drawing = bool(_near(c) & (_AMPS | _DRAWING))
    if r.quantity == "current" and small and number.value <= 12 and not exact and not drawing:
        return "a small whole number with no word of amps near it may be a count or a name"
    listed = (
        c.previous is not None and c.previous.reading.quantity == r.quantity and c.start - c.previous.end <= 2
    )
    if (
        r.quantity in {"voltage", "resistance"}
        and small
        and not listed
        and number.value <= 6
        and before not in linking()
        and not {"ohms", "ohm", "volts", "volt"} & set(c.before(8))
    ):
        return "a small whole number here may be a count or a name"
    if whole and nxt.isalpha() and not _may_follow(c, number.end, nxt):
        return f"the number may count or describe what follows, {nxt!r}"
    if c.talk.number_at.get(number.end) is not None and _clock_pair(c, number):
        return "two numbers in a row here can be a time of day"
    lead = c.talk.number_at.get(c.start - 1)
    first = c.talk.tokens[number.start]
    if before in {"at", "of", "after", "past"}:
        leader = c.talk.number_at.get(c.start - 2)
        if leader is not None and leader.start >= c.low:
            if before == "of" and small:
                return "some of several are spoken of, so the number may be a count"
            if (
                before == "at"
                and c.previous is not None
                and c.previous.end >= c.start - 2
                and c.previous.reading.quantity == r.quantity
            ):
                return "may be when or where, not a second value"
            if before in {"after", "past"} and whole and number.value <= 12:
                return "the number can be a time of day"
    if (
        (
            lead is not None
            and c.previous is not None
            and c.previous.end >= c.start
            and c.previous.reading.review
            and lead.value <= 24
        )
        and whole
        and not lead.places
        and c.previous.reading.quantity not in ELECTRIC
    ):
        return "stands right behind a number that is in doubt"
    if lead is not None and whole and evidence(c)[0] > 2:
        name = words[lead.start - 1] if lead.start > c.low else ""
        if name in word_set("places") and not lead.places and lead.value <= 99:
            return f"may be part of the number of the {name}"
    if _BROKEN.search(c.talk.n.segments[first.segment].words[first.word].text):
        return "the number is written oddly"
    if words[number.end : number.end + 1] == ["point"]:
        return "the number breaks off behind its point"
    follower = c.talk.number_at.get(number.end)
    for a, b in ((number, follower), (lead, number)):
        if a is None or b is None or a.end != b.start or not (a.form == b.form == "plain"):
            continue
        if a.written and b.written and 0 <= a.value <= 9 and 0 <= b.value <= 9 and not a.places + b.places:
            return "single digits one after the other may be one number"
    if follower is not None and follower.written and c.talk.tokens[number.end].text.startswith(".") and whole:
        other = number.value + follower.value
        r.candidates.append(
            Candidate(
                value=other, unit=r.unit, heard=f"{number.value:g} {follower.value:g}", why="one number"
            )
        )
        return f"may be the one number {other:g}"
    if number.written and first.text.startswith(".") and lead is not None and not lead.places:
        return "may be the end of the number before it"
    previous = c.talk.number_at.get(c.start - 1)
    if previous is not None and _clock_pair_of(c.talk, previous, number, c.low):
        return "two numbers in a row here can be a time of day"
    if (
        whole
        and 0 <= number.value <= 24
        and {"lunch", "travel", "labor", "labour"} & set(words[c.low : c.high])
    ):
        return "working hours are spoken of, so the number can be a time of day"
    timed = whole and 100 <= number.value <= 1259 and number.value % 100 < 60
    if (
        timed
        and number.form == "pair"
        and before == "at"
        and {"on", "off", "started", "called", "left", "in", "out", "there", "here", "done", "gone"}
        & set(c.before(4))
    ):
        return "the number can be a time of day"
    if timed and {"after", "until", "till", "since"} & set(c.before(2)):
        return "the number can be a time of day"
    return None


@cache
def _names_in_digits() -> frozenset[float]:
    """Return the numbers that are short for refrigerants: "on 134"."""
    return frozenset(float(m.group(1)) for n in table("refrigerant_data") if (m := re.match(r"R-(\d+)", n)))


def _clock_pair(c: Case, number: Number) -> bool:
    following = c.talk.number_at[number.end]
    return _clock_pair_of(c.talk, number, following, c.low)


def _clock_pair_of(talk: Talk, a: Number, b: Number, low: int) -> bool:
    if a.end != b.start or not (a.value.is_integer() and b.value.is_integer()):
        return False
    if not (1 <= a.value <= 24 and 0 <= b.value < 60):
        return False
    return bool(word_set("clock_before") & set(talk.words[max(low, a.start - 3) : a.start]))


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
