"""What became of a pressure test, as said: `find_holds(narration, mentions) -> list[HoldMention]`.

"to one fifty, sat there from ten fifteen till ten forty five, didn't move"     30 minutes, held
"put one eighty on it at 10:05. 10:35 it's 171"   30 minutes; no word of it
"... overnight, dropped to 37.4"                                                fell
"""

from __future__ import annotations

import re
from functools import cache

from dictate.mentions.labour.clock_times import clock_at
from dictate.mentions.narration import Narration, lowers
from dictate.mentions.patterns import Words, words_of
from dictate.record.mentions import HoldMention, Mentions
from dictate.vocabulary.load import table

_WINDOW = 60  # words behind a step that still tell of it
_LONGEST = 26 * 60  # minutes; a test over a night and a morning


@cache
def _phrases(name: str) -> tuple[tuple[str, ...], ...]:
    return tuple(sorted((tuple(lowers(p)) for p in table("holds")[name]), key=len, reverse=True))


def _at(row: tuple[str, ...], i: int, name: str) -> int:
    return next((len(p) for p in _phrases(name) if row[i : i + len(p)] == p), 0)


def find_holds(narration: Narration, mentions: Mentions) -> list[HoldMention]:
    """Return what is said of each pressure test that was done, in the order of the steps."""
    words = words_of(narration)

    def word(segment: int | None, index: int | None) -> int:
        tokens = narration.tokens_of(segment or 0, index or 0)
        return words.word_of_token(tokens.start) if tokens is not None else 0

    taken: set[int] = set()
    for r in mentions.readings:
        taken |= set(range(word(r.at.segment, r.at.first_word), word(r.at.segment, r.at.last_word) + 1))
    ends = set(table("holds")["ends"])
    starts = [(word(s.at.segment, s.at.first_word), s) for s in mentions.steps if s.status == "done"]
    out: list[HoldMention] = []
    for first, step in starts:
        if step.step != "pressure_tested":
            continue
        later = [w for w, s in starts if w > first and s.step in ends]
        last = min([len(words.words), first + _WINDOW, *later])
        minutes = _span(words, first, last, taken)
        result = _result(words.words, first, last)
        if minutes is not None or result is not None:
            out.append(HoldMention(minutes, result, step.at))
    return out


def _result(row: tuple[str, ...], first: int, last: int) -> str | None:
    """Return "held" or "failed" by the last thing that is said of it."""
    found: str | None = None
    i = first
    while i < last:
        held, fell = _at(row, i, "held"), _at(row, i, "fell")
        if (
            held >= fell
            and held
            and not (
                row[i - 1] in ("didn't", "not", "wouldn't", "won't", "never") and row[i] in ("held", "hold")
            )
        ):
            found = "held"
        elif fell and row[i] in _BY_HAND and row[i + fell : i + fell + 1] in _ITS_GAS:
            pass  # "dropped it out": the nitrogen was let off
        elif fell and row[i - 1] in ("i", "we"):
            pass  # "I was down to one point one millibar" is told of the pump that comes next
        elif fell and row[i - 1] not in ("didn't", "not", "never", "no", "nothing", "hasn't"):
            found = "held" if _denied(row, i) else "failed"
        i += max(held, fell, 1)
    return found


_BY_HAND = ("dropped", "dropping", "bled", "bleeding")
_ITS_GAS = (("it",), ("her",), ("them",), ("the",), ("that",), ("my",))


def _denied(row: tuple[str, ...], i: int) -> bool:
    """Tell whether a loss is denied by words of its clause: "not a needle's width lost"."""
    lead = row[max(0, i - 6) : i]
    last = max((k for k, w in enumerate(lead) if w in (".", ",", ";", "and", "but")), default=-1)
    return not _NONE.isdisjoint(lead[last + 1 :])


_NONE = frozenset(("not", "no", "nothing", "never", "none", "without", "zero"))


def _span(words: Words, first: int, last: int, taken: set[int]) -> float | None:
    """Return the minutes between the first and the last clock time of a test."""
    row = words.words
    times: list[int] = []
    i = first
    while i < last:
        clock = clock_at(row, i) if i not in taken else None
        if clock is None or clock.bare or any(k in taken for k in range(i, clock.end)):
            i += 1
            continue
        written = ":" in row[i] or row[i] in ("quarter", "half") or row[clock.end - 1] == "o'clock"
        led = row[i - 1] in table("holds")["clock"] or (bool(times) and row[i - 1] in table("holds")["span"])
        if not (written or led) or re.fullmatch(r"\d+", row[i]):
            i += 1
            continue
        times.append(clock.hour * 60 + clock.minute)
        i = clock.end
    if len(times) < 2:
        return None
    minutes = times[-1] - times[0]
    if minutes <= 0:
        minutes += 12 * 60  # "from eleven fifty to twelve twenty", "from twelve ten to one ten"
    return float(minutes) if 0 < minutes <= _LONGEST else None
