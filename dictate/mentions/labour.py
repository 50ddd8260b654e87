"""Working times as said: `find_labour(narration) -> list[LabourMention]`.

Clock times ("nine fifteen to one forty five", "got here at seven thirty", "quarter to four", "13 20")
come out as HH:MM of 24 hours. The half of the day is the one in which a working day is plausible, and the
end lies after the start: "started one fifteen, wrapped up at four" is 13:15 to 16:00. A reason is given
where it could be the other half. Durations ("two and a half hours labor") come out in hours; times of the
machine are left alone.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.tense import Scopes, scopes_of
from dictate.record.mentions import LabourMention
from dictate.vocabulary.load import table, word_set

_SMALL = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
_MINUTES = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18,
    "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "five": 5,
}  # fmt: skip
_TEENS = {
    "thirteen": 13,
    "fourteen": 14,
    "fifteen": 15,
    "sixteen": 16,
    "seventeen": 17,
    "eighteen": 18,
    "nineteen": 19,
}
_COMINGS = frozenset(
    {
        ("got", "to"), ("came", "to"), ("arrived", "at"), ("arrived", "to"), ("pulled", "up"), ("rolled",
            "up"), ("drove", "to"),
        ("went", "to"), ("here", "at"), ("get", "to"), ("turned", "up"), ("was", "at"), ("were", "at"),
    }
)  # fmt: skip
_TAKEN_BACK = word_set("time_taken_back")
_LEADS = frozenset({"at", "by", "about", "around", "until", "till"})
_UNITS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9}


@cache
def _phrases(name: str) -> frozenset[tuple[str, ...]]:
    data: dict[str, Any] = table("labour")
    return frozenset(tuple(p.split()) for p in data[name])


@cache
def _by_last_word(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    """Return a list's phrases by their last word, so that a word looks at a few of them only."""
    out: dict[str, tuple[tuple[str, ...], ...]] = {}
    for phrase in _phrases(name):
        out[phrase[-1]] = (*out.get(phrase[-1], ()), phrase)
    return out


@dataclass(slots=True)
class _Clock:
    start: int
    end: int
    hour: int
    minute: int
    exact: bool  # the half of the day is known
    bare: bool  # an hour alone
    kind: str | None = None
    cued: bool = False

    @property
    def minutes(self) -> int:
        return self.hour * 60 + self.minute


def _number(row: tuple[str, ...], i: int) -> tuple[int, int] | None:
    """Return (value, words) of an hour at word i."""
    if i >= len(row):
        return None
    word = row[i]
    if word in _SMALL:
        return _SMALL[word], 1
    if word in _TEENS:
        return _TEENS[word], 1
    if word in ("twenty",):
        if i + 1 < len(row) and row[i + 1] in ("one", "two", "three"):
            return 20 + _UNITS[row[i + 1]], 2
        return None
    if re.fullmatch(r"\d{1,2}", word):
        return int(word), 1
    return None


def _minute(row: tuple[str, ...], i: int) -> tuple[int, int] | None:
    """Return (value, words) of minutes at word i: two digits, as said after an hour."""
    if i >= len(row):
        return None
    word = row[i]
    if word in ("oh", "o", "zero"):
        if i + 1 < len(row) and row[i + 1] in _UNITS:
            return _UNITS[row[i + 1]], 2
        return None
    if re.fullmatch(r"[0-5]\d", word):
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
    match = re.fullmatch(r"(\d{1,2})\.([0-5]\d)", row[i])
    near = row[max(0, i - 4) : i]
    opens = i == 0 or row[i - 1] in (".", "?", "!")
    spans = row[i + 1 : i + 2] in (("to",), ("till",), ("until",), ("-",))
    return match if match and (any(w in near for w in _CLOCK_CUES) or (opens and spans)) else None


_CLOCK_CUES = frozenset(
    [
        "at",
        "from",
        "started",
        "start",
        "arrived",
        "finished",
        "left",
        "until",
        "till",
        "to",
        "in",
        "out",
        "on",
        "off",
        "began",
        "done",
        "by",
        "around",
        "about",
        "here",
        "there",
        "leaving",
    ]
)


def clock_at(row: tuple[str, ...], i: int) -> _Clock | None:
    """Read a clock time that starts at word i."""
    word = row[i]
    digits = word[:1].isdigit()
    match = (re.fullmatch(r"(\d{1,2}):(\d{2})", word) or _dotted(row, i)) if digits else None
    made: _Clock | None = None
    if match and int(match.group(1)) < 24 and int(match.group(2)) < 60:
        made = _Clock(i, i + 1, int(match.group(1)), int(match.group(2)), False, False)
    elif (
        digits and re.fullmatch(r"(?:0\d|1\d|2[0-3])[0-5]\d", word) and (word[0] == "0" or int(word[:2]) > 12)
    ):
        made = _Clock(i, i + 1, int(word[:2]), int(word[2:]), True, False)
    elif digits and re.fullmatch(r"[1-9][0-5]\d|1[0-2][0-5]\d", word) and int(word[-2:]) % 5 == 0:
        made = _Clock(i, i + 1, int(word[:-2]), int(word[-2:]), False, False)
    elif word in ("noon", "midday"):
        return _Clock(i, i + 1, 12, 0, True, False)
    elif word == "midnight":
        return _Clock(i, i + 1, 0, 0, True, False)
    elif word == "half" and (hour := _number(row, i + 1)) is not None and 1 <= hour[0] <= 12:
        made = _Clock(i, i + 1 + hour[1], hour[0], 30, False, False)
    elif word in word_set("minute_openers"):
        k = i + 1 if word == "a" and i + 1 < len(row) and row[i + 1] in ("quarter",) else i
        lead = row[k]
        n = {
            "20": 20,
            "10": 10,
            "5": 5,
            "25": 25,
            "quarter": 15,
            "half": 30,
            "twenty": 20,
            "ten": 10,
            "five": 5,
        }.get(lead)
        if row[k + 1 : k + 2] == ("minutes",) and n is not None and k + 3 < len(row):
            k += 1  # "five minutes past nine"
        if (
            n is not None
            and k + 2 < len(row)
            and row[k + 1] in ("to", "past", "after", "til", "till", "of", "before")
        ):
            hour = _number(row, k + 2)
            if hour and 1 <= hour[0] <= 12:
                total = hour[0] * 60 + (n if row[k + 1] in ("past", "after") else -n)
                if lead in ("quarter", "half") or row[k + 1] in ("past", "after", "til", "till"):
                    made = _Clock(i, k + 2 + hour[1], total // 60 or 12, total % 60, False, False)
    if made is None:
        hour = _number(row, i)
        if hour is None or not 0 <= hour[0] <= 23:
            return None
        k = i + hour[1]
        minute = _minute(row, k)
        if minute is not None:
            made = _Clock(i, k + minute[1], hour[0], minute[0], hour[0] > 12, False)
        else:
            made = _Clock(i, k, hour[0], 0, hour[0] > 12, True)
        if k < len(row) and row[k] == "o'clock":
            made.end, made.bare = k + 1, False
    rest = row[made.end : made.end + 3]
    for name, shift in (("morning", 0), ("afternoon", 12)):
        n = max((len(p) for p in _phrases(name) if rest[: len(p)] == p), default=0)
        if n:
            made.end += n
            made.bare = False
            made.exact = True
            if shift and made.hour < 12:
                made.hour += 12
            if not shift and made.hour == 12:
                made.hour = 0
    return made


def _minutes_to(row: tuple[str, ...], i: int) -> _Clock | None:
    """Read "ten to two" and "five of four" after "at": minutes before an hour."""
    minutes = {"five": 5, "ten": 10, "twenty": 20, "5": 5, "10": 10, "20": 20, "25": 25}.get(row[i])
    first = i
    if row[i : i + 2] == ("twenty", "five"):
        minutes, i = 25, i + 1
    if minutes is None or i + 2 >= len(row) or row[i + 1] not in ("to", "of", "til", "till", "before"):
        return None
    hour = _number(row, i + 2)
    if hour is None or not 1 <= hour[0] <= 12 or _minute(row, i + 2 + hour[1]) is not None:
        return None
    total = hour[0] * 60 - minutes
    return _Clock(first, i + 2 + hour[1], total // 60 or 12, total % 60, False, False)


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.w: Words = words_of(narration)
        self.row = self.w.words
        self.scopes: Scopes = scopes_of(self.w)
        self.read = []
        self.units = {
            self.w.word_of_token(t)
            for q in find_quantities(narration)
            if q.kind in ("reading", "size", "price")
            for t in range(q.start, q.end)
        }

    read: list[_Clock]

    def ends(self, i: int, name: str, start: int) -> int:
        """Return how many words of the longest phrase of a list end just before word i."""
        ending = _by_last_word(name).get(self.row[i - 1], ()) if i > start else ()
        if not ending:
            return 0
        return max(
            (len(p) for p in ending if i - len(p) >= start and self.row[i - len(p) : i] == p), default=0
        )

    def cue(self, i: int, start: int) -> str | None:
        """Return "start" or "end" when the words before word i say so."""
        k = i
        steps = 0
        while k > start and steps <= 6:
            n_start, n_end = self.ends(k, "start", start), self.ends(k, "end", start)
            if n_start or n_end:
                kind = "start" if n_start >= n_end and n_start else "end"
                if self.allowed(k, n_start if kind == "start" else n_end, i, start):
                    return kind
            if self.row[k - 1] in {w for p in _phrases("about") for w in p}:
                k -= 1
                steps += 1
                continue
            return None
        return None

    def allowed(self, k: int, n: int, i: int, start: int) -> bool:
        """Tell whether a short cue ("in", "left", "done", "from") is one here."""
        phrase = self.row[k - n : k]
        if phrase[-1] in ("left", "ended", "ended", "started") and any(
            w in ("it", "them", "him", "her", "everything") for w in self.row[k:i]
        ):
            return False
        if phrase == ("off", "at"):
            return self.started_in(start)
        if phrase == ("start",) and self.row[k - 2 : k - 1] in (("the",), ("a",), ("hard",), ("soft",)):
            return False  # "one eighteen at the plug, on the start, one oh four"
        if phrase[0] in ("in", "out") and (len(phrase) == 1 or phrase[1] in ("at", "by")):
            head = k - n == start or self.row[k - n - 1] in (",", "and", "time")
            head = head or (
                len(phrase) == 2 and self.row[k - n - 2 : k - n] in (("i", "was"), ("we", "were"))
            )
            if not head and not (phrase[0] == "out" and self.started_in(start)):
                return False
        if phrase in (
            ("until",),
            ("till",),
            ("from",),
            ("since",),
            ("done",),
            ("left",),
            ("out",),
            ("start",),
            ("stopped",),
            ("called", "it"),
            ("completed",),
            ("finish",),
            ("done", "by"),
            ("leaving",),
            ("starting",),
            ("finished",),
            ("started",),
            ("began",),
            ("ended",),
            ("wrapped",),
        ):
            clock = clock_at(self.row, i)
            if phrase[0] in ("left", "finished", "done", "wrapped", "ended", "out") and self.started_in(
                start
            ):
                return True
            if (
                clock is not None
                and clock.bare
                and phrase
                in (
                    ("until",),
                    ("till",),
                    ("from",),
                    ("since",),
                    ("done",),
                    ("left",),
                    ("start",),
                    ("out",),
                    ("started",),
                    ("began",),
                    ("starting",),
                    ("stopped",),
                    ("ended",),
                    ("finished",),
                    ("completed",),
                )
            ):
                if "," in self.row[k:i] and "at" not in self.row[k:i]:
                    return False  # "at 12 when I started, 9 now"
                # "from eight to six" may be a superheat; a bare hour needs "at" or a person.
                between = self.row[k:i]
                if "at" in between or "around" in between or "about" in between:
                    return True
                who = self.row[max(start, k - n - 3) : k - n]
                if phrase in (("from",), ("since",)):
                    return (
                        any(w in ("there", "here", "site", "worked", "job", "onsite", "was") for w in who)
                        or k - n == start
                    )
                return any(w in ("i", "we", "job") for w in who) or (
                    k - n == start and phrase in (("left",), ("finished",), ("started",), ("done",))
                )
        return True

    def started_in(self, start: int) -> bool:
        """Tell whether a start was already read in the sentence that begins at `start`."""
        return any(c.kind == "start" and c.start >= start for c in self.read)

    def clocks(self) -> list[_Clock]:
        """Return the clock times that are working times."""
        out = self.read
        i = 0
        while i < len(self.row):
            start, end = self.scopes.sentence(i)
            clock = clock_at(self.row, i)
            led = (
                self.row[i - 1] in _LEADS
                or self.ends(i, "end", start)
                or self.ends(i, "start", start)
                or self.ends(i, "to", start)
            )
            if clock is None and i > start and led:
                clock = _minutes_to(self.row, i)
            if clock is None or not self.plausible(clock):
                i += 1
                continue
            if i > start and led:
                clock = _minutes_to(self.row, i) or clock
            if i == start and (said_first := _minutes_to(self.row, i)) is not None:
                # "Ten to three I pulled out": minutes before an hour, told by the words behind them
                clock = said_first if self.cue_behind(said_first.end, end) else clock
            cue = self.cue(i, start) or self.reached(i, start)
            cue = cue or (None if clock.bare else self.cue_behind(clock.end, end))
            if cue is None and self.row[max(start, i - 2) : i] == ("it", "'s"):
                # "I started one fifteen and it's five till three"
                now = _minutes_to(self.row, i) or clock
                if not now.bare and self.started_in(start):
                    clock, cue = now, "end"
            if (
                cue is None
                and i == 0
                and ":" in self.row[0]
                and self.row[clock.end : clock.end + 1] in _AT_ONCE
            ):
                cue = "start"  # "7:40 at the dairy, ..."
            if re.fullmatch(r"\d{3,4}", self.row[i]) and not clock.exact and self.row[i - 1] == "from":
                # "head went from 140 to 290"
                who = self.row[max(start, i - 5) : i - 1]
                if i - 1 > start and not any(w in word_set("on_site_signs") for w in who):
                    i += 1
                    continue
            self.and_half(clock, cue)
            span = self.span_after(clock, end)
            if span is not None and not (clock.bare and span.bare) and self.machine_near(clock.start, start):
                i = span.end  # "sat there from ten fifteen till ten forty five": the machine's time
                continue
            if span is not None and self.plausible(span):
                whole = self.whole_sentence(clock.start, span.end, start, end)
                if not whole and clock.start == start and not span.bare:
                    whole = self.w.sentence_of[start] >= len(self.w.sentences) - 2
                minutes = not (clock.bare and span.bare)
                whole = whole or self.told_by_half(clock, span)
                said = (
                    cue == "start"
                    or whole
                    or any(
                        w in self.row[max(start, clock.start - 5) : clock.start]
                        for w in word_set("on_site_signs")
                    )
                )
                after = self.row[span.end : min(end, span.end + 3)]
                if (
                    said
                    and (minutes or cue == "start" or whole)
                    and not self.machine_near(clock.start, start)
                ) and not (
                    clock.bare
                    and span.bare
                    and not whole
                    and cue != "start"
                    and not any(w in after for w in ("total",))
                ):
                    clock.kind, span.kind = "start", "end"
                    out += [clock, span]
                    i = span.end
                    continue
            if (
                cue is None
                and out
                and clock.start - out[-1].end <= 6
                and self.retracts(out[-1].end, clock.start)
            ):
                clock.kind = out[-1].kind  # "to eleven, no wait, eleven thirty"
                out[-1] = clock
                i = clock.end
                continue
            if cue is not None and (self.plainly_said(i, start) or not self.machine_near(clock.start, start)):
                clock.kind = cue
                out.append(clock)
                i = clock.end
                continue
            i += 1
        return out

    def plainly_said(self, i: int, start: int) -> bool:
        """Tell whether "left at" or its like stands right before the time.

        What was said before does not matter.
        """
        phrases = {
            p
            for name in ("start", "end")
            for p in _phrases(name)
            if p[-1] == "at" and p[0] not in ("stop", "end", "ended", "stopped")
        }
        return any(i - len(p) >= start and self.row[i - len(p) : i] == p for p in phrases) and not any(
            w in self.row[max(start, i - 16) : i]
            for w in ("nitrogen", "vacuum", "gauge", "defrost", "cycle", "timer")
        )

    def reached(self, i: int, start: int) -> str | None:
        """Read "got to the deli case about ten after eight".

        A coming with a place between it and the time.
        """
        for k in range(max(start, i - 9), i - 2):
            if self.row[k : k + 2] not in _COMINGS:
                continue
            between = self.row[k + 2 : i]
            if any(self.scopes.kind(j) == "past" for j in range(k + 2, i)) or any(
                w in (".", "it", "i") for w in between
            ):
                return None
            return "start" if between[-1] in ("at", "about", "around", ",", "by", "just") else None
        return None

    def and_half(self, clock: _Clock, cue: str | None) -> None:
        """Take "and half" into a bare hour behind a word for the start or end ("finish ten and half")."""
        tail = [w for w in self.row[clock.end : clock.end + 4] if w != "a"]
        if cue is None or not clock.bare or tail[:2] != ["and", "half"]:
            return
        if tail[2:3] and tail[2] in ("hour", "hours"):
            return
        clock.minute, clock.bare = 30, False
        clock.end = self.row.index("half", clock.end) + 1

    def cue_behind(self, i: int, end: int) -> str | None:
        """Return "start" or "end" when the words behind a clock time say so ("ten to three I pulled out")."""
        if i + 1 < end and self.row[i] == "," and self.row[i + 1] in ("i", "we", "i'm", "we're"):
            i += 1
        if i >= end or self.row[i] not in ("i", "we", "when", "is", "was", "i'm", "we're"):
            return None
        rest = " ".join(self.row[i : min(end, i + 5)])
        if any(
            c in rest
            for c in (
                "pulled out",
                " left",
                "finished",
                "was done",
                "got out",
                "wrapped",
                "cleared off",
                "packed up",
                "headed",
                "drove off",
                "rolled out",
                "took off",
                "knocked off",
                "got away",
                "signed off",
                "quitting time",
                "out of here",
                "'m done",
                "i'm gone",
                "i'm out",
                "we're done",
                "we're out",
                "was gone",
            )
        ):
            return "end"
        if any(c in rest for c in ("got here", "got there", "arrived", "started", "showed up", "pulled up")):
            return "start"
        return None

    def retracts(self, first: int, last: int) -> bool:
        """Tell whether the words between two clock times take the first back."""
        between = [w for w in self.row[first:last] if w not in (",", ".")]
        if between[-1:] == ["that"] and self.row[last : last + 1] == ("one",):
            return False  # "till half twelve, that one"
        return bool(between) and all(w in _TAKEN_BACK for w in between)

    def plausible(self, clock: _Clock) -> bool:
        """Tell whether the words can be a time of day: no unit behind, not inside another number."""
        if any(k in self.units for k in range(clock.start, clock.end)) and (
            "minutes" not in self.row[clock.start : clock.end]
        ):
            return False
        if clock.end < len(self.row):
            nxt = self.row[clock.end]
            if (
                nxt == "-"
                and clock.end + 1 < len(self.row)
                and re.fullmatch(r"\d{1,2}:\d{2}", self.row[clock.end + 1])
            ):
                return True
            if nxt == "hours" and clock.exact and re.fullmatch(r"[012]\d[0-5]\d", self.row[clock.start]):
                clock.end += 1  # "0900 hours"
                return True
            if any(nxt == p[0] for p in _phrases("not_clock")) or nxt in word_set("after_no_clock"):
                if nxt in ("and",):
                    if self.row[clock.end + 1 : clock.end + 2] in (("half",), ("a",)) and self.row[
                        clock.start - 1
                    ] in ("finish", "finished", "start", "arrive", "leave", "left"):
                        return "hours" not in self.row[clock.end : clock.end + 5]
                    return not (
                        clock.end + 2 < len(self.row) and self.row[clock.end + 1] in ("a", "half", "quarter")
                    )
                return False
            if re.fullmatch(r"\d+(\.\d+)?", nxt) or (
                nxt in _SMALL and not clock.bare and self.row[clock.end - 1] not in ("noon",)
            ):
                return False
        if clock.start > 0 and self.row[clock.start - 1] in word_set("before_no_clock"):
            return False
        return clock.hour <= 23 and clock.minute < 60

    def span_after(self, clock: _Clock, end: int) -> _Clock | None:
        """Return the clock time that ends a span begun by `clock` ("... to one forty five")."""
        if self.row[clock.end : clock.end + 1] == (".",) and self.row[clock.end - 1] in ("a.m", "p.m"):
            clock.end += 1
        for phrase in sorted(_phrases("to"), key=len, reverse=True):
            if self.row[clock.end : clock.end + len(phrase)] == phrase and clock.end + len(phrase) < end:
                return clock_at(self.row, clock.end + len(phrase))
        return None

    def told_by_half(self, clock: _Clock, span: _Clock) -> bool:
        """Tell whether both ends of a span were said with their half of the day ("eleven pm to one am")."""
        return all(self.row[c.end - 1] in ("am", "pm", "a.m", "p.m", "m") for c in (clock, span))

    def whole_sentence(self, first: int, last: int, start: int, end: int) -> bool:
        """Tell whether the sentence is nothing but the span."""
        head = [
            w
            for k, w in enumerate(self.row[start:first], start)
            if w not in word_set("around_span_head") and k not in self.units
        ]
        tail = [w for w in self.row[last:end] if w not in word_set("around_span_tail")]
        if any(w in ("lunch", "break", "dinner") for w in self.row[last:end]):
            tail = []  # "nine to one, less half an hour lunch, so three and a half"
        if "hours" in tail or "guys" in tail:
            return not head and len(tail) <= 8
        return not head and len(tail) <= 3

    def machine_near(self, i: int, start: int) -> bool:
        """Tell whether the words before make it a machine's time ("test from nine ten to ...")."""
        near = self.row[max(start, i - 8) : i]
        if any(
            w in self.row[max(start, i - 16) : i]
            for w in ("nitrogen", "vacuum", "pressurized", "pressurised", "evacuated")
        ) and any(
            w in near for w in ("sat", "stood", "held", "there", "left", "watched", "from", "hold", "stayed")
        ):
            return True
        if any(w in near for w in ("degrees", "psi", "microns", "bar", "inches")):
            return True
        return any(
            p[0] in near
            for p in _phrases("machine")
            if len(p) == 1
            and p[0] not in ("ran", "run", "after", "later", "first", "in", "every", "once", "per")
        ) or any(w in near for w in word_set("other_appointments"))

    # -- durations -------------------------------------------------------------------------------------------

    def durations(self) -> list[LabourMention]:
        """Return the durations of work, travel and breaks."""
        out: list[LabourMention] = []
        quantities = [q for q in find_quantities(self.narration) if q.unit in ("h", "min")]
        skip: set[int] = set()
        out += self.unsaid_hours()
        for n, q in enumerate(quantities):
            if n in skip:
                continue
            hours = q.in_unit("h") if q.can_be("h") else q.in_unit("min") / 60
            if q.unit == "min":
                hours = q.in_unit("min") / 60
            start, end = self.w.word_of_token(q.start), self.w.word_of_token(q.end)
            # "two hours and fifteen minutes" in two quantities, "2 hours 15", "an hour and ten"
            nxt = quantities[n + 1] if n + 1 < len(quantities) else None
            between = self.row[end : self.w.word_of_token(nxt.start)] if nxt is not None else ()
            joined = nxt is not None and nxt.unit == "min" and all(w in ("and", ",") for w in between)
            if nxt is not None and joined and q.unit == "h" and not q.parts:
                hours += nxt.in_unit("min") / 60
                end = self.w.word_of_token(nxt.end)
                skip.add(n + 1)
            elif q.unit == "h" and not q.parts:
                extra, k = self.trailing_minutes(end)
                if extra:
                    hours += extra / 60
                    end = k
            kind = self.duration_kind(start, end, q.unit == "min")
            reasons: list[str] = []
            if kind is None and self.row[end : end + 1] == ("each",):
                kind = "work"
            if kind == "work" and self.row[end : end + 1] == ("each",):
                reasons.append("said of each of several people: man-hours may be meant")
            if kind is None or not self.scopes.ours(start):
                continue
            s, e = self.w.span(start, end)
            out.append(
                LabourMention(
                    kind,
                    None,
                    round(abs(hours), 4),
                    self.narration.at(s, e),
                    self.narration.heard(s, e),
                    reasons,
                )
            )
        return out

    def unsaid_hours(self) -> list[LabourMention]:
        """Read "hour and a half on this one" and "hours, two and a half"."""
        out: list[LabourMention] = []
        numbers = {self.w.word_of_token(n.start): n for n in find_numbers(self.narration)}
        taken = {self.w.word_of_token(q.start) for q in find_quantities(self.narration)}
        for i, word in enumerate(self.row):
            start, end = self.scopes.sentence(i)
            halved = word == "hour" and self.row[i + 1 : i + 4] == ("and", "a", "half") and i == start
            if halved and self.duration_kind(i, i + 4, False) == "work":
                s, e = self.w.span(i, i + 4)
                at, heard = self.narration.at(s, e), self.narration.heard(s, e)
                out.append(LabourMention("work", None, 1.5, at, heard))
            if word == "hour" and i == start and self.row[i + 1 : i + 4] != ("and", "a", "half"):
                extra, k = self.trailing_minutes(i + 1)
                for said, minutes in _QUARTERS.items():
                    if self.row[i + 1 : i + 1 + len(said)] == said:
                        extra, k = minutes, i + 1 + len(said)
                if extra and self.duration_kind(i, k, False) == "work":
                    s, e = self.w.span(i, k)
                    hours = round(1 + extra / 60, 4)
                    out.append(
                        LabourMention(
                            "work", None, hours, self.narration.at(s, e), self.narration.heard(s, e)
                        )
                    )
            if word in ("hours", "labor", "labour") and i == start:
                k = i + 1
                while k < end and self.row[k] in (",", ":", "was", "is", "hours", "total", "time"):
                    k += 1
                number = numbers.get(k)
                if number is None or k in taken or not 0 < number.value <= 24 or number.form == "clock":
                    continue
                last = self.w.word_of_token(number.end)
                if last < end and self.row[last] in (".", ",", "total") and number.value * 60 % 5 == 0:
                    s, e = self.w.span(i, last)
                    out.append(
                        LabourMention(
                            "work",
                            None,
                            float(number.value),
                            self.narration.at(s, e),
                            self.narration.heard(s, e),
                        )
                    )
        return out

    def trailing_minutes(self, i: int) -> tuple[int, int]:
        """Read "15" of "2 hours 15" and "ten" of "an hour and ten"."""
        k = i + 1 if i < len(self.row) and self.row[i] == "and" else i
        minute = _minute(self.row, k)
        if minute is None or minute[0] % 5:
            return 0, i
        k += minute[1]
        nxt = self.row[k] if k < len(self.row) else "."
        return (minute[0], k) if nxt in word_set("after_minutes") else (0, i)

    def duration_kind(self, start: int, end: int, minutes: bool) -> str | None:
        """Return "work", "travel" or "break" for a duration of work; None for a time of the machine."""
        s0, s1 = self.scopes.sentence(start)
        before = self.row[max(s0, start - 7) : start]
        after = self.row[end : min(s1, end + 5)]
        # commas part the thoughts of one sentence
        cut = max((k for k, w in enumerate(before) if w in (",", ";", "plus", "and")), default=-1)
        near_before = before[cut + 1 :]
        stop = next((k for k, w in enumerate(after) if w in (",", ";", "plus", ".", "and")), len(after))
        near_after = after[:stop]
        near = (*near_before, "|", *near_after)

        def has(name: str, row: tuple[str, ...]) -> bool:
            return any(row[k : k + len(p)] == p for p in _phrases(name) for k in range(len(row)))

        if (
            any(w in ("quoted", "quote", "estimate", "estimated", "allow", "figure") for w in (*near, *after))
            and "spent" not in near
        ):
            return None
        if has("travel", near):
            return "travel"
        if has("breaks", near) and "without" not in near_after:
            return "break"
        if has("breaks", near):
            return "work"  # "seven and a half hours without lunch"
        whole_tail = self.row[end:s1]
        whole_tail = whole_tail[
            : next((k for k, w in enumerate(whole_tail) if w in ("plus", ",", ";")), len(whole_tail))
        ]
        tail = [w for w in whole_tail if w not in (".", ",", "!")]
        head = [w for w in self.row[s0:start] if w not in word_set("around_duration")]
        alone = not head and len(tail) <= 3 and not has("machine", tuple(tail))
        beside = [c for c in self.read if c.end == start - 1 or 0 < c.start - end <= 6]
        if beside and not near_before and not near_after and self.row[start - 1] in (",", ".", ";"):
            return "work"  # "Left at twenty to four, two hours ten"
        if any(near_before[k : k + 3] == ("put", "me", "down") for k in range(len(near_before))):
            return "work"
        if "minimum" in near_before:
            return None  # "minimum charge is an hour"
        if _LABELS & set(head) and all(w in _LABELS or w in _OF_LABELS for w in head) and len(tail) <= 3:
            return "work"  # "Time on this one, two and a quarter hours"
        if alone and (not minutes or self.w.sentence_of[start] >= len(self.w.sentences) - 2):
            return "work"
        if not minutes and near_before[-2:] in (("took", "me"), ("took", "us"), ("total", "of")):
            return "work"
        if has("machine", near) and not has("work", near_after):
            return None
        if has("work", near):
            if (
                minutes
                and not has("work", near_after)
                and not any(w in near for w in ("took", "labor", "labour", "billed", "spent", "site"))
            ):
                return None
            if near_after[:1] not in (("total",), ("altogether",)) and any(
                w in near_before for w in word_set("duration_to_come")
            ):
                return None
            if near_before[-2:] in (("it", "took"), ("took", "me")) or "took" in near_before:
                if near_after[:1] in (("to",),) or (
                    near_before[-1:] == ("took",) and near_after[:1] == ("for",)
                ):
                    return None
                if (
                    "me" not in near_before
                    and "us" not in near_before
                    and "job" not in near_before
                    and "all" not in near_after
                    and "total" not in near_after
                ):
                    return None
            return "work"
        return None


_QUARTERS = {("and", "three", "quarters"): 45, ("and", "a", "quarter"): 15, ("and", "quarter"): 15}
_LABELS = frozenset(("time", "labor", "labour", "work", "working", "hours"))
_OF_LABELS = frozenset(
    (
        "on",
        "this",
        "one",
        "job",
        "total",
        "for",
        "the",
        "my",
        "site",
        "call",
        "it",
        "is",
        "was",
        "'s",
        ":",
        "here",
    )
)
_AT_ONCE = (("at",), ("on",), ("in",), (",",))
_EARLY = "morning or evening was not said"


def find_labour(narration: Narration) -> list[LabourMention]:
    """Return the working times as said, in order."""
    finder = _Finder(narration)
    clocks = [
        c
        for c in finder.clocks()
        if finder.scopes.ours(c.start) or "signed" in finder.row[max(0, c.start - 3) : c.start]
    ]
    _halves(clocks)
    out: list[tuple[int, LabourMention]] = []
    for c in clocks:
        s, e = finder.w.span(c.start, c.end)
        out.append(
            (
                c.start,
                LabourMention(
                    c.kind or "start",
                    f"{c.hour:02d}:{c.minute:02d}",
                    None,
                    finder.narration.at(s, e),
                    finder.narration.heard(s, e),
                    [_EARLY] if c.kind == "start" and not c.exact and c.hour in (16, 17) else [],
                ),
            )
        )
    for d in finder.durations():
        place = d.at.segment or 0, d.at.first_word or 0
        index = next(
            (
                k
                for k, t in enumerate(finder.w.tokens)
                if (narration.tokens[t].segment, narration.tokens[t].word) >= place
            ),
            0,
        )
        out.append((index, d))
    return [m for _, m in sorted(out, key=lambda x: x[0])]


def _halves(clocks: list[_Clock]) -> None:
    """Set the half of the day: a start between six and twelve is the morning, an end lies after the start."""
    start: _Clock | None = None
    for c in clocks:
        if c.kind == "start":
            if not c.exact and 1 <= c.hour <= 5:
                c.hour += 12
            start = c
        elif c.kind == "end" and not c.exact:
            if start is not None:
                while c.minutes <= start.minutes and c.hour < 12:
                    c.hour += 12
            elif 1 <= c.hour <= 6:
                c.hour += 12
    # "Left at four ... I had got there at one": the end was said first.
    ends = [c for c in clocks if c.kind == "end"]
    starts = [c for c in clocks if c.kind == "start"]
    if (
        len(ends) == 1
        and len(starts) == 1
        and ends[0].start < starts[0].start
        and ends[0].minutes <= starts[0].minutes
        and ends[0].hour < 12
    ):
        ends[0].hour += 12
