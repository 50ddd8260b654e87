"""A time of day that begins at a word, whatever it is the time of."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.vocabulary.load import table, word_set

HOURS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
_MINUTES = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18,
    "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "five": 5,
}  # fmt: skip
_TEENS = {w: n for w, n in _MINUTES.items() if 13 <= n <= 19}
_TENS = frozenset((*_MINUTES, "sixty", "seventy", "eighty", "ninety", "hundred", "point"))
_UNITS = {w: n for w, n in HOURS.items() if n <= 9}
_CLOCK_CUES = word_set("before_dotted", "labour")
_COLON = re.compile(r"(\d{1,2}):(\d{2})")
_MILITARY = re.compile(r"(?:0\d|1\d|2[0-3])[0-5]\d")
_RUN_TOGETHER = re.compile(r"[1-9][0-5]\d|1[0-2][0-5]\d")
_HOUR = re.compile(r"\d{1,2}")
_MINUTE = re.compile(r"[0-5]\d")
_DOTTED = re.compile(r"(\d{1,2})\.([0-5]\d)")
_PERSONS = frozenset(("i", "we", "i'm", "here", "there", "site", "arrived", "left", "finished", "done"))


@cache
def labour_phrases(name: str) -> frozenset[tuple[str, ...]]:
    """Return a list of phrases of labour.toml, each as its words."""
    data: dict[str, Any] = table("labour")
    return frozenset(tuple(p.split()) for p in data[name])


@cache
def phrases_by_first(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Return a list's phrases by their first word, the longest first: a word looks at a few of them only."""
    out: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in sorted(labour_phrases(name), key=len, reverse=True):
        out[phrase[0]] = (*out.get(phrase[0], ()), phrase)
    return out


def phrase_length(row: tuple[str, ...], i: int, name: str) -> int:
    """Return how many words of the longest phrase of a list begin at word i, 0 when none does."""
    for phrase in phrases_by_first(name).get(row[i], ()) if i < len(row) else ():
        if row[i : i + len(phrase)] == phrase:
            return len(phrase)
    return 0


@dataclass(slots=True)
class Clock:
    """A time of day said at the words [start, end)."""

    start: int
    end: int
    hour: int
    minute: int
    exact: bool  # the half of the day is known
    bare: bool  # an hour alone
    kind: str | None = None
    cued: bool = False  # told by its partner, whoever is spoken of
    doubt: str = ""  # why it may be something else

    @property
    def minutes(self) -> int:
        """Minutes since midnight."""
        return self.hour * 60 + self.minute


def hour_at(row: tuple[str, ...], i: int) -> tuple[int, int] | None:
    """Return (value, words) of an hour at word i."""
    if i >= len(row):
        return None
    word = row[i]
    if word in HOURS:
        return HOURS[word], 1
    if word in _TEENS:
        return _TEENS[word], 1
    if word in ("twenty",):
        if i + 1 < len(row) and row[i + 1] in ("one", "two", "three"):
            return 20 + _UNITS[row[i + 1]], 2
        return None
    if _HOUR.fullmatch(word):
        return int(word), 1
    return None


def minute_at(row: tuple[str, ...], i: int) -> tuple[int, int] | None:
    """Return (value, words) of minutes at word i: two digits, as said after an hour."""
    if i >= len(row):
        return None
    word = row[i]
    if word in ("oh", "o", "zero"):
        if i + 1 < len(row) and row[i + 1] in _UNITS:
            return _UNITS[row[i + 1]], 2
        return None
    if _MINUTE.fullmatch(word):
        return int(word), 1
    if word == "hundred":
        return 0, 1
    if word in _MINUTES and word != "five":
        value = _MINUTES[word]
        if value >= 20 and i + 1 < len(row) and row[i + 1] in _UNITS:
            return value + _UNITS[row[i + 1]], 2
        return value, 1
    return None


def _dotted(row: tuple[str, ...], i: int) -> re.Match[str] | None:
    """Read "9.15" as a clock time: only behind a word for working time, for it is mostly a plain number."""
    match = _DOTTED.fullmatch(row[i])
    if match is None:
        return None
    near = row[max(0, i - 4) : i]
    if (
        i > 2
        and row[i - 1] in ("to", "till", "until")
        and near[-2:-1]
        and near[-2] in ("am", "pm", "a.m", "p.m")
    ):
        return match  # "one pm to 4.15"
    if _in_and_out(row, i):
        return match
    opens = i == 0 or row[i - 1] in (".", "?", "!")
    spans = row[i + 1 : i + 2] in (("to",), ("till",), ("until",), ("-",))
    if any(phrase_length(row, i + 1, name) for name in ("named_start", "named_end")):
        return match  # "Monday, 6.40 on site"
    early = not 5 <= int(match.group(1)) < 24
    if early and not any(w in _PERSONS or re.fullmatch(r"(?:[5-9]|1\d)(?:\.[0-5]\d)?", w) for w in near):
        return None  # "from 0.22 to 0.31"
    return match if (any(w in near for w in _CLOCK_CUES) or (opens and spans)) else None


def _in_and_out(row: tuple[str, ...], i: int) -> bool:
    """Tell whether "1.20" and "3.50" are all that a sentence tells: "In at 1.20, out 3.50."."""
    first = i
    while first and row[first - 1] not in (".", "!", "?"):
        first -= 1
    last = next((k for k in range(i, len(row)) if row[k] in (".", "!", "?")), len(row))
    said = [w for w in row[first:last] if w not in ("at", ",", "and")]
    return [w for w in said if not _DOTTED.fullmatch(w)] == ["in", "out"] and len(said) == _TWO_TIMES


_TWO_TIMES = 4
"""Words of "in", "out" and their two times."""

_BEGINS = frozenset(
    (
        *HOURS,
        *_TEENS,
        "twenty",
        "oh",
        "zero",
        "noon",
        "midday",
        "midnight",
        "half",
        *word_set("minute_openers"),
    )
)


def may_begin(word: str) -> bool:
    """Tell whether a time of day can begin with a word: most words of a narration begin none."""
    return word in _BEGINS or word[:1].isdigit()


def _with_oh(row: tuple[str, ...], i: int) -> Clock | None:
    """Read "oh eight twenty" and "oh seven hundred": of the morning, and never inside a longer number."""
    hour = _UNITS.get(row[i + 1]) if i + 1 < len(row) else None
    minute = minute_at(row, i + 2)
    if hour is None or minute is None or (i and (row[i - 1] in _UNITS or row[i - 1][:1].isdigit())):
        return None
    if i and row[i - 1] in _TENS:
        return None
    return Clock(i, i + 2 + minute[1], hour, minute[0], True, False)


def clock_at(row: tuple[str, ...], i: int) -> Clock | None:
    """Read a clock time that starts at word i."""
    word = row[i]
    if word in ("oh", "zero"):
        return _with_oh(row, i)
    digits = word[:1].isdigit()
    match = (_COLON.fullmatch(word) or _dotted(row, i)) if digits else None
    made: Clock | None = None
    if match and int(match.group(1)) < 24 and int(match.group(2)) < 60:
        made = Clock(i, i + 1, int(match.group(1)), int(match.group(2)), False, False)
    elif digits and _MILITARY.fullmatch(word) and (word[0] == "0" or int(word[:2]) > 12):
        made = Clock(i, i + 1, int(word[:2]), int(word[2:]), True, False)
    elif digits and _RUN_TOGETHER.fullmatch(word) and int(word[-2:]) % 5 == 0:
        made = Clock(i, i + 1, int(word[:-2]), int(word[-2:]), False, False)
    elif word in ("noon", "midday"):
        return Clock(i, i + 1, 12, 0, True, False)
    elif word == "midnight":
        return Clock(i, i + 1, 0, 0, True, False)
    elif word == "half" and (hour := hour_at(row, i + 1)) is not None and 1 <= hour[0] <= 12:
        made = Clock(i, i + 1 + hour[1], hour[0], 30, False, False)
    elif word in word_set("minute_openers"):
        k = i + 1 if word == "a" and i + 1 < len(row) and row[i + 1] in ("quarter",) else i
        lead = row[k]
        if row[k : k + 2] == ("twenty", "five") and row[k + 2 : k + 3] in (("past",), ("after",)):
            k, lead = k + 1, "25"  # "twenty five past eight"
        n = {
            "20": 20,
            "10": 10,
            "5": 5,
            "25": 25,
            "quarter": 15,
            "fifteen": 15,
            "15": 15,
            "half": 30,
            "twenty": 20,
            "ten": 10,
            "five": 5,
            "forty": 40,
            "40": 40,
        }.get(lead)
        if row[k + 1 : k + 2] == ("minutes",) and n is not None and k + 3 < len(row):
            k += 1  # "five minutes past nine"
        if (
            n is not None
            and k + 2 < len(row)
            and row[k + 1] in ("to", "tae", "past", "after", "til", "till", "of", "before")
            and not (lead == "half" and row[k + 1] in ("to", "till", "til"))  # "two and a half to three"
        ):
            hour = (12, 1) if row[k + 2] in ("noon", "midday") else hour_at(row, k + 2)
            if hour and 1 <= hour[0] <= 12:
                total = hour[0] * 60 + (n if row[k + 1] in ("past", "after") else -n)
                if lead in ("quarter", "half") or row[k + 1] in ("past", "after", "til", "till"):
                    made = Clock(i, k + 2 + hour[1], total // 60 or 12, total % 60, False, False)
    if made is None:
        hour = hour_at(row, i)
        if hour is None or not 0 <= hour[0] <= 23:
            return None
        k = i + hour[1]
        minute = minute_at(row, k)
        if minute is not None:
            made = Clock(i, k + minute[1], hour[0], minute[0], hour[0] > 12, False)
        else:
            made = _hours_of_the_clock(row, i, k, hour[0]) or _and_a_part(row, i, k, hour[0])
            made = made or Clock(i, k, hour[0], 0, hour[0] > 12, True)
        if k < len(row) and made.bare and row[k] in ("o'clock", "flat", "sharp", "even"):
            made.end, made.bare = k + 1, False  # "eight flat to ten fifteen"
    if made.hour == 12 and row[made.end : made.end + 1] in (("noon",), ("midday",)):
        return Clock(i, made.end + 1, 12, made.minute, True, False)
    take_half_of_day(row, made)
    return made


def take_half_of_day(row: tuple[str, ...], made: Clock) -> None:
    """Take "in the afternoon" behind a time into it."""
    rest = row[made.end : made.end + 3]
    for name, shift in (("morning", 0), ("afternoon", 12)):
        n = phrase_length(rest, 0, name)
        if n:
            made.end += n
            made.bare = False
            made.exact = True
            if shift and made.hour < 12:
                made.hour += 12
            if not shift and made.hour == 12:
                made.hour = 0


def _hours_of_the_clock(row: tuple[str, ...], i: int, k: int, hour: int) -> Clock | None:
    """Read "nine hours" of "from nine hours to thirteen hours thirty": the hour as said in other languages.

    Behind a word that leads to a time, and only with minutes behind it, past twelve, or as one of two.
    """
    if row[k : k + 1] != ("hours",) or not i or row[i - 1] not in _TO_AN_HOUR:
        return None
    if row[i - 1] == "from" and i > 1 and row[i - 2] not in _OPENS_A_TIME:
        return None
    minute = minute_at(row, k + 1)
    first = row[k + 1 : k + 2] in (("to",), ("until",), ("till",)) and "hours" in row[k + 2 : k + 5]
    last = row[i - 2 : i - 1] == ("hours",)
    late = row[i - 1] == "at" or (row[i - 1] != "from" and "from" in row[max(0, i - _SPAN) : i])
    if minute is None and not (12 < hour < 24 and late) and not first and not last:
        return None
    if (first and row[i - 1] != "from") or (not first and row[i - 1] == "from"):
        return None
    return Clock(i, k + 1 + (minute[1] if minute else 0), hour, minute[0] if minute else 0, True, False)


def _and_a_part(row: tuple[str, ...], i: int, k: int, hour: int) -> Clock | None:
    """Read "from ten and a quarter to eleven thirty": the parts of an hour as said in other languages.

    Only in a span whose other time can be nothing but a time, for so are pressures and superheats said.
    """
    said = _part_of_an_hour(row, k)
    if said is None or not i:
        return None
    made = Clock(i, k + len(said), hour, _PARTS_OF_AN_HOUR[said], False, False)
    opens = row[i - 1] == "from" and (i < 2 or row[i - 2] in _OPENS_A_TIME)
    if opens and row[made.end : made.end + 1] in _SPAN_WORDS:
        then = _plain_clock(row, made.end + 1)
        return made if then is not None and _ends_there(row, then.end) else None
    if (row[i - 1],) not in _SPAN_WORDS or not _ends_there(row, made.end):
        return None
    begin = next((n for n in range(max(1, i - _SPAN), i - 1) if row[n - 1] == "from"), None)
    first = _plain_clock(row, begin) if begin is not None else None
    return made if first is not None and first.end == i - 1 else None


def _part_of_an_hour(row: tuple[str, ...], k: int) -> tuple[str, ...] | None:
    """Return the words of a part of an hour behind its hour at word k."""
    return next((p for p in _PARTS_OF_AN_HOUR if row[k : k + len(p)] == p), None)


def _plain_clock(row: tuple[str, ...], i: int) -> Clock | None:
    """Return a time that is nothing but a time, its part of an hour not said behind "and"."""
    hour = hour_at(row, i) if i < len(row) else None
    if i >= len(row) or (hour is not None and _part_of_an_hour(row, i + hour[1])):
        return None
    clock = clock_at(row, i)
    return clock if clock is not None and not clock.bare else None


def _ends_there(row: tuple[str, ...], i: int) -> bool:
    return row[i : i + 1] in ((".",), (",",), ())


_PARTS_OF_AN_HOUR = {
    ("and", "three", "quarters"): 45, ("and", "a", "quarter"): 15, ("and", "quarter"): 15,
    ("and", "a", "half"): 30, ("and", "half"): 30,
}  # fmt: skip
_SPAN = 7
"""Words that the first time of a span has at most, "from" included: "from a quarter past eight until"."""
_TO_AN_HOUR = frozenset(("at", "from", "to", "until", "till"))
_OPENS_A_TIME = frozenset(
    (".", ",", "i", "we", "was", "were", "here", "there", "site", "worked", "work", "job")
)


def opens_span(row: tuple[str, ...], i: int) -> Clock | None:
    """Read "ten to nine" before "till quarter past ten": the second "till" is the one of the span."""
    first = minutes_to(row, i)
    if first is None or row[first.end : first.end + 1] not in _SPAN_WORDS:
        return None
    then = minutes_to(row, first.end + 1)
    if then is None and first.end + 1 < len(row):
        then = clock_at(row, first.end + 1)
    return first if then is not None else None


_SPAN_WORDS = (("to",), ("while",), ("till",), ("til",), ("until",), ("through",), ("-",))


_MINUTES_BEFORE = ("to", "tae", "of", "til", "till", "before")


def minutes_to(row: tuple[str, ...], i: int) -> Clock | None:
    """Read "ten to two" and "five of four" after "at": minutes before an hour."""
    if i >= len(row):
        return None
    minutes = {"five": 5, "ten": 10, "twenty": 20, "5": 5, "10": 10, "20": 20, "25": 25}.get(row[i])
    first = i
    if row[i : i + 2] == ("twenty", "five"):
        minutes, i = 25, i + 1
    if minutes is None or i + 2 >= len(row) or row[i + 1] not in _MINUTES_BEFORE:
        return None
    hour = (12, 1) if row[i + 2] in ("noon", "midday") else hour_at(row, i + 2)
    if hour is None or not 1 <= hour[0] <= 12 or minute_at(row, i + 2 + hour[1]) is not None:
        return None
    total = hour[0] * 60 - minutes
    return Clock(first, i + 2 + hour[1], total // 60 or 12, total % 60, False, False)
