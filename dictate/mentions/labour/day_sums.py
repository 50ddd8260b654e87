"""Hours told day by day, which add up: "Monday eight hours, Tuesday five and a half".

Also hours of another day beside the clock times of this one ("seven to one thirty today, plus three hours
yesterday"): kind `other_day`, which is added to what the clock times give.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dictate.mentions.labour.clock_times import phrase_length, phrases_by_first
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.mentions import LabourMention
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_MOST = 16.0
_STOPS = frozenset((",", ";", ".", "and", "plus", "then", "but", "-"))


@dataclass(slots=True)
class _Told:
    """The hours of one day, said at the words [start, end)."""

    start: int
    end: int
    hours: float
    day: str
    unit: bool  # "hours", or a word for working, stands with the number


def hours_by_days(finder: WorkingTimes) -> tuple[list[LabourMention], list[range]]:
    """Return the hours that several days add up to, and the words they were read from."""
    begun = phrases_by_first("days")
    if not any(w in begun for w in finder.row):
        return [], []
    told = _told(finder)
    groups: list[list[_Told]] = []
    for t in told:
        near = groups and finder.w.sentence_of[t.start] - finder.w.sentence_of[groups[-1][-1].start] <= 1
        if near and all(o.day != t.day for o in groups[-1]):
            groups[-1].append(t)
        else:
            groups.append([t])
    out: list[LabourMention] = []
    used: list[range] = []
    for group in groups:
        if not any(t.unit for t in group):
            continue
        first, last = group[0].start, group[-1].end
        beside = [c.kind for c in finder.read if first - 12 <= c.start < first]
        if len(group) == 1 and beside[-2:] != ["start", "end"]:
            continue
        s, e = finder.w.span(first, last)
        at, heard = finder.narration.at(s, e), finder.narration.heard(s, e)
        kind = "work" if len(group) > 1 else "other_day"
        out.append(LabourMention(kind, None, round(sum(t.hours for t in group), 4), at, heard))
        used.append(range(first, last))
    return out, used


def _told(finder: WorkingTimes) -> list[_Told]:
    """Return the clauses that are nothing but a day and its hours."""
    row = finder.row
    begun = phrases_by_first("days")
    others = {
        finder.w.word_of_token(q.start)
        for q in find_quantities(finder.narration)
        if q.unit not in ("h", None, "")
    }
    numbers: dict[int, tuple[int, int, float]] = {}
    for n in find_numbers(finder.narration):
        if n.form != "ordinal" and 0 < n.value <= _MOST and n.value * 4 % 1 == 0:
            first = finder.w.word_of_token(n.start)
            numbers.setdefault(first, (first, finder.w.word_of_token(n.end), float(n.value)))
    inside = {k for first, last, _ in numbers.values() for k in range(first + 1, last)}
    plain = word_set("with_hours_of_a_day", "labour")
    worked = word_set("hours_worked", "labour")
    out: list[_Told] = []
    for start, end in finder.w.sentences:
        if begun.keys().isdisjoint(row[start:end]):
            continue
        clause = start
        for k in range(start, end + 1):
            if k < end and (row[k] not in _STOPS or k in inside):
                continue
            day, counted, rest, i = "", [], [], clause
            while i < k:
                length = phrase_length(row, i, "days")
                number = numbers.get(i)
                if length and i + length <= k:
                    day, i = day + " " + " ".join(row[i : i + length]), i + length
                elif number is not None and number[1] <= k:
                    counted.append(number)
                    i = number[1]
                else:
                    rest.append(row[i])
                    i += 1
            if day and len(counted) == 1 and counted[0][0] not in others and all(w in plain for w in rest):
                unit = any(w in worked for w in rest)
                out.append(_Told(clause, k, counted[0][2], day, unit))
            clause = k + 1
    return out
