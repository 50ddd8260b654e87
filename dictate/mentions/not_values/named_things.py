"""Numbers that tell which one it is, money, and rooms and visits that are called by a number."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.not_values.around import label_before
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.word_lists import word_list


def is_price(narration: Narration, number: Number) -> bool:
    """Tell whether a number is money: "two eighty for the labor", "quoted him twelve fifty"."""
    tokens = narration.tokens
    before = [t.lower for t in tokens[max(0, number.start - 3) : number.start]]
    if number.value < 10 or label_before(narration, number.start):
        return False
    if word_list("not_values_prices") & set(before) and not {",", "."} & set(before):
        return True
    after = [t.lower for t in tokens[number.end : number.end + 3]]
    paid = after[2:] if after[1:2] in (["the"], ["my"], ["his"]) else after[1:2]
    return after[:1] == ["for"] and paid[:1] != [] and paid[0] in word_list("not_values_paid_for")


def is_to_come(narration: Narration, number: Number) -> bool:
    """Tell whether a number names what will be done: "118 and 120 next week", "doing 114 tomorrow"."""
    tokens = narration.tokens
    k = number.end
    follows = numbers_by_start(narration).get(k + 1)
    if follows is not None and tokens[k].lower in {"and", ","}:
        k = follows.end
    words = [t.lower for t in tokens[k : k + 2]]
    return words[:1] == ["tomorrow"] or words in [
        ["next", w] for w in ("week", "month", "visit", "trip", "year")
    ]


def numbers_a_thing(narration: Narration, number: Number) -> bool:
    """Tell whether a number tells which one it is: "this is trailer 47", "the open multideck, case 12".

    A case or a trailer also has a temperature. So it is a number only in the first sentence of a narration
    or where something is introduced.
    """
    if _counts_off(narration, number):
        return True
    tokens = narration.tokens
    i = number.start - 1
    if i < 0 or tokens[i].lower not in word_list("not_values_numbered") or number.places or number.negative:
        return False
    after = tokens[number.end].lower if number.end < len(tokens) else "."
    if after not in {",", ".", ";", "is", "'s", "has", "on", "at", "in", "next"}:
        return False
    lead = tokens[i - 1].lower if i else "."
    if lead in {"on", "at", "for", "to"}:
        return True
    if lead in {"is", "'s"}:
        return i > 1 and tokens[i - 2].lower in {"this", "that", "it"}
    return lead in {",", "."} and not any(t.lower in {".", "?", "!"} for t in tokens[:i])


def _counts_off(narration: Narration, number: Number) -> bool:
    """Tell whether a small number names one of a row, and its value follows: "case two 33 and 40"."""
    i = number.start - 1
    small = number.value.is_integer() and 1 <= number.value <= 16 and not (number.places or number.negative)
    if i < 0 or not small or narration.lowers[i] not in word_list("not_values_counted_off"):
        return False
    if narration.lowers[i - 1 : i] in (["per"], ["a"], ["each"], ["both"]):
        return False
    numbers = numbers_by_start(narration)

    def value_at(end: int) -> int:
        """Return how many words stand before the next value, -1 when none follows so closely."""
        k = end
        while (
            k < len(narration.lowers)
            and k - end < 3
            and narration.lowers[k] in word_list("not_values_counted_gap")
        ):
            k += 1
        return k - end if k in numbers else -1

    gap = value_at(number.end)
    if gap == 0 and numbers[number.end].start == number.end:
        return True
    if gap < 0:
        return False
    same = [
        n
        for n in numbers.values()
        if n.start
        and narration.lowers[n.start - 1] == narration.lowers[i]
        and abs(n.start - number.start) < 80
    ]
    return any(
        n.value != number.value and n.value.is_integer() and n.value <= 16 and value_at(n.end) >= 0
        for n in same
    )


def numbers_a_room(narration: Narration, number: Number) -> bool:
    """Tell whether a number names a room: "Room 108", "Room 1 12". No room is so warm."""
    tokens = narration.tokens
    before = tokens[number.start - 1].lower if number.start else ""
    if (
        before not in {"room", "suite", "apartment", "apt", "cabin", "bay", "aisle"}
        or number.places
        or number.negative
    ):
        return False
    return number.value >= 100 or (number.written and number.end - number.start > 1)


def too_big_for_a_name(number: Number) -> bool:
    """Tell whether a number is no name of one of a few: decimals, pairs of hundreds, more than 30."""
    return bool(number.places) or number.value > 30 or number.form == "pair"
