"""Rows of values that come again for the next of several things, without their places.

    repeat_places(found, words)
    later_pairs(found, words)

"Case one discharge air 34, return 41. Case two 33 and 40": the second pair was read at the same places, in
the same order. So is "now 74 and 55" behind a return and a supply. Only pairs without a place of their own,
behind the name of another one of the same things or a word of later.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import LOOSE, Found, Taken
from dictate.mentions.word_lists import word_list

_LATER = 60
"""Words between a pair and the same pair read again."""


def repeat_places(found: Found, words: Sequence[str]) -> None:
    """Give the pairs of a row the places of the pair before them, in place."""
    rows = found.readings
    for i in range(2, len(rows) - 1):
        one, two = rows[i], rows[i + 1]
        if not _bare_pair(one, two, words):
            continue
        first, second = rows[i - 2], rows[i - 1]
        if not _same_kind(first, one) or not _same_kind(second, two) or one.start - second.end > 12:
            continue
        a, b = first.reading.point, second.reading.point
        if a is None or b is None or a == b or first.sentence != second.sentence:
            continue
        if not _next_of_several(words[second.end : one.start]):
            continue
        for t, place in ((one, first), (two, second)):
            t.reading.point = place.reading.point
            t.reading.component = t.reading.component or place.reading.component
            t.reading.review = [r for r in t.reading.review if LOOSE not in r]


def later_pairs(found: Found, words: Sequence[str]) -> None:
    """Give a pair that was read again later its places: "return 75, supply 70 ... now 74 and 55"."""
    rows = found.readings
    for i in range(2, len(rows) - 1):
        one, two = rows[i], rows[i + 1]
        if not _bare_pair(one, two, words) or not _later(one, words):
            continue
        before = next(
            (
                (a, b)
                for a, b in zip(reversed(rows[: i - 1]), reversed(rows[1:i]), strict=True)
                if _same_kind(a, one) and _same_kind(b, two) and one.start - b.end < _LATER
            ),
            None,
        )
        if before is None:
            continue
        a, b = (t.reading.point for t in before)
        if a is None or b is None or a == b or before[0].sentence != before[1].sentence:
            continue
        for t, place in zip((one, two), before, strict=True):
            t.reading.point, t.reading.component = place.reading.point, place.reading.component
            t.reading.review = [r for r in t.reading.review if LOOSE not in r]


def _later(t: Taken, words: Sequence[str]) -> bool:
    """Tell whether a clause opens with a word of later: "now", "after that", "then it settled at"."""
    said = words[max(0, t.start - 4) : t.start]
    mark = max((i for i, w in enumerate(said) if w in {".", ",", ";", ":", "?"}), default=-1)
    return bool(word_list("rows_again_later") & set(said[mark + 1 :]))


def repeat_place(found: Found, words: Sequence[str]) -> None:
    """Give a single value the place of its row: "case one, product 39 ... case three 41"."""
    rows = found.readings
    for i in range(2, len(rows)):
        a, b, t = rows[i - 2], rows[i - 1], rows[i]
        if not (_same_kind(a, b) and _same_kind(b, t)) or t.start - b.end > 8 or b.start - a.end > 8:
            continue
        if a.reading.point != "product" or b.reading.point != "product" or t.reading.point != "box":
            continue
        if _next_of_several(words[a.end : b.start]) and _next_of_several(words[b.end : t.start]):
            t.reading.point = "product"


def _bare_pair(one: Taken, two: Taken, words: Sequence[str]) -> bool:
    """Tell whether two values stand together and have no place of their own."""
    gap = list(words[one.end : two.start])
    if (
        one.sentence != two.sentence
        or len(gap) > 2
        or not set(gap) <= {"and", ",", "/", "over", "on", "slash"}
    ):
        return False
    return all(
        not t.label_here or t.label is None or t.label.weak or t.label.point == "box" for t in (one, two)
    )


def _same_kind(a: Taken, b: Taken) -> bool:
    one, other = a.reading, b.reading
    return (
        one.quantity == other.quantity
        and one.unit == other.unit
        and {one.role, other.role} == {"measured"}
        and one.quantity in {"temperature", "pressure", "superheat", "subcooling"}
    )


def _next_of_several(between: Sequence[str]) -> bool:
    """Tell whether the words between two rows name the next thing: ". case two", ", the other one"."""
    said = set(between)
    if said & word_list("rows_again_next"):
        return True
    numbered = [
        i
        for i, w in enumerate(between)
        if w in word_list("not_values_counted_off") | word_list("rows_again_things")
    ]
    return any(w in word_list("rows_again_names") for i in numbered for w in between[i + 1 : i + 3])
