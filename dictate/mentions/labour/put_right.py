"""Hours of work that are put right in the same breath: "six hours, no, five and a half"."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dictate.mentions.spoken_numbers import find_numbers
from dictate.vocabulary.load import word_set

if TYPE_CHECKING:
    from dictate.mentions.labour.durations import WorkingTimes

_MOST = 14.0
_APART = 6  # words between the hours and what they are put right to
_TO_THE_DENIAL = 4
_MARKS = frozenset((",", ".", ";", "-"))
_TURNS = frozenset(("no", "sorry", "wait", "weight", "actually", "rather", "really", "correction", "scratch"))


def put_right(finder: WorkingTimes, end: int) -> float | None:
    """Return the hours to which the duration that ends before word `end` is put right, without its unit."""
    stop = min(len(finder.row), end + _APART)
    if _TURNS.isdisjoint(finder.row[end:stop]):
        return None
    for number in find_numbers(finder.narration):
        k = finder.w.word_of_token(number.start)
        if not end < k <= stop:
            continue
        between = [w for w in finder.row[end:k] if w not in _MARKS]
        if not between or not all(w in word_set("time_taken_back") or w in _TURNS for w in between):
            return None
        last = finder.w.word_of_token(number.end)
        plain = number.form != "clock" and 0 < number.value <= _MOST and not number.value * 4 % 1
        closed = finder.row[last : last + 1] in ((".",), (",",), ())
        return float(number.value) if plain and closed and _TURNS & set(between) else None
    return None


def denied(finder: WorkingTimes, hours: float, end: int) -> bool:
    """Tell whether the hours said before word `end` are denied right behind: "two hours. Not two, ..."."""
    stop = min(len(finder.row), end + _TO_THE_DENIAL)
    for number in find_numbers(finder.narration):
        k = finder.w.word_of_token(number.start)
        if end < k <= stop and finder.row[k - 1] == "not" and float(number.value) == hours:
            return True
    return False
