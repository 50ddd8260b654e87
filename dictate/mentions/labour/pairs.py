"""Two times of one telling: "up the ladder at half one, down at quarter past four".

A coming and a going are mostly told together, and in words that are no cue by themselves ("off by 9:55",
"in at nine"). Where all the words around two times are words of coming and going (labour.toml, `told`), or
where one of the two is known and the other stands in a clause that no machine is spoken of, they are the
start and the end. A span in such words ("all up nine o'clock to half past one") likewise.
"""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.labour.clock_times import (
    Clock,
    clock_at,
    may_begin,
    minutes_to,
    opens_span,
    phrases_by_first,
)
from dictate.mentions.labour.no_times import left_standing
from dictate.mentions.labour.working_clocks import WorkingClocks
from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.quantities import find_quantities
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

_LAST = 4  # sentences at the end in which a visit is mostly summed up
_FIRST = 2
_CUTS = frozenset((",", ";", "and", "then", "but", "so"))
_OTHER = {"start": "end", "end": "start"}


def _ours(finder: WorkingClocks, first: int, last: int) -> bool:
    """Tell whether words first to last are all words of coming and going."""
    told = word_set("told", "labour")
    return all(w in told for w in finder.row[first:last])


def _kind(finder: WorkingClocks, first: int, last: int) -> str | None:
    """Return what the words of a clause say: a coming, a going, or neither of the two."""
    words = finder.row[first:last]
    coming = [k for k, w in enumerate(words) if w in word_set("coming", "labour")]
    going = [k for k, w in enumerate(words) if w in word_set("going", "labour")]
    if not coming and not going:
        return None
    if words[-3:] == ("the", "clock", "at") or "since" in words:
        return "start"
    return "end" if (max(going, default=-1) > max(coming, default=-1)) else "start"


def _times(finder: WorkingClocks, start: int, end: int) -> list[Clock]:
    """Return the times of a sentence that no unit and no machine lays claim to."""
    out: list[Clock] = []
    leads = word_set("leads", "labour") | word_set("going", "labour") | word_set("coming", "labour")
    i = start
    while i < end:
        if not may_begin(finder.row[i]):
            i += 1
            continue
        clock = clock_at(finder.row, i)
        before = finder.row[i - 1] if i > start else ""
        if clock is None or i == start or before in _CUTS or before in leads:
            clock = minutes_to(finder.row, i) or clock
        if clock is None or not finder.plausible(clock) or finder.sets_off(clock, start, end):
            i += 1
            continue
        hundred = finder.row[clock.end - 1] == "hundred" and finder.row[clock.end : clock.end + 1] != (
            "hours",
        )
        if (clock.bare and before not in leads) or hundred or _in_a_list(finder.row, clock):
            i += 1
            continue
        out.append(clock)
        i = clock.end
    return out


def _in_a_list(row: tuple[str, ...], clock: Clock) -> bool:
    """Tell whether a number stands right beside a time: "four oh eight, four oh seven" are values."""
    before = row[clock.start - 2 : clock.start] if clock.start > 1 else ()
    behind = row[clock.end : clock.end + 2]
    return (before[1:] == (",",) and _is_number(before[0])) or (
        behind[:1] == (",",) and len(behind) > 1 and _is_number(behind[1])
    )


def _is_number(word: str) -> bool:
    return word in NUMBER_WORDS or word[:1].isdigit()


def _clause(finder: WorkingClocks, clock: Clock, start: int, floor: int) -> int:
    """Return the first word of the clause that tells of a time; nothing before `floor` belongs to it."""
    k = clock.start
    while k > max(start, floor) and not (finder.row[k - 1] in _CUTS and k < clock.start):
        k -= 1
    return k


def complete_pairs(finder: WorkingClocks, read: list[Clock]) -> list[Clock]:
    """Return the working times with the partners that the cues alone did not tell."""
    known = {k: [c for c in read if c.kind == k] for k in _OTHER}
    if known["start"] and known["end"]:
        return read
    count = len(finder.w.sentences)
    for number, (start, end) in enumerate(finder.w.sentences):
        inside = [c for c in read if start <= c.start < end]
        beside = not inside and any(abs(finder.w.sentence_of[c.start] - number) == 1 for c in read)
        if not inside and not beside and _FIRST <= number < count - _LAST:
            continue
        times = _times(finder, start, end)
        if times and left_standing(finder.row[max(start, times[0].start - 6) : times[0].start]):
            continue
        if not times or (not inside and not beside and len(times) != 2):
            continue
        told = [_told(finder, times, n, start) for n in range(len(times))]
        if not inside and len(times) == 2 and told[0][0] and told[1][0]:
            kinds = [told[0][1], told[1][1]]
            if kinds in (["start", "end"], ["end", "start"]):
                for clock, kind in zip(times, kinds, strict=True):
                    clock.kind, clock.cued = kind, True
                return sorted([*read, *times], key=lambda c: c.start)
        for have, wanted in _OTHER.items():
            if not known[have] or known[wanted]:
                continue
            near = inside or known[have]
            for clock, (plain, kind, foreign) in zip(times, told, strict=True):
                if any(c.start < clock.end and clock.start < c.end for c in near) or foreign > 3:
                    continue
                kind = kind or (wanted if plain and inside else None)
                if kind == wanted and (plain or (inside and not _of_a_machine(finder, clock, start))):
                    clock.kind, clock.cued = wanted, True
                    return sorted([*read, clock], key=lambda c: c.start)
    return read


def by_the_clock(finder: WorkingClocks, read: list[Clock]) -> list[Clock]:
    """Return the start and the end of a visit told by the clock: "Nine o'clock, ... Nine fifteen. ...".

    Four sentences and more begin with a time, each later than the one before; the first opens the telling,
    and the last is a going ("Twelve even, gone").
    """
    if any(c.kind == "start" for c in read) and any(c.kind == "end" for c in read):
        return read
    told: list[Clock] = []
    for start, end in finder.w.sentences:
        clock = clock_at(finder.row, start) if may_begin(finder.row[start]) else None
        if clock is None:
            continue
        stop = clock.end + (finder.row[clock.end : clock.end + 1] in _EXACTLY)
        named = stop > clock.end or not clock.bare
        if named and stop < end and finder.row[stop] in (",", ".", ":") and finder.plausible(clock):
            told.append(clock)
    rising = all(0 < (b.minutes - a.minutes) % 720 < 360 for a, b in pairwise(told))
    if len(told) < _BY_THE_CLOCK or not rising:
        return read
    out = list(read)
    if not any(c.kind == "start" for c in read) and finder.w.sentence_of[told[0].start] < _FIRST:
        told[0].kind, told[0].cued = "start", True
        out.append(told[0])
    last = told[-1]
    number = finder.w.sentence_of[last.start]
    behind = finder.row[last.end : finder.w.sentences[number][1]]
    going = not word_set("going", "labour").isdisjoint(behind[:4])
    if not any(c.kind == "end" for c in read) and number >= len(finder.w.sentences) - _LAST and going:
        last.kind, last.cued = "end", True
        out.append(last)
    return sorted(out, key=lambda c: c.start)


_BY_THE_CLOCK = 4
_EXACTLY = (("even",), ("sharp",), ("flat",), ("exactly",))


def _told(finder: WorkingClocks, times: list[Clock], n: int, start: int) -> tuple[bool, str | None, int]:
    """Return whether a clause is all of coming and going, what it says, and how many words are foreign."""
    clock = times[n]
    floor = times[n - 1].end if n else start
    first = _clause(finder, clock, start, floor)
    kind = _kind(finder, first, clock.start)
    if kind is None:
        first = max(start, floor)
        kind = _kind(finder, first, clock.start)
    told = word_set("told", "labour")
    foreign = sum(w not in told for w in finder.row[first : clock.start])
    return foreign == 0, kind, foreign


def _of_a_machine(finder: WorkingClocks, clock: Clock, start: int) -> bool:
    """Tell whether a thing or a time of the machine stands in the words before a time."""
    first = max(start, clock.start - 8)
    if any(first <= t.start < clock.start for t in things_of(finder.w)):
        return True
    return finder.of_itself(first, clock.start) or finder.machine_near(clock.start, start)


_TILL = frozenset(("till", "til", "until", "while"))


def _under_test(finder: WorkingClocks, first: int, start: int) -> bool:
    """Tell whether a value or a test stands right before a span: "200 psi, ten fifteen to ..."."""
    near = range(max(start, first - _NEAR_A_TEST), first)
    return finder.machine_near(first, start) or any(
        finder.row[k] in phrases_by_first("not_clock") for k in near
    )


_NEAR_A_TEST = 6


def _of_us(finder: WorkingClocks, first: int) -> bool:
    """Tell whether "that's us", "that was me" and their like stand before word `first`."""
    lead = [
        w for w in finder.row[max(0, first - 6) : first] if w not in (",", "was", "were", "is", "be", "from")
    ]
    return lead[-1:] in (["me"], ["us"]) or lead[-1:] in (["that'll"], ["that"], ["that's"])


def _as_long_as_said(finder: WorkingClocks, clock: Clock, span: Clock, number: int) -> bool:
    """Tell whether hours said in the same sentence are as long as a span: "four hours flat, nine to one"."""
    first, last = finder.w.sentences[number]
    plain = word_set("before_closing_hours", "labour") | word_set("behind_hours", "labour") | {","}
    if not all(w in plain or w in NUMBER_WORDS or w[:1].isdigit() for w in finder.row[first : clock.start]):
        return False  # "the last ticket says two hours, eight till ten"
    long = (span.minutes - clock.minutes) % 720 / 60
    return any(
        q.unit == "h"
        and first <= finder.w.word_of_token(q.start) < last
        and abs(q.in_unit("h") - long) < _AGREE
        for q in find_quantities(finder.narration)
    )


_AGREE = 0.02  # hours


def _day(finder: WorkingClocks, first: int, last: int) -> int | None:
    """Return where the day begins that a span is told of ("today eight to one"), None where none is."""
    k = max((i for i in range(first, last) if finder.row[i] in _CUTS), default=first - 1) + 1
    days = phrases_by_first("days")
    if k < last and any(finder.row[k : k + len(p)] == p for p in days.get(finder.row[k], ())):
        return k
    return None


def told_spans(finder: WorkingClocks, read: list[Clock]) -> list[Clock]:
    """Return the spans of a visit that stand among words of coming and going only, in two clock times."""
    out: list[Clock] = []
    count = len(finder.w.sentences)
    told = {finder.w.sentence_of[c.start] for c in read}
    for number, (start, end) in enumerate(finder.w.sentences):
        if _FIRST <= number < count - _LAST and number not in told:
            continue
        i = start
        while i < end:
            clock = clock_at(finder.row, i) if may_begin(finder.row[i]) else None
            clock = (opens_span(finder.row, i) or clock) if clock is not None else None
            if clock is None or not finder.plausible(clock):
                i += 1
                continue
            span = finder.span_after(clock, end)
            if span is None or not finder.plausible(span):
                i = clock.end
                continue
            if left_standing(finder.row[max(start, clock.start - 6) : clock.start]):
                i = span.end
                continue
            known = any(
                c.start < span.end and clock.start < c.end and c.kind and (c.kind, c.end) != ("end", span.end)
                for c in read
            )
            first = _clause(finder, clock, start, out[-1].end if out else start)
            last = span.end
            while last < end and finder.row[last] not in (",", ".", ";", "and"):
                last += 1
            closing = number == count - 1 and last >= end - 1 and clock.start > start
            closing = closing and not _under_test(finder, clock.start, start)
            if closing and (not clock.bare or not span.bare or finder.row[clock.end] in _TILL):
                # "caps on, 1 till 4:30": nothing but the span stands in the last clause of all
                first = clock.start if finder.row[clock.start - 1] in _CUTS else first
            # Two bare hours are a span of work where the visit ends with it: "that was us, ten until two".
            said = not (clock.bare and span.bare) or (
                closing and (finder.row[clock.end] in _TILL or _of_us(finder, clock.start))
            )
            if finder.row[clock.start - 1] in _CUTS and _as_long_as_said(finder, clock, span, number):
                said, first = True, clock.start
            elif (day := _day(finder, first, clock.start)) is not None:
                said, first = True, day
            if not known and said and _ours(finder, first, clock.start) and _ours(finder, span.end, last):
                clock.kind, span.kind = "start", "end"
                clock.cued = span.cued = True
                out += [clock, span]
            i = span.end
    return out


def close_by(finder: WorkingClocks, read: list[Clock]) -> None:
    """Take a start and an end told together at the very end as those of the visit, whoever is spoken of.

    "... told reception get it done twice a year, in at half ten and out at ten to one".
    """
    if [c.kind for c in read] != ["start", "end"]:
        return
    first, then = read
    if then.start - first.end <= _TOGETHER and len(finder.row) - then.end <= _TOGETHER:
        first.cued = then.cued = True


_TOGETHER = 6  # words between a start and an end that are told together
