"""Working times as said: `find_labour(narration) -> list[LabourMention]`.

Clock times ("nine fifteen to one forty five", "got here at seven thirty", "quarter to four", "13 20")
come out as HH:MM of 24 hours. The half of the day is the one in which a working day is plausible, and the
end lies after the start: "started one fifteen, wrapped up at four" is 13:15 to 16:00. A reason is given
where it could be the other half. Durations ("two and a half hours labor") come out in hours; times of the
machine are left alone.

    clock_times      a time of day at a word, whatever it is the time of
    time_words       what the words around a time say: start, end, a machine's time
    working_clocks   the clock times that are a start or an end of work
    pairs            two times of one telling, where one or none has a cue
    durations        the durations of work, travel and breaks
    duration_kinds   what a duration is of
    closing          what sums a visit up in its last sentences
    hour_unsaid      an end told by its minutes alone: "clocked out quarter past"
    first_and_last   the start and the end that no words name
    proven_by_hours  ... where the hours that are told with the end prove them
"""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise

from dictate.mentions.labour.clock_times import Clock, phrases_by_first
from dictate.mentions.labour.closing import closing_clock
from dictate.mentions.labour.durations import WorkingTimes
from dictate.mentions.labour.first_and_last import first_and_last
from dictate.mentions.labour.hour_unsaid import end_without_its_hour
from dictate.mentions.labour.proven_by_hours import proven_by_hours
from dictate.mentions.narration import Narration
from dictate.record.base import At
from dictate.record.mentions import LabourMention, Mentions

_FIRST = 3  # sentences in which a call at night is told
_LAST = 4  # ... and in which it is mostly summed up
_STARTS = (("start",), ("arrival",))
_ENDS = (("end",), ("finish",), ("stop",), ("departure",))
_EARLY = "morning or evening was not said"


def leave_out_times(mentions: Mentions) -> None:
    """Take doubted bare values out of the readings whose words are a working time: "here 10 to 1 30".

    Words of a reading that nothing speaks against are no time of day: "suction 18, head 210 when I left".
    """
    read = {
        (r.at.segment, word)
        for r in mentions.readings
        if r.role == "measured" and not r.review
        for word in _words(r.at)
    }
    mentions.labour = [
        m
        for m in mentions.labour
        if m.kind not in ("start", "end") or not {(m.at.segment, word) for word in _words(m.at)} <= read
    ]
    times = {(m.at.segment, word) for m in mentions.labour for word in _words(m.at)}
    if times:
        mentions.readings = [
            r
            for r in mentions.readings
            if not (r.review and r.unit_assumed and {(r.at.segment, word) for word in _words(r.at)} <= times)
        ]


def _words(at: At) -> range:
    if at.first_word is None or at.last_word is None:
        return range(0)
    return range(at.first_word, at.last_word + 1)


def find_labour(narration: Narration) -> list[LabourMention]:
    """Return the working times as said, in order."""
    finder = WorkingTimes(narration)
    clocks = [
        c
        for c in finder.working_times()
        if c.cued or finder.scopes.ours(c.start) or finder.said_of_us(c.start) or finder.on_a_sheet(c.start)
    ]
    durations = finder.durations()
    clocks = _of_the_telling(finder, _labelled(finder, clocks))
    closing_clock(finder, clocks)
    end_without_its_hour(finder, clocks)
    first_and_last(finder, clocks)
    proven_by_hours(finder, clocks)
    first = finder.row[: finder.w.sentences[min(_FIRST, len(finder.w.sentences)) - 1][1]] if clocks else ()
    begun = phrases_by_first("in_the_night")
    night = any(first[k : k + len(p)] == p for k, w in enumerate(first) for p in begun.get(w, ()))
    _halves(clocks, night)
    _evenings(finder, clocks, [d.hours for d in durations if d.kind == "work" and d.hours])
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
                    _reasons(finder, c, clocks),
                ),
            )
        )

    def said_at(token: int) -> tuple[int, int]:
        return narration.tokens[token].segment, narration.tokens[token].word

    for d in durations:
        place = d.at.segment or 0, d.at.first_word or 0
        index = bisect_left(finder.w.tokens, place, key=said_at)
        out.append((index if index < len(finder.w.tokens) else 0, d))
    return [m for _, m in sorted(out, key=lambda x: x[0])]


def _labelled(finder: WorkingTimes, clocks: list[Clock]) -> list[Clock]:
    """Leave out the starts beside the one that is called so at the head of a sentence ("Start 11:05.")."""
    for kind, label in (("start", _STARTS), ("end", _ENDS)):
        told = [
            c
            for c in clocks
            if c.kind == kind
            and finder.row[c.start - 1 : c.start] in label
            and finder.w.sentences[finder.w.sentence_of[c.start]][0] == c.start - 1
        ]
        if len(told) == 1:
            clocks = [c for c in clocks if c.kind != kind or c is told[0]]
    return clocks


def _of_the_telling(finder: WorkingTimes, clocks: list[Clock]) -> list[Clock]:
    """Leave out a start from the middle of a visit where its opening or its last sentences tell one.

    "Speed down from fourteen hundred ... Nine thirty to noon": a start alone in the middle is mostly a value.
    A stretch of work of its own has an end right behind it and stays.
    """
    count = len(finder.w.sentences)

    def told(c: Clock) -> bool:
        return not _FIRST - 1 <= finder.w.sentence_of[c.start] < count - _LAST

    starts = [c for c in clocks if c.kind == "start"]
    if len({c.minutes for c in starts}) < 2 or not any(told(c) for c in starts):
        return clocks
    alone = {id(a) for a, b in pairwise([*clocks, None]) if a is not None and (b is None or b.kind != "end")}
    return [c for c in clocks if c.kind != "start" or told(c) or id(c) not in alone]


def _reasons(finder: WorkingTimes, clock: Clock, clocks: list[Clock]) -> list[str]:
    """Return why a person must look at a time of work."""
    out = [clock.doubt] if clock.doubt else []
    if clock.kind == "start" and not clock.exact and clock.hour in (16, 17):
        out.append(_EARLY)
    beside = [c for c in clocks if finder.w.sentence_of[c.start] == finder.w.sentence_of[clock.start]]
    start, end = finder.w.sentences[finder.w.sentence_of[clock.start]]
    said = set(finder.row[start:end])
    if len(beside) == 2 and "yesterday" in said and not said.isdisjoint(("today", "this")):
        out.append("the start and the end may be of two days")
    return out


def _evenings(finder: WorkingTimes, clocks: list[Clock], worked: list[float]) -> None:
    """Put a start, or the whole visit, into the evening where its other times or its words say so.

    A start before noon is a guess. An end that was said as of the evening, more than half a day later, or the
    hours of work together with it, overrule the guess; "evening call" and its like do so for both times.
    """
    starts = [c for c in clocks if c.kind == "start"]
    ends = [c for c in clocks if c.kind == "end"]
    if len({c.minutes for c in starts}) != 1 or len({c.minutes for c in ends}) > 1:
        return
    start, end = starts[0], ends[0] if ends else None
    if start.exact or not 5 <= start.hour < 12:
        return
    hours = worked[0] if len(set(worked)) == 1 else None
    if end is not None and (end.exact or end.hour >= 12):
        long = (end.minutes - start.minutes) / 60
        short = long - _HALF_A_DAY
        if end.exact and -_HALF_A_DAY <= long < 0 and long + _HALF_A_DAY <= _LONGEST_VISIT:
            for c in starts:  # "got there at ten ... one in the morning when I left": over midnight
                c.hour += 12
                c.doubt = c.doubt or _EARLY
        if short <= 0:
            return
        fits = hours is not None and abs(short - hours) < min(0.51, abs(long - hours))
        if fits or (hours is None and end.exact and long > _LONGEST_VISIT):
            for c in starts:
                c.hour += 12
                c.doubt = c.doubt or ("" if fits else _EARLY)
        return
    beside = {finder.w.sentence_of[c.start] for c in (*starts, *ends)}
    called = any(
        finder.row[k : k + len(p)] == p
        for k, word in enumerate(finder.row)
        if word in _AT_NIGHT and (finder.w.sentence_of[k] < 2 or finder.w.sentence_of[k] in beside)
        for p in _AT_NIGHT[word]
    )
    if called and (end is None or not end.exact):
        for c in (*starts, *ends):
            if c.hour < 12:
                c.hour += 12
                c.doubt = c.doubt or _EARLY


_HALF_A_DAY = 12
_LONGEST_VISIT = 12.0  # hours; a start said without its half is then rather of the evening
_AT_NIGHT = phrases_by_first("night_visits")


def _halves(clocks: list[Clock], by_night: bool) -> None:
    """Set the half of the day: a start between six and twelve is the morning, an end lies after the start."""
    start: Clock | None = None
    for c in clocks:
        if c.kind == "start":
            if not c.exact and 1 <= c.hour <= 5:
                c.hour += 12
            start = c
        elif c.kind == "end" and not c.exact:
            if start is not None:
                hour = c.hour
                while c.minutes <= start.minutes and c.hour < 12:
                    c.hour += 12
                if c.minutes <= start.minutes and start.hour >= 18:
                    c.hour = hour  # "ten pm to one fifteen": over midnight
            elif 1 <= c.hour <= 6 and not by_night:
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
