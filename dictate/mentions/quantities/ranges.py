"""Two numbers with one unit: the ends of a range, of a change, or a pair."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.narration import Narration
from dictate.mentions.quantities.misheard import note_alternatives
from dictate.mentions.quantities.quantity import Quantity, mass_of
from dictate.mentions.quantities.unit_behind import FILLERS
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.spoken_numbers.atoms import number_words
from dictate.mentions.word_lists import word_list

_RANGE_WORDS = frozenset({"to", "and", "or", "-", "–", "through", "/"})
_CHANGE_VERBS = word_list("quantities_change_verbs")


def _range_of(narration: Narration, a: Number, b: Number) -> str | None:
    """Tell what joins two neighbouring numbers: "range", "change", "list" or nothing."""
    tokens = narration.tokens
    between = [t.lower for t in tokens[a.end : b.start] if t.lower not in FILLERS]
    if len(between) != 1 or between[0] not in _RANGE_WORDS:
        return None
    before = [t.lower for t in tokens[max(0, a.start - 4) : a.start]]
    word = between[0]
    if word == "and":
        return "range" if ends_of_one(narration, a.start) else "list"
    if word == "or":
        return (
            "range" if abs(b.value - a.value) <= max(2.0, 0.35 * max(abs(a.value), abs(b.value))) else "list"
        )
    if word in {"-", "–"} and tokens[b.start - 1].space_before:
        return "list"
    if word == "/":
        return "list"
    if _CHANGE_VERBS & set(before):
        return "change"
    if b.value <= a.value:
        return "change"
    return "range"


def ends_of_one(narration: Narration, start: int) -> bool:
    """Tell whether "between" in front of a number makes it the end of a range: "between six and seven".

    "Between phases 398, 401 and 399" has three values: the word tells where, and a third number follows.
    """
    words = narration.lowers
    at = next((k for k in range(start - 1, max(-1, start - 5), -1) if words[k] == "between"), None)
    if at is None:
        return False
    inside = words[at + 1 : start]
    return word_list("quantities_between_two_places").isdisjoint(inside) and not any(
        (w in number_words() and number_words()[w][0] not in "A&") or w[0].isdigit() for w in inside
    )


def with_ranges(narration: Narration, numbers: Sequence[Number], found: list[Quantity]) -> list[Quantity]:
    """Give the first end of a range, a change or a pair the unit that was said once, after the second."""
    by_number = {id(n): q for q in found for n in q.numbers}
    index = {id(n): k for k, n in enumerate(numbers)}
    extra: list[Quantity] = []
    for q in list(found):
        second = q.numbers[0]
        k = index.get(id(second), 0)
        if not k or (q.kind != "reading" and q.kind != "size"):
            continue
        first = numbers[k - 1]
        joined = _range_of(narration, first, second)
        if joined is None or first.form in {"clock", "ordinal", "counted"}:
            continue
        if q.word in {"minute", "second", "hour"} and first.value >= 100 and first.value > 3 * second.value:
            continue  # "the second pull got to three ten and fifteen minutes later ..."
        if joined == "list" and q.word in {"meg", "megohm"}:
            continue  # "48.3 and 0.2 meg to earth" may be ohms and megohms: the reader of lists decides
        other = by_number.get(id(first))
        if other is None:
            if first.pronoun:
                continue
            other = Quantity(
                first.start, first.end, first.value, q.word, q.kind, q.means, (first,), shared=True
            )
            note_alternatives(narration, other)
            extra.append(other)
            by_number[id(first)] = other
        elif other.word != q.word:
            continue
        if joined == "range":
            other.range, q.range = "low", "high"
        elif joined == "change":
            other.change, q.change = "from", "to"
    extra += _moved_to(narration, numbers, index, by_number, found)
    return sorted(found + extra, key=lambda q: q.start)


_WAYS = frozenset(("up", "down", "back", "out"))


def _moved_to(
    narration: Narration,
    numbers: Sequence[Number],
    index: dict[int, int],
    by_number: dict[int, Quantity],
    found: Sequence[Quantity],
) -> list[Quantity]:
    """Give the end of a change the unit that was said with its begin: "from thirty minutes up to forty"."""
    words, out = narration.lowers, []
    for q in found:
        if (
            q.kind != "reading"
            or mass_of(q) is not None  # what a cylinder weighed
            or q.parts
            or len(q.numbers) != 1
            or "from" not in words[max(0, q.start - 2) : q.start]
        ):
            continue
        k = index.get(id(q.numbers[0]), len(numbers)) + 1
        if (
            k >= len(numbers)
            or id(numbers[k]) in by_number
            or numbers[k].form in {"clock", "ordinal", "counted"}
        ):
            continue
        second = numbers[k]
        between = words[q.end : second.start]
        if between[-1:] != ["to"] or len(between) > 2 or not _WAYS.issuperset(between[:-1]):
            continue
        ends = words[second.end] if second.end < len(words) else "."
        if ends not in word_list("quantities_bare_minutes") or not _alike(q.value, second.value):
            continue
        other = Quantity(
            second.start, second.end, second.value, q.word, q.kind, q.means, (second,), shared=True
        )
        note_alternatives(narration, other)
        q.change, other.change = "from", "to"
        out.append(other)
    return out


def _alike(a: float, b: float) -> bool:
    """Tell whether a thing may have been moved from one to the other: of the same sign and size."""
    return a * b > 0 and 0.2 <= b / a <= 5
