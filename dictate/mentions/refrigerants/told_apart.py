"""A bare number that is told apart from the readings around it: "head two seventy, 404.", "for four oh four".

A speaker who has given both pressures often adds the number of the refrigerant alone, as a clause of its
own, or sets the pressures against it. A few numbers ("four oh four") are so rarely a pressure of the next
clause that the place alone tells; the others ("two ninety") need a word in front or the charge behind them.
"""

from __future__ import annotations

from collections.abc import Sequence
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


def told_apart(narration: Narration, start: int, end: int, digits: str, certain: Sequence[int] = ()) -> bool:
    """Tell whether a bare number of three digits at the tokens [start, end) is a refrigerant by its place.

    `certain` are the first tokens of the refrigerants that were named in so many words.
    """
    words = narration.lowers
    before = words[start - 1] if start else ""
    after = words[end] if end < len(words) else ""
    second = words[start - 2] if start > 1 else ""
    if unit_phrases(narration).get(end) is not None:
        return False
    if before == "on" and second in _apart("shared") and after in {*_MARKS, "and", "too", "as"}:
        return True  # "they're both on four oh four"
    if before in _apart("is") and after in {",", "and"} and _charge_behind(narration, end):
        return True  # "it's two ninety, a hundred and fifteen grams", "it's 134 and says four ounces"
    if after == "stuff":
        return True  # "four ten stuff, one twenty-four and three fifty"
    if before in _apart("is") and after == "job":
        return True  # "it's a four forty-eight job"
    if before == "for" and digits in _apart("rarely_read"):
        return _set_against(words, start, after)
    if digits not in _apart("rarely_read"):
        return False
    if after == "on" and words[end + 1 : end + 2] == ["the"] and words[end + 2 : end + 3]:
        return words[end + 2] in _apart("plants")  # "remote, four oh four on the rack"
    if before in {"this", "that"} and second == "on" and words[end : end + 1] != ["one"]:
        return True  # "on this 404 it wants to run two fifty"
    if before in {".", "", "-"} and after in {",", "."} and _plate_behind(narration, end):
        return True  # "Four oh four, plate says two pounds."
    if before in {",", "."} and after in {".", ""} and _behind_both_sides(narration, start):
        return True
    if before in {"'s", "is", "it's"} and after in {*_MARKS, "and"}:
        here = next(((a, b) for a, b in narration.sentences if a <= start < b), (0, 0))
        if any(here[0] <= k < here[1] for k in certain):
            return True  # "the tank's one three four A, the back one's four oh four"
    return after in {*_MARKS, "and", "by", "so"} and _by_its_sentence(narration, start, before, digits)


def _by_its_sentence(narration: Narration, start: int, before: str, digits: str) -> bool:
    """Tell whether what stands before it in its sentence leaves only a gas.

    "Suction eleven, head two thirty, it's four oh four.", "head sixteen on 404", "twelve low, 190 high,
    404, box at seven", "serial T33, 404, and the label says twenty ounces".
    """
    words = narration.lowers
    first = next((a for a, b in narration.sentences if a <= start < b), 0)
    says_so = before == "it's" or (
        before in {"'s", "is"} and words[start - 2] in {"it", "that", "this", "she"}
    )
    if says_so and start - first <= _SHORT:
        # "Discharge sixteen bar. It is 404.": the sentence before has the pressure
        first = next((a for a, b in narration.sentences if b == first), first)
    said = words[first:start]
    if not _apart("other_readings").isdisjoint(said):
        return False
    if before == "," and not {"model", "serial"}.isdisjoint(said):
        return _charge_behind(narration, start + 1, _LONG)
    told = [n.end for n in find_numbers(narration) if first <= n.start and n.end <= start]
    sides = _apart("low") | _apart("high")
    if not told or sides.isdisjoint(said):
        return False
    between = words[told[-1] : start]
    mark = next((k for k, w in enumerate(between) if w in _MARKS or w == "and"), len(between))
    if not sides.isdisjoint(between[mark:]):
        return False  # "head two thirty, and suction, it's 404": what the suction is
    if before == "on":
        return len(between) <= _SHORT
    if says_so:
        return mark < len(between)
    return before == "," and digits != "134" and len(between) <= _SHORT + 1


_SHORT = 3
_LONG = 10


def _charge_behind(narration: Narration, end: int, within: int = 6) -> bool:
    """Tell whether a charge follows near: "and says four ounces", ", plate charge's five pounds"."""
    words = narration.lowers
    stop = next((k for k in range(end, min(len(words), end + within)) if words[k] == "."), end + within)
    between = [n for n in find_numbers(narration) if end <= n.start < stop]
    return bool(between) and any(amount_behind(narration, k) for k in range(end, between[0].start + 1))


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


def _plate_behind(narration: Narration, end: int) -> bool:
    """Tell whether the next words name a plate and the charge on it."""
    words = narration.lowers
    plates = frozenset(table("refrigerants")["context"]["plates"])
    plate = next((k for k in range(end + 1, min(end + 4, len(words))) if words[k] in plates), None)
    return plate is not None and any(amount_behind(narration, k) for k in range(plate, plate + 3))
