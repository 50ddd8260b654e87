"""Amounts said in two pieces: broken off by an aside, or with their fraction behind the unit.

"five pounds and, let me see the scale, nine ounces"    5 lb 9 oz
"four pounds, what was it, eleven ounces"               4 lb 11 oz, with a reason
"twenty-one ounces and a half"                          21.5 oz
"a kilo two"                                            1.2 kg, with a reason
"two kilos four hundred... sorry, four hundred and thirty grams"    2.43 kg: its grams were put right
"""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.movements.correction_words import retraction_between
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import halves, phrases, units_of
from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.units import convert
from dictate.vocabulary.load import word_set

_SMALLER = {"lb": ("oz", 16.0), "kg": ("g", 1000.0)}
_LONGEST = 11
"""Tokens of an aside within an amount."""


def joined_over_asides(talk: Talk, found: list[Quantity]) -> list[Quantity]:
    """Join the larger and the smaller unit of one amount over the words that break it off."""
    out: list[Quantity] = []
    for q in found:
        last = out[-1] if out else None
        how = _aside(talk, last, q) if last is not None else None
        if last is not None and how is None and (whole := _smaller_part_put_right(talk, last, q)):
            out[-1] = whole
            continue
        if last is None or how is None:
            out.append(q)
            continue
        unit = _unit(last)
        value = last.value + convert(q.value, _unit(q), unit)
        reasons = [how] if how else []
        out[-1] = replace(
            last, end=q.end, value=value, parts=(last.value, q.value), means=((unit, 1.0),),
            numbers=(*last.numbers, *q.numbers), reasons=[*last.reasons, *q.reasons, *reasons],
        )  # fmt: skip
    return out


_PUT_RIGHT = 6
"""Tokens between a smaller part and the one that stands in its place."""


def _smaller_part_put_right(talk: Talk, first: Quantity, second: Quantity) -> Quantity | None:
    """Return the whole amount where only its smaller part was said again, with the words of a correction.

    "five kilos six hundred, sorry, six hundred and ten grams"; but "five kilos, no, six hundred grams" puts
    all of it right.
    """
    unit, small = _unit(first), second.value
    smaller, most = _SMALLER.get(unit, ("", 0.0))
    if unit != "kg" or _unit(second) != smaller or second.parts or not 0 < small < most:
        return None  # pounds and ounces that were put right are told apart later
    pounds, end, before = first.value, first.end, 0.0
    if first.parts:
        pounds, before = first.parts[0], first.parts[-1]
    else:
        number = numbers_by_start(talk.narration).get(first.end)
        if number is None or number.places or number.pronoun or not 0 < number.value < most:
            return None
        end, before = number.end, number.value
    row = tuple(talk.narration.lowers[end : second.start])
    if not float(pounds).is_integer() or len(row) > _PUT_RIGHT or retraction_between(row) is None:
        return None
    reasons = list(second.reasons)
    if not 0.5 <= small / before <= 2:
        reasons.append(f"of {before:g} and {small:g} {smaller} only one belongs to the {pounds:g} {unit}")
    return replace(
        first, end=second.end, value=pounds + convert(small, smaller, unit), parts=(pounds, small),
        means=((unit, 1.0),), numbers=(*first.numbers, *second.numbers), reasons=reasons, candidates=[],
    )  # fmt: skip


def _unit(q: Quantity) -> str:
    return next((u for u, _ in q.means if u in ("lb", "oz", "g", "kg")), "")


def _aside(talk: Talk, first: Quantity, second: Quantity) -> str | None:
    """Return the reason to look at two amounts that are one ("" for none), None where they are two."""
    unit = _unit(first)
    smaller, most = _SMALLER.get(unit, ("", 0.0))
    gap = second.start - first.end
    if not 0 <= gap <= _LONGEST or _unit(second) != smaller or first.parts or second.parts:
        return None
    if not float(first.value).is_integer() or not 0 < second.value < most:
        return None
    if not gap:
        return "" if first.reasons else None  # "for pounds six ounces": the four was written as a word
    row = talk.narration.lowers[first.end : second.start]
    behind = talk.narration.lowers[second.end : second.end + 3]
    if behind[:1] == ["of"] and set(behind) & word_set("other_stuff"):
        return None  # "recovered two pounds and about three ounces of oil"
    if set(row) & word_set("breaks_an_aside") or talk.numbers_in(
        talk.w.word_of_token(first.end), talk.w.word_of_token(second.start)
    ):
        return None
    if row[0] == "and":
        rest = [w for w in row[1:] if w not in word_set("vague_in_an_aside")]
        return "" if not rest or rest[0] == "," else None
    told = tuple(w for w in row if w not in (",", "-"))
    if row[0] in (",", "-") and any(told[: len(p)] == p for p in phrases("asides")):
        return "other words stand between the two parts of the amount"
    return None


def with_fraction(talk: Talk, q: Quantity, numbers: dict[int, Number]) -> Quantity:
    """Add the fraction behind the unit: "twenty-one ounces | and a half"."""
    tokens = talk.narration.lowers
    if tokens[q.end : q.end + 1] != ["and"] or q.parts or not float(q.value).is_integer():
        return q
    part, end = 0.0, q.end + 3
    if tokens[q.end + 1 : q.end + 2] == ["a"]:
        part = halves().get(tokens[q.end + 2] if q.end + 2 < len(tokens) else "", 0.0)
    elif (number := numbers.get(q.end + 1)) is not None and number.form == "fraction":
        part, end = number.value, number.end
    if not 0 < part < 1 or (end < len(tokens) and tokens[end] in (*units_of("coupled"), "pound", "ounce")):
        return q
    return replace(q, end=end, value=q.value + part)


def kilo_and_tenths(talk: Talk, q: Quantity, numbers: dict[int, Number]) -> Quantity:
    """Read "a kilo two" as one point two kilos, with a reason to look."""
    number = numbers.get(q.end)
    if (
        q.unit != "kg"
        or q.parts
        or not float(q.value).is_integer()
        or number is None
        or number.pronoun
        or number.form != "plain"
        or number.value not in range(1, 10)
    ):
        return q
    tokens = talk.narration.lowers
    if number.end < len(tokens) and tokens[number.end] not in word_set("behind_bare_ounces"):
        return q
    return replace(
        q, end=number.end, value=q.value + number.value / 10, parts=(q.value, number.value),
        numbers=(*q.numbers, number),
        reasons=[*q.reasons, f"{number.value:g} behind the kilos was taken for tenths of one"],
    )  # fmt: skip
