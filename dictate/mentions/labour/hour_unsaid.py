"""An end told by its minutes alone: "At one in the morning it held. ... Clocked out quarter past".

The hour is the one of the last time of day that was told before it; there is always a reason to look.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import Clock, clock_at, may_begin
from dictate.mentions.labour.first_and_last import OF_THE_CLOCK
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_LAST = 3
"""Sentences at the end of a visit in which it is told."""
_HOUR, _HALF_A_DAY = 60, 12 * 60
_MINUTES = {"quarter": 15, "half": 30, "five": 5, "ten": 10, "twenty": 20, "5": 5, "10": 10, "20": 20}
_AFTER, _BEFORE = ("past", "after"), ("to", "till", "til", "of")
_CLOSED = ((".",), (",",), ("!",), ())
_SAYS_A_TIME = OF_THE_CLOCK | word_set("half_of_day", "labour")
NO_HOUR = "the hour was not said; it is taken from the time of day told before it"


def end_without_its_hour(finder: WorkingTimes, clocks: list[Clock]) -> None:
    """Add the end that was told without its hour to the times of work, in place."""
    if any(c.kind == "end" for c in clocks):
        return
    for start, end in finder.w.sentences[-_LAST:]:
        for k in range(start, end - 1):
            minutes = _MINUTES.get(finder.row[k])
            way = finder.row[k + 1]
            if minutes is None or way not in (*_AFTER, *_BEFORE) or finder.row[k + 2 : k + 3] not in _CLOSED:
                continue
            first = k - (finder.row[k - 1] == "a")
            before = _last_told(finder, clocks, k) if finder.cue(first, start) == "end" else None
            if before is not None:
                clocks.append(_behind(before, first, k + 2, minutes if way in _AFTER else -minutes))
                return


def _behind(before: Clock, first: int, last: int, minutes: int) -> Clock:
    """Return the first time of these minutes that lies behind another one."""
    told = before.hour * _HOUR + minutes
    while told <= before.minutes:
        told += _HOUR
    if not before.exact and told >= _HALF_A_DAY + _HOUR and before.hour <= 12:
        told -= _HALF_A_DAY
    hour, minute = divmod(told, _HOUR)
    return Clock(first, last, hour % 24, minute, before.exact, False, "end", True, NO_HOUR)


def _last_told(finder: WorkingTimes, clocks: list[Clock], until: int) -> Clock | None:
    """Return the last time of day before a word that can be nothing else, whatever it is the time of."""
    out = next((c for c in reversed(clocks) if c.end <= until), None)
    i = 0
    while i < until:
        clock = clock_at(finder.row, i) if may_begin(finder.row[i]) else None
        if clock is None or clock.end > until or not finder.plausible(clock):
            i += 1
            continue
        said = finder.row[clock.start : clock.end]
        sure = any(":" in w for w in said) or not _SAYS_A_TIME.isdisjoint(said)
        if sure and not clock.bare and (out is None or out.end <= i):
            out = clock
        i = clock.end
    return out


__all__ = ["NO_HOUR", "end_without_its_hour"]
