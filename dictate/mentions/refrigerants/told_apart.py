"""A bare number that is told apart from the readings around it: "head two seventy, 404.", "for four oh four".

A speaker who has given both pressures often adds the number of the refrigerant alone, as a clause of its
own, or sets the pressures against it. A few numbers ("four oh four") are so rarely a pressure of the next
clause that the place alone tells; the others ("two ninety") need a word in front or the charge behind them.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.introduced import amount_behind
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.unit_words import unit_phrases
from dictate.vocabulary.load import table

_MARKS = frozenset((",", ".", ";", ""))
_NEAR = 8


@cache
def _apart(key: str) -> frozenset[str]:
    return frozenset(table("refrigerants")["apart"][key])


def told_apart(narration: Narration, start: int, end: int, digits: str) -> bool:
    """Tell whether a bare number of three digits at the tokens [start, end) is a refrigerant by its place."""
    words = narration.lowers
    before = words[start - 1] if start else ""
    after = words[end] if end < len(words) else ""
    second = words[start - 2] if start > 1 else ""
    if unit_phrases(narration).get(end) is not None:
        return False
    if before == "on" and second in _apart("shared") and after in {*_MARKS, "and", "too", "as"}:
        return True  # "they're both on four oh four"
    if before in _apart("is") and after == "," and amount_behind(narration, end):
        return True  # "it's two ninety, a hundred and fifteen grams"
    if before in _apart("is") and after == "job":
        return True  # "it's a four forty-eight job"
    if before == "for" and digits in _apart("rarely_read"):
        return _set_against(words, start, after)
    if before in {",", "."} and after in {".", ""} and digits in _apart("rarely_read"):
        return _behind_both_sides(narration, start)
    return False


def _set_against(words: list[str], start: int, after: str) -> bool:
    """Tell whether pressures are set against it: "for 404 that's short", "a high head for 134"."""
    if after not in _apart("against"):
        return False
    lead = words[max(0, start - 5) : start - 1]
    if not lead or lead[-1] == ".":
        return True
    return not _apart("judged").isdisjoint(lead)


def _behind_both_sides(narration: Narration, start: int) -> bool:
    """Tell whether a pressure of its own name stands right in front and the other side was told near it."""
    words = narration.lowers
    numbers = find_numbers(narration)
    near = [n for n in numbers if start - 3 * _NEAR <= n.start and n.end <= start - 1]
    if len(near) < 2 or start - near[-1].end > 4:
        return False
    said = words[max(0, near[-2].start - 3) : start]
    low = not _apart("low").isdisjoint(said)
    high = not _apart("high").isdisjoint(said)
    return low and high and start - near[-2].start <= 3 * _NEAR
