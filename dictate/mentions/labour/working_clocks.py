"""The clock times that are a start or an end of work."""

from __future__ import annotations

import re
from bisect import bisect_left

from dictate.mentions.labour.clock_times import (
    HOURS,
    Clock,
    clock_at,
    hour_at,
    may_begin,
    minutes_to,
    opens_span,
    phrase_length,
    phrases_by_first,
    take_half_of_day,
)
from dictate.mentions.labour.first_and_last import NO_START
from dictate.mentions.labour.no_times import between_terminals, no_time_of_day
from dictate.mentions.labour.time_words import TimeWords
from dictate.vocabulary.load import word_set

_DIGITS = re.compile(r"\d+")
_NUMBER = re.compile(r"\d+(\.\d+)?")
_COLON = re.compile(r"\d{1,2}:\d{2}")
_MILITARY = re.compile(r"[012]\d[0-5]\d")
_BEFORE_A_YEAR = frozenset({"in", "since", "of", "dated", "from"})
_A_YEAR = re.compile(r"(?:199|20[012])\d")
_RUN_TOGETHER = re.compile(r"\d{3,4}")
_LEADS = word_set("leads", "labour")
_SPAN_WORDS = (("to",), ("while",), ("till",), ("until",), ("through",), ("-",))
_SHORT = 6  # words of a sentence that is nothing but two hours
_ENDING = 4
_ONE_TIME = "it may be one time of day, minutes before the hour"
_AND_WE = (
    (",", "i'm"),
    (",", "i"),
    (",", "we"),
    (",", "we're"),
    (",", "here"),
    (",", "at"),
    (",", "on"),
    (",", "just"),
    ("and", "i'm"),
    ("and", "we're"),
)
_IN_A_TIME = frozenset(("minutes", "hours"))  # "five minutes past nine", "nine hours" said as a time
_IT_IS = (("it", "'s"), ("it", "is"), ("now", "'s"))
_AT_ONCE = (("and",), ("at",), ("on",), ("in",), (",",))


class WorkingClocks(TimeWords):
    """Finds starts and ends of work."""

    def clocks(self) -> list[Clock]:
        """Return the clock times that are working times."""
        out = self.read
        begins = [k for k, word in enumerate(self.row) if may_begin(word)]
        i = 0
        while (place := bisect_left(begins, i)) < len(begins):
            i = begins[place]
            start, end = self.scopes.sentence(i)
            clock = clock_at(self.row, i)
            first = opens_span(self.row, i)
            if i == start and [c.kind for c in out] == ["start"]:
                alone = minutes_to(self.row, i)
                if alone is not None and self.row[alone.end : alone.end + 1] == (".",):
                    i = alone.end  # "Got here at eight. ... Ten to eleven.": one time, and no span
                    continue
            if first is None and (hours := self.from_hour_to_hour(i, start)) is not None:
                out += hours
                i = hours[1].end
                continue
            led = (
                self.row[i - 1] in _LEADS
                or (self.row[i - 1] == "," and self.row[i - 2] in ("left", "arrived", "finished"))
                or self.ends(i, "end", start)
                or self.ends(i, "start", start)
                or self.ends(i, "to", start)
            )
            if first is not None and self.plausible(first):
                clock = first  # "ten to nine till quarter past ten"
            if i > start and led and (clock is None or not self.plausible(clock)):
                clock = minutes_to(self.row, i)  # "finished at 20 to 1"
            now = self.row[max(start, i - 2) : i] in _IT_IS
            if now and (clock is None or not self.plausible(clock)):
                clock = minutes_to(self.row, i)  # "it's ten of one now"
            if clock is None or not self.plausible(clock):
                i += 1
                continue
            if self.read_off_a_scale(i, start, end):
                i += 1
                continue
            said_to = minutes_to(self.row, i) if i > start and led else None
            if said_to is not None and (
                self.row[i - 1] != "from" or self.row[said_to.end : said_to.end + 1] in _SPAN_WORDS
            ):
                clock = said_to  # but "pulled down from ten to two" is a span
            if (i == start or self.row[i - 1] in (",", "and")) and (
                said_first := minutes_to(self.row, i)
            ) is not None:
                # "Ten to three I pulled out": minutes before an hour, told by the words behind them
                clock = said_first if self.cue_behind(said_first.end, end) else clock
            cue = None if clock.bare else self.named_behind(clock.end)
            cue = cue or self.cue(i, start, clock)
            if cue is None and (cue := self.reached(i, start)) is not None:
                clock.cued = True  # "landed out to the cold room at twenty past eight": nobody else is named
            if (
                not clock.bare
                and self.row[clock.end : clock.end + 1] == ("now",)
                and any(c.kind == "start" and self.near_start(c.start, start) for c in out)
            ):
                cue = "end"  # "ten to noon when I got here, one fifteen now"
            if cue is None and not clock.bare and (cue := self.cue_behind(clock.end, end)) is not None:
                clock.cued = True
            if self.is_standing(i, start) or (cue == "end" and self.sets_off(clock, start, end)):
                cue = None
            if cue is None and now:
                # "I started one fifteen and it's five till three"
                then = minutes_to(self.row, i) or clock
                if not then.bare and self.started_in(start):
                    clock, cue = then, "end"
            if cue is None and self.opens_the_talk(i, clock, now):
                cue = "start"
                clock.doubt = NO_START if now else ""  # "it's one oh five, I'm up on the roof" may be warmth
            if self.row[i - 1] in _BEFORE_A_YEAR and _A_YEAR.fullmatch(self.row[i]):
                behind = self.row[clock.end : clock.end + 1]
                if self.row[i - 1] != "from" or behind not in _SPAN_WORDS:
                    i += 1
                    continue  # "the sheet from 2017", but "on site from 2015 to 2130"
            if self.row[i - 1] == "from" and not clock.exact and _RUN_TOGETHER.fullmatch(self.row[i]):
                # "head went from 140 to 290"
                who = self.row[max(start, i - 5) : i - 1]
                if i - 1 > start and not any(w in word_set("on_site_signs") for w in who):
                    i += 1
                    continue
            self.and_half(clock, cue)
            span = self.span_after(clock, end)
            if span is not None and between_terminals(self.row, clock, span):
                i = span.end
                continue
            if span is not None and not (clock.bare and span.bare) and self.machine_near(clock.start, start):
                i = span.end  # "sat there from ten fifteen till ten forty five": the machine's time
                continue
            if span is not None and self.plausible(span):
                whole = self.whole_sentence(clock.start, span.end, start, end)
                last_words = self.w.sentence_of[start] == len(self.w.sentences) - 1
                if not whole and clock.start == start and last_words:
                    whole = self.row[span.end : span.end + 1] == (
                        ",",
                    )  # "9 to 2, with an hour for the parts."
                if not whole and clock.start == start and not span.bare:
                    whole = self.w.sentence_of[start] >= len(self.w.sentences) - 2
                minutes = not (clock.bare and span.bare)
                whole = whole or self.told_by_half(clock, span) or self.goes_on(clock)
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

    def read_off_a_scale(self, i: int, start: int, end: int) -> bool:
        """Tell whether a number is a weight: "scale said nineteen six at the start and seventeen ten ..."."""
        weighed = word_set("weighing_words", "plain_words").intersection(self.row[start:i])
        plain = ":" in self.row[i] or any(w in ("am", "pm", "o'clock", "noon") for w in self.row[i : i + 4])
        moved = any(w in ("left", "arrived", "home", "site", "o'clock") for w in self.row[start:end])
        return bool(weighed) and not plain and not moved

    def opens_the_talk(self, i: int, clock: Clock, now: bool) -> bool:
        """Tell whether a time opens the talk, and where one is: "7:40 at the dairy".

        Words of greeting may stand before it: "Okay, it's ten, I'm at the taproom".
        """
        opens = word_set("opens_talk", "labour")
        if not all(self.row[k] in opens for k in range(i)):
            return False
        we = self.row[clock.end : clock.end + 2] in _AND_WE and (now or not clock.bare)
        colon = ":" in self.row[i]
        if now and not colon and clock.minute % 5:
            return False  # "it's one oh six and I'm on the roof"
        return ((colon and i == 0) or we) and self.row[clock.end : clock.end + 1] in _AT_ONCE

    def goes_on(self, clock: Clock) -> bool:
        """Tell whether a span stands right behind another one of work ("nine to twelve and one to three")."""
        if len(self.read) < 2 or (self.read[-2].kind, self.read[-1].kind) != ("start", "end"):
            return False
        between = self.row[self.read[-1].end : clock.start]
        return 0 < len(between) <= 4 and all(w in word_set("between_stretches") for w in between)

    def is_standing(self, i: int, start: int) -> bool:
        """Tell whether something stands still before word i: "the fan is stopped, one eighteen"."""
        before = [w for w in self.row[max(start, i - 3) : i] if w not in (",", "at")]
        return before[-2:] in (["is", "stopped"], ["'s", "stopped"], ["are", "stopped"], ["was", "stopped"])

    def and_half(self, clock: Clock, cue: str | None) -> None:
        """Take "and half" into a bare hour behind a word for the start or end ("finish ten and half")."""
        tail = [w for w in self.row[clock.end : clock.end + 4] if w != "a"]
        if cue is None or not clock.bare or tail[:2] != ["and", "half"]:
            return
        if tail[2:3] and tail[2] in ("hour", "hours"):
            return
        clock.minute, clock.bare = 30, False
        clock.end = self.row.index("half", clock.end) + 1
        take_half_of_day(self.row, clock)

    def plausible(self, clock: Clock) -> bool:
        """Tell whether the words can be a time of day: no unit behind, not inside another number."""
        if not clock.bare and not clock.exact and _DIGITS.fullmatch(self.row[clock.start]):
            # "Nitrogen 500 pounds ..., started at 500": a number that was a reading is one again.
            here = self.row[clock.start]
            if clock.end == clock.start + 1 and here in self.row[max(0, clock.start - 20) : clock.start]:
                return False
        if no_time_of_day(self.row, clock):
            return False
        if any(k in self.units for k in range(clock.start, clock.end)) and (
            _IN_A_TIME.isdisjoint(self.row[clock.start : clock.end])
        ):
            return False
        if clock.end < len(self.row):
            nxt = self.row[clock.end]
            if nxt == "-" and clock.end + 1 < len(self.row) and _COLON.fullmatch(self.row[clock.end + 1]):
                return True
            if nxt == "hours" and clock.exact and _MILITARY.fullmatch(self.row[clock.start]):
                clock.end += 1  # "0900 hours"
                return True
            if nxt in phrases_by_first("not_clock") or nxt in word_set("after_no_clock"):
                if nxt in ("and",):
                    if self.row[clock.end + 1 : clock.end + 2] in (("half",), ("a",)) and self.row[
                        clock.start - 1
                    ] in ("finish", "finished", "start", "arrive", "leave", "left"):
                        return "hours" not in self.row[clock.end : clock.end + 5]
                    return not (
                        clock.end + 2 < len(self.row) and self.row[clock.end + 1] in ("a", "half", "quarter")
                    )
                return False
            named = self.row[clock.end - 1] in ("noon", "midnight", "midday")
            if not named and (_NUMBER.fullmatch(nxt) or (nxt in HOURS and not clock.bare)):
                return False
        if clock.start > 0 and self.row[clock.start - 1] in word_set("before_no_clock"):
            return False
        return clock.hour <= 23 and clock.minute < 60

    def span_after(self, clock: Clock, end: int) -> Clock | None:
        """Return the clock time that ends a span begun by `clock` ("... to one forty five")."""
        if self.row[clock.end : clock.end + 1] == (".",) and self.row[clock.end - 1] in ("a.m", "p.m"):
            clock.end += 1
        behind = self.row[clock.end] if clock.end < len(self.row) else ""
        for phrase in phrases_by_first("to").get(behind, ()):
            if self.row[clock.end : clock.end + len(phrase)] == phrase and clock.end + len(phrase) < end:
                first = clock.end + len(phrase)
                span = minutes_to(self.row, first) or clock_at(self.row, first)
                if span is not None and not clock.bare:
                    self.and_half(span, "end")  # "from two o'clock until five and a half"
                return span
        return None

    def from_hour_to_hour(self, i: int, start: int) -> list[Clock] | None:
        """Return the start and the end of "10 till 2", a sentence of its own where a visit is summed up."""
        number = self.w.sentence_of[start]
        last = self.w.sentences[number][1]
        if i != start or last - start > _SHORT or not 0 < number >= len(self.w.sentences) - _ENDING:
            return None
        first = hour_at(self.row, i)
        if first is None or phrase_length(self.row, i + first[1], "to") != 1:
            return None
        k = i + first[1] + 1
        then = hour_at(self.row, k)
        if then is None or then[0] == first[0]:
            return None
        # "8 until 15 hours" is told by the clock of 24 hours
        most = 24 if self.row[k + then[1] : k + then[1] + 1] == ("hours",) else 12
        if not all(1 <= h[0] <= most for h in (first, then)):
            return None
        if any(w not in (".", "today", "straight", "through", "hours") for w in self.row[k + then[1] : last]):
            return None
        a = Clock(i, i + first[1], first[0], 0, first[0] > 12, True, "start")
        b = Clock(k, k + then[1], then[0], 0, then[0] > 12, True, "end")
        one = minutes_to(self.row, i) or clock_at(self.row, i)
        a.doubt = b.doubt = _ONE_TIME if one is not None and one.end == b.end else ""
        return [a, b]

    def told_by_half(self, clock: Clock, span: Clock) -> bool:
        """Tell whether both ends of a span were said with their half of the day ("eleven pm to one am")."""
        return all(self.row[c.end - 1] in word_set("half_of_day", "labour") for c in (clock, span))

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
