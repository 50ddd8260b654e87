"""The start and the end that no words name: the first time of day that is told, and the last.

There is no end of ways to say that one came and went ("rocked up ten past seven", "half two I left him",
"twelve fifteen, done"), but hardly any other time of day is told in the first sentences of a visit and in its
last. Such a time is taken where the words name no start, or no end, and always with a reason to look at it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import Clock, clock_at, may_begin, minutes_to
from dictate.mentions.whose.things import things_of
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

FIRST, LAST = 4, 3
"""Sentences at either end of a visit in which its start and its end are told."""
_LAST_BARE = 2
"""... and in which two numbers that nothing calls a time may be one ("Rolled off nine twenty.")."""
_SHORT = 7
"""Words of such a sentence."""
_SHORTEST, _LONGEST = 15, 10 * 60
"""Minutes from the start to the end of a visit."""
OF_THE_CLOCK = frozenset(
    ("past", "to", "tae", "of", "till", "til", "half", "quarter", "o'clock", "noon", "am", "pm", "a.m", "p.m")
)
NO_START, NO_END = "that it is the start was not said", "that it is the end was not said"


def first_and_last(finder: WorkingTimes, clocks: list[Clock]) -> None:
    """Add the start and the end that nothing names to the times of work, in place."""
    kinds = {c.kind for c in clocks}
    sentences = finder.w.sentences
    if len(sentences) < FIRST + LAST:
        return  # too little talk to tell its begin from its end
    if "start" not in kinds:
        before = clocks[0].start if clocks else len(finder.row)
        _take(clocks, "start", _told(finder, sentences[:FIRST], until=before))
    started = next((c for c in clocks if c.kind == "start"), None)
    if "end" not in kinds and started is not None:
        late = [
            c
            for c in _told(finder, sentences[-LAST:], since=started.end)
            if _SHORTEST <= (c.minutes - started.minutes) % (12 * 60) <= _LONGEST
        ]
        _take(clocks, "end", (late or _bare(finder, started))[-1:])


def _take(clocks: list[Clock], kind: str, told: list[Clock]) -> None:
    if not told:
        return
    clock = told[0]
    clock.kind, clock.doubt = kind, NO_START if kind == "start" else NO_END
    clocks.append(clock)
    clocks.sort(key=lambda c: c.start)


def _told(
    finder: WorkingTimes, sentences: list[tuple[int, int]], since: int = 0, until: int | None = None
) -> list[Clock]:
    """Return the times of day in some sentences that can be nothing else: "ten past seven", "half two"."""
    out: list[Clock] = []
    row = finder.row
    for start, end in sentences:
        if _other_day(row[start:end]):
            continue
        i = max(start, since)
        while i < min(end, len(row) if until is None else until):
            clock = (minutes_to(row, i) or clock_at(row, i)) if may_begin(row[i]) else None
            if clock is None or clock.bare or clock.end > end or not finder.plausible(clock):
                i += 1
                continue
            words = row[clock.start : clock.end]
            sure = any(":" in w for w in words) or not OF_THE_CLOCK.isdisjoint(words)
            if sure and finder.scopes.ours(i) and not finder.machine_near(clock.start, start):
                out.append(clock)
            i = clock.end
    return out


def _bare(finder: WorkingTimes, started: Clock) -> list[Clock]:
    """Return "nine twenty" of a short sentence at the very end that tells of no thing: it fits the start."""
    row = finder.row
    out: list[Clock] = []
    for start, end in finder.w.sentences[-_LAST_BARE:]:
        if start < started.end or _other_day(row[start:end]):
            continue
        if any(start <= t.start < end for t in things_of(finder.w)):
            continue
        for i in range(start, end):
            clock = clock_at(row, i) if may_begin(row[i]) else None
            if clock is None or clock.bare or clock.minute % 5 or not finder.plausible(clock):
                continue
            alone = end - start <= _SHORT or (i == start and row[clock.end : clock.end + 1] == (",",))
            fits = _SHORTEST <= (clock.minutes - started.minutes) % (12 * 60) <= _LONGEST
            if alone and fits and row[clock.end : clock.end + 1] in ((".",), (",",), ("!",), ()):
                out.append(clock)
                break
    return out


def _other_day(words: tuple[str, ...]) -> bool:
    return not word_set("not_of_this_visit", "labour").isdisjoint(words)


__all__ = ["NO_END", "NO_START", "first_and_last"]
