"""A start and an end that no words name, proven by the hours that are told with the end.

    "Twenty past one, corner shop. ... Told the boss. Ten to five, three and a half hours."    13:20 to 16:50

A time of day closes a clause of the first sentences, another one a clause of the last, and as much time as
lies between them is told beside the last: it can hardly be anything else, whatever "ten to five" alone would
mean.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import Clock, clock_at, may_begin, minutes_to
from dictate.mentions.quantities import find_quantities

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_FIRST, _LAST = 2, 3
"""Sentences at either end of a visit in which its times are told."""
_SHORTEST, _LONGEST = 15, 14 * 60
_OFF = 2
"""Minutes by which a told duration may differ from what lies between the times."""
_HALF_A_DAY = 12 * 60
_CLOSES = frozenset((",", ".", "!", ";"))
_PARTS = {("and", "a", "quarter"): 15, ("and", "a", "half"): 30, ("and", "three", "quarters"): 45}


def proven_by_hours(finder: WorkingTimes, clocks: list[Clock]) -> None:
    """Put the start and the end that the told hours prove in place of others that do not fit them."""
    sentences = finder.w.sentences
    if len(sentences) < _FIRST + _LAST:
        return
    told = _hours_told(finder, sentences[-_LAST:])
    if not told or _fit(clocks, told):
        return
    for end in reversed(_times(finder, sentences[-_LAST:])):
        for start in _times(finder, sentences[:_FIRST]):
            between = (end.minutes - start.minutes) % _HALF_A_DAY
            if any(abs(between - minutes % _HALF_A_DAY) <= _OFF for minutes in told):
                start.kind, end.kind = "start", "end"
                clocks[:] = [start, end]
                return


def _fit(clocks: list[Clock], told: list[int]) -> bool:
    """Tell whether the start and the end that words name lie so far apart as is told."""
    starts = [c for c in clocks if c.kind == "start"]
    ends = [c for c in clocks if c.kind == "end"]
    return any(
        abs((e.minutes - s.minutes) % _HALF_A_DAY - minutes % _HALF_A_DAY) <= _OFF
        for s in starts
        for e in ends
        for minutes in told
    )


def _hours_told(finder: WorkingTimes, sentences: list[tuple[int, int]]) -> list[int]:
    """Return how many minutes each duration in some sentences may be: "three and a half hours"."""
    begin, stop = sentences[0][0], sentences[-1][1]
    out: list[int] = []
    for q in find_quantities(finder.narration):
        start, end = finder.w.word_of_token(q.start), finder.w.word_of_token(q.end)
        if q.unit not in ("h", "min") or not begin <= start < stop:
            continue
        minutes = q.in_unit("h") * 60 if q.unit == "h" else q.in_unit("min")
        extra, _ = finder.trailing_minutes(end) if q.unit == "h" and not q.parts else (0, end)
        out += [round(minutes), round(minutes + extra)]
    for i in range(begin, stop):
        if finder.row[i] == "hour":
            out += [
                60 + more for said, more in _PARTS.items() if finder.row[i + 1 : i + 1 + len(said)] == said
            ]
    return [minutes for minutes in out if _SHORTEST <= minutes <= _LONGEST]


def _times(finder: WorkingTimes, sentences: list[tuple[int, int]]) -> list[Clock]:
    """Return the times of day that close a clause of some sentences, an hour alone left out."""
    out: list[Clock] = []
    row = finder.row
    for start, end in sentences:
        i = start
        while i < end:
            clock = (minutes_to(row, i) or clock_at(row, i)) if may_begin(row[i]) else None
            if clock is None or clock.bare or clock.minute % 5 or row[clock.end - 1] in _CLOSES:
                i += 1
                continue
            if row[clock.end : clock.end + 1] == () or row[clock.end] in _CLOSES:
                out.append(clock)
            i = clock.end
    return out


__all__ = ["proven_by_hours"]
