"""Pressures that were left to stand, told without a word of gas or of a test: `find_standing(narration)`.

    "Two hundred fifty on it for half an hour, two forty nine at the end."   levels 250 and 249
    "Filled it to 300, went for lunch, still 300."                           levels 300 and 300

A number of the size of a test pressure is a level where a time of standing is told beside it and either it
was put in ("on it", "filled it to") or what became of it is told ("never moved", a number much like it), and
where nothing electric, no running side and no vacuum is spoken of around. A bare number needs work on the
circuit told anywhere before it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.vocabulary.load import table

_STOPS = frozenset((".", "?", "!"))
_LEAST_PSI, _MOST_PSI = 80, 750
_LEAST_BAR, _MOST_BAR = 5, 60
_BACK, _AHEAD = 12, 26


@dataclass(frozen=True, slots=True)
class Standing:
    """A test by standing: the tokens [start, end), and the numbers that are its levels, by their start."""

    start: int
    end: int
    levels: tuple[int, ...]
    told: bool = False
    """True when what became of it was told, so that it is over."""


@cache
def _set(name: str) -> frozenset[str]:
    return frozenset(table("standing_tests")[name])


@cache
def _phrases(name: str) -> dict[str, tuple[tuple[str, ...], ...]]:
    rows: dict[str, list[tuple[str, ...]]] = {}
    for phrase in table("standing_tests")[name]:
        row = tuple(phrase.split())
        rows.setdefault(row[0], []).append(row)
    return {first: tuple(sorted(x, key=len, reverse=True)) for first, x in rows.items()}


def _at(name: str, words: list[str], i: int) -> int:
    """Return how many words the longest phrase of a list at a place has, 0 for none."""
    for row in _phrases(name).get(words[i], ()) if i < len(words) else ():
        if tuple(words[i : i + len(row)]) == row:
            return len(row)
    return 0


def find_standing(narration: Narration) -> list[Standing]:
    """Return the pressures left to stand, in order; computed once per narration."""
    done: list[Standing] | None = narration.found.get("standing_tests")
    if done is not None:
        return done
    words = narration.lowers
    out: list[Standing] = []
    times = _times(words)
    if times:
        numbers = [n for n in find_numbers(narration) if not n.pronoun and n.form != "ordinal"]
        for k, number in enumerate(numbers):
            if out and number.start < out[-1].end:
                continue
            found = _standing(words, numbers, k, times)
            if found is not None:
                out.append(found)
    narration.found["standing_tests"] = out
    return out


def levels_of(narration: Narration) -> frozenset[int]:
    """Return the tokens at which a level of a standing pressure begins."""
    known: frozenset[int] | None = narration.found.get("standing_levels")
    if known is None:
        known = frozenset(t for s in find_standing(narration) for t in s.levels)
        narration.found["standing_levels"] = known
    return known


def _times(words: list[str]) -> list[int]:
    """Return the tokens at which a time of standing is told."""
    out = []
    units, leads = _set("time_units"), _phrases("times")
    for i, word in enumerate(words):
        if word in units or (word in leads and _at("times", words, i)):
            out.append(i)
    return out


def _unit(words: list[str], end: int) -> tuple[str | None, int]:
    word = words[end] if end < len(words) else "."
    if word in _set("psi"):
        return "psi", end + 1
    return ("bar", end + 1) if word in _set("bar") else (None, end)


def _sentence(words: list[str], i: int, floor: int) -> int:
    while i > floor and words[i - 1] not in _STOPS:
        i -= 1
    return i


def _standing(words: list[str], numbers: list[Number], k: int, times: list[int]) -> Standing | None:
    number = numbers[k]
    unit, end = _unit(words, number.end)
    if not _of_test_size(number, unit):
        return None
    if unit is None and not _set("bare_follows").issuperset(words[end : end + 1]):
        return None
    first = _sentence(words, number.start, max(0, number.start - _BACK))
    stop = min(len(words), end + _AHEAD)
    level = _ends_at(words, numbers, k, stop, unit)
    last = level[-1].end if level else end
    timed = [t for t in times if first <= t < max(last + 8, end + 14)]
    timed = [t for t in timed if not _STOPS & set(words[max(last, end) : t]) or t < last]
    if not timed:
        return None
    stop = max(last, timed[-1] + 1)
    tail = words[stop : min(len(words), stop + 8)]
    cut = next((i for i, w in enumerate(tail) if w in _STOPS), len(tail))
    around = words[first : stop + cut]
    if not _set("others").isdisjoint(around):
        return None
    if not _set("others_before").isdisjoint(words[max(0, first - 14) : first]):
        return None
    if not _set("vacuums").isdisjoint(words[max(0, first - 45) : first]):
        return None
    front = words[first : number.start]
    put = any(_at("put", words, i) for i in range(first, number.start)) or bool(_at("in_it", words, end))
    put = put or bool(_at("in_it", words, end + 1)) or not front
    stayed = any(_at("stayed", words, i) for i in range(first, stop + cut))
    if not (put or stayed) or not (level or stayed or (put and unit is not None)):
        return None
    if unit is None and not _set("repairs").intersection(words[max(0, first - 400) : stop + 40]):
        return None
    return Standing(first, stop + cut, (number.start, *(n.start for n in level)), bool(level or stayed))


def _of_test_size(number: Number, unit: str | None) -> bool:
    if number.negative or number.form in {"clock", "fraction"}:
        return False
    if unit == "bar":
        return _LEAST_BAR <= number.value <= _MOST_BAR
    return _LEAST_PSI <= number.value <= _MOST_PSI and number.value == int(number.value)


def _ends_at(words: list[str], numbers: list[Number], k: int, stop: int, unit: str | None) -> list[Number]:
    """Return the numbers behind a level that are what became of it: much like it, and of no other unit."""
    out = []
    for n in numbers[k + 1 :]:
        if n.start >= stop:
            break
        its, end = _unit(words, n.end)
        if not 0.6 * numbers[k].value <= n.value <= 1.03 * numbers[k].value or (its or unit) != unit:
            continue
        behind = words[end : end + 1]
        if n.negative or n.form in {"clock", "fraction"} or not _set("bare_follows").issuperset(behind):
            continue
        out.append(n)
    return out


__all__ = ["Standing", "find_standing", "levels_of"]
