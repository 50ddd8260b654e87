"""A gauge read aloud while it moves, one number a breath: what the row is of, and what was cut short.

    "Pump. Twenty-four hundred... twelve hundred... four... three ten. Valve off. Three forty."   a vacuum
    "Nitro. Two hundred. Three fifty. Leave it be. Thirty minutes. Three fifty."                  a pressure
    "Recover it. Ninety. Forty. Twelve. Zip. Eight inches. Shut it."                              a recovery

Such a row follows a word that opens the work and goes one way until the valve is shut; then it creeps. Its
numbers have no unit, or one of them says it for all. A number of which only the hundreds were said ("four"
between twelve hundred and three ten) is taken so, with a reason.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise

from dictate.mentions.narration import Narration
from dictate.mentions.not_values.identities import identity_spans
from dictate.mentions.not_values.scale_runs import numbers_of_scales, words_beside
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.word_lists import first_words, phrase_at, word_list
from dictate.units import convert
from dictate.vocabulary.load import table

VACUUM, PRESSURE, RECOVERY = "vacuum", "pressure", "recovery"
_UNITS = {
    VACUUM: frozenset(("micron", "mbar", "Pa")),
    PRESSURE: frozenset(("psi", "bar", "kPa")),
    RECOVERY: frozenset(("psi", "bar", "kPa", "inHg")),
}
_HEAD = {VACUUM: 7, PRESSURE: 5, RECOVERY: 5}
"""Words of the clause that opens a row."""
_TO_FIRST = {VACUUM: 30, PRESSURE: 9, RECOVERY: 9}
"""Words between the one that opens a row and its first number: while a pump runs other things are told."""
_APART = {VACUUM: 18, PRESSURE: 12, RECOVERY: 12}
"""Words between two numbers of a row."""
_BEFORE_HEAD = 4
"""Words between a number and the pump of which it is told right behind it."""
_SHUT_IN = 5
_MARKS = frozenset((",", ".", ";", "-", ":", "?", "!", "…", "..."))
_LEAST = {VACUUM: 300.0, PRESSURE: 20.0, RECOVERY: 20.0}
"""What a row without a unit begins with at least, in micron or psi."""
_STEEPEST = {VACUUM: 0.05, RECOVERY: 0.02}
"""One reading of a falling row is at least so much of the one before."""
_CREEPS, _BACK = 6.0, 0.9
"""How far a vacuum may rise behind the valve, and by how much it may fall."""
_STANDS = (0.85, 1.06)
"""How far a pressure that stands may have moved."""
_DEEPEST = 29.9
_RISES = 3.0
"""A pressure that is put on rises by so much at most from number to number."""
_FEWEST = 60.0
"""Micron that a row goes down to at most."""
_BESIDE = 3
"""Words that stand before or behind a number in its clause at most."""
_OF_A_CLOCK = frozenset(("at", "till", "until", "by", "from", "since", "o'clock"))
_MOVES = {VACUUM: 1, PRESSURE: 1, RECOVERY: 2}
"""How often a row must have moved to be one."""
_MINUTES = 90
_BEFORE_MINUTES = frozenset(("for", "in", "after", "another"))
CUT = "the {0} were not said: the numbers beside it have them"


@dataclass(frozen=True, slots=True)
class GaugeReading:
    """One number of a row: `unit` is None where nobody said it, for the row or for the number."""

    quantity: str
    unit: str | None
    value: float
    inches: bool = False
    reasons: tuple[str, ...] = ()


@dataclass(slots=True)
class _Row:
    kind: str
    unit: str | None = None
    shut: bool = False
    inches: bool = False
    readings: dict[int, GaugeReading] = field(default_factory=dict)
    last: float | None = None
    moves: int = 0


@dataclass(slots=True)
class GaugeRuns:
    """The readings of a narration by their first token, the kind of each row by the token that opens it."""

    readings: dict[int, GaugeReading]
    opens: dict[int, str]


def gauge_runs(narration: Narration) -> GaugeRuns:
    """Return the rows of a narration that were read off a gauge while it moved; computed once."""
    done: GaugeRuns | None = narration.found.get("gauge runs")
    if done is None:
        done = narration.found["gauge runs"] = _Finder(narration).found()
    return done


@cache
def _not(kind: str) -> frozenset[str]:
    """Return the words that make a head of a kind something else: a water pump, nitrogen that only flows."""
    other = table("test_stretches")["pump_kinds"] if kind == VACUUM else ()
    return word_list(f"gauge_not_{kind}") | frozenset(other) - {"vacuum"} | word_list("scale_not_now")


class _Finder:
    def __init__(self, narration: Narration) -> None:
        self.n = narration
        self.words = narration.lowers
        named = {t for s, e in identity_spans(narration) for t in range(s, e)}
        weighed = numbers_of_scales(narration)
        self.numbers = [
            x
            for x in find_numbers(narration)
            if not x.pronoun
            and x.form not in {"ordinal", "counted"}
            and x.start not in named
            and x.start not in weighed
        ]
        self.by_start: dict[int, Quantity] = {q.start: q for q in find_quantities(narration)}

    def found(self) -> GaugeRuns:
        out = GaugeRuns({}, {})
        firsts = first_words(
            "gauge_opens_vacuum", "gauge_opens_pressure", "gauge_opens_recovery", "gauge_opens_again"
        )
        for i, word in enumerate(self.words):
            if word not in firsts:
                continue
            for kind in (VACUUM, PRESSURE, RECOVERY):
                length = phrase_at(f"gauge_opens_{kind}", self.words, i)
                if not length and kind == VACUUM and kind in out.opens.values():
                    length = phrase_at("gauge_opens_again", self.words, i)  # the pump goes on once more
                if not length or not self._opens(i, i + length, kind):
                    continue
                row = self._from(i + length, kind)
                self._told_before(row, i)
                if row.moves >= _MOVES[kind] and not row.readings.keys() & out.readings.keys():
                    out.readings.update(row.readings)
                    out.opens[i] = kind
                    break
        return out

    def _opens(self, start: int, end: int, kind: str) -> bool:
        """Tell whether a head is a short clause of what is done now."""
        first, last, most = start, end, _HEAD[kind]
        while first and self.words[first - 1] not in _MARKS and end - first <= most:
            first -= 1
        while last < len(self.words) and self.words[last] not in _MARKS and last - first <= most:
            last += 1
        clause = self.words[first:last]
        if last - first > most:
            numbers = [x.start for x in self.numbers if end <= x.start <= last]
            if not numbers or end - first > most:
                return False  # "pump twelve hundred eight hundred four ten" has its numbers at once
            clause = self.words[first : numbers[0]]
        told = {w for before, w in pairwise(["", *clause]) if before != "since"}
        return _not(kind).isdisjoint(told)  # "pumping since before dinner" goes on

    def _from(self, at: int, kind: str) -> _Row:
        row = _Row(kind)
        reach = _TO_FIRST[kind]
        for k, number in enumerate(self.numbers):
            if number.start < at:
                continue
            between = [w for w in self.words[at : number.start] if w not in _MARKS]
            if len(between) > reach or self._ends(at, number.start, kind):
                break
            row.shut = row.shut or bool(row.readings and word_list("gauge_shut") & set(between))
            row.inches = row.inches or (kind == RECOVERY and "inches" in between)
            q = self.by_start.get(number.start)
            if q is not None and all(u in {"s", "min", "h"} for u, _ in q.means):
                if row.readings:
                    row.shut = True  # minutes are of what stands
                    at, reach = q.end, _APART[kind]
                continue
            if (
                q is None
                and row.readings
                and self.words[number.start - 1] in _BEFORE_MINUTES
                and number.value <= 90
            ):
                row.shut, at = True, number.end  # "held for ten at nought point six"
                continue
            if q is None and not row.readings and self.words[number.start - 1] in _OF_A_CLOCK:
                at = number.end  # "pump's been on since ten. Fifteen hundred"
                continue
            if q is None and not self._alone(number):
                break
            down = self.words[number.start - 2 : number.start] == ["down", "to"]
            if down and kind == PRESSURE and row.last is not None and number.value > row.last:
                break  # "two hundred of nitrogen ... Down to four sixty": by the pump
            end = self._take(row, number, q, k)
            if end is None:
                break
            at, reach = end, _APART[kind]
        return row

    def _told_before(self, row: _Row, head: int) -> None:
        """Add the number in front of its pump: "Two thousand. Pump's been on since nine. Eleven hundred"."""
        if row.kind != VACUUM or row.unit not in (None, "micron") or not row.moves:
            return
        before = [x for x in self.numbers if x.end <= head]
        if not before or before[-1].start in self.by_start or not self._alone(before[-1]):
            return
        first, highest = before[-1], max(r.value for r in row.readings.values())
        between = [w for w in self.words[first.end : head] if w not in _MARKS]
        full = {".", "!"} & set(self.words[first.end : head])
        falls = first.value >= 1000 and highest < first.value <= highest / _STEEPEST[VACUUM]
        if full and len(between) <= _BEFORE_HEAD and falls:
            row.readings[first.start] = GaugeReading(VACUUM, row.unit, first.value)

    def _ends(self, start: int, end: int, kind: str) -> bool:
        """Tell whether the words between two numbers speak of the next work."""
        between = self.words[start:end]
        if not word_list("gauge_ends").isdisjoint(between):
            return True
        pulled = not {"pumped", "pull", "pulled", "pulls"}.isdisjoint(between)
        if kind == PRESSURE and pulled and "up" not in between:
            return True  # gas is put on or pumped up; what is pumped or pulled is drawn out
        return kind != VACUUM and any(
            phrase_at("gauge_opens_vacuum", self.words, t) for t in range(start, end)
        )

    def _alone(self, number: Number) -> bool:
        """Tell whether a number has a short clause for itself, and is no time of day."""
        if self.words[number.start - 1] in _OF_A_CLOCK:
            return False
        return max(words_beside(self.words, number.start, number.end)) <= _BESIDE

    def _take(self, row: _Row, number: Number, q: Quantity | None, k: int) -> int | None:
        """Take a number as the next of a row; return where it ends, or None where it is none of it."""
        unit, value, end = None, number.value, number.end
        if q is not None:
            unit = next((u for u, _ in q.means if u in _UNITS[row.kind]), None)
            if unit is None and row.kind == RECOVERY and q.word in {"inch", "inches"}:
                unit = "inHg"
            if unit is None:
                return None
            value, end = q.value * dict(q.means).get(unit, 1.0), q.end
        elif self.words[end : end + 1] and self.words[end] in word_list("scale_counts"):
            return None
        if row.kind == RECOVERY and (unit == "inHg" if q is not None else row.inches):
            return self._deeper(row, number, value, end)
        if unit is not None and row.unit not in (None, unit) and row.last is not None:
            row.last = convert(row.last, row.unit, unit)
        options = [(value, ())] if q is not None else self._options(row, number, k)
        for amount, why in options:
            if self._fits(row, amount, unit or row.unit):
                if row.last is not None and not row.shut and amount != row.last:
                    row.moves += 1
                row.last, row.unit = amount, unit or row.unit
                row.readings[number.start] = GaugeReading(
                    VACUUM if row.kind == VACUUM else PRESSURE, row.unit, amount, reasons=why
                )
                return end
        return None

    def _options(self, row: _Row, number: Number, k: int) -> list[tuple[float, tuple[str, ...]]]:
        """Return what a number without a unit can be, the likeliest first."""
        if number.form == "clock":
            return [(int(number.value) * 100.0 + round((number.value % 1) * 60), ())]
        options: list[tuple[float, tuple[str, ...]]] = [(number.value, ())]
        options += [(o.values[0], ()) for o in number.alternatives if len(o.values) == 1]
        whole = number.value == int(number.value) and 1 <= number.value < 20
        if row.last is not None and whole and row.kind != RECOVERY and self._cut_short(row, number):
            following = self.numbers[k + 1].value if k + 1 < len(self.numbers) else 0.0
            for scale, name in ((1000, "thousands"), (100, "hundreds")):
                amount = number.value * scale
                past = row.kind == VACUUM and amount < following  # the next one is further on
                if row.last >= scale and not past:
                    options.append((amount, (CUT.format(name),)))
        return options

    def _cut_short(self, row: _Row, number: Number) -> bool:
        """Tell whether a number stands in a bare row, as one does of which only the hundreds are said."""
        behind = self.words[number.end : number.end + 1]
        lead = self.words[number.start - 1]
        return not row.shut and (lead in _MARKS or lead == "goes") and (not behind or behind[0] in _MARKS)

    def _fits(self, row: _Row, amount: float, unit: str | None) -> bool:
        if row.last is None:
            return amount > 0 if unit is not None else amount >= _LEAST[row.kind]
        if row.kind == PRESSURE:
            low, high = _STANDS
            if row.shut:
                return low * row.last <= amount <= high * row.last
            return row.last <= amount <= _RISES * row.last
        if row.kind == RECOVERY and amount == 0:
            return True
        if row.shut:
            return row.kind == VACUUM and _BACK * row.last <= amount <= _CREEPS * row.last
        if row.kind == VACUUM and unit in (None, "micron") and amount < _FEWEST:
            return False
        return _STEEPEST[row.kind] * row.last <= amount <= row.last

    def _deeper(self, row: _Row, number: Number, value: float, end: int) -> int | None:
        """Take a number as inches of a vacuum behind the pressures."""
        if not 0 < value <= _DEEPEST:
            return None
        row.inches, row.last = True, value
        row.moves += 1
        row.readings[number.start] = GaugeReading(PRESSURE, "inHg", value, inches=True)
        return end


__all__ = ["CUT", "GaugeReading", "GaugeRuns", "gauge_runs"]
