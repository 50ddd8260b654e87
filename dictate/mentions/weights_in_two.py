"""Pounds and ounces on a plate by their two numbers alone, where others are told in full.

    "Took out eleven pounds four ounces. Plate charge is eleven eight."      11 lb 8 oz, with the question
    "Recovered three pounds six. Sticker says three twelve. Weighed in three pounds twelve."   3 lb 12 oz

Without an amount in pounds and ounces elsewhere "eleven eight" stays what it was taken for,
and a person is asked.
"""

from __future__ import annotations

from dictate.mentions.movements.bare_pairs import pounds_and_ounces
from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate, Reading
from dictate.vocabulary.load import word_set

_OUNCES = 16
_WITHOUT_A_POINT = frozenset(("short_decimal", "two_digits"))
_ALIKE = 3.0
"""A plate's pounds are at most so many times those told in full elsewhere, and no smaller part of them."""
_LEAD = 5
"""Words between a plate and its charge."""


def tell_pounds_and_ounces(narration: Narration, readings: list[Reading]) -> None:
    """Set bare numbers that are pounds and ounces as others of the visit are."""
    told = {q.parts for q in find_quantities(narration) if q.unit == "lb" and len(q.parts) == 2}
    places = {
        (narration.tokens[n.start].segment, narration.tokens[n.start].word): n
        for n in find_numbers(narration)
        if not n.pronoun
    }
    for reading in readings:
        number = _number_of(reading, places)
        pair = pounds_and_ounces(narration, number) if number is not None else None
        if number is None or pair is None or number.written:
            continue
        same = tuple(float(x) for x in pair) in told
        weighed = reading.quantity == "mass" and reading.unit == "lb"
        alike = any(pair[0] <= _ALIKE * lb and lb <= _ALIKE * pair[0] for lb, _ in told)
        if weighed and not told and number.form in _WITHOUT_A_POINT and not reading.review:
            _ask(reading, number, pair)
        if not (weighed and alike) and not (same and _of_a_plate(narration, number)):
            continue
        joined = pair[0] + pair[1] / _OUNCES
        if weighed and reading.value == joined:
            continue
        if not same:
            _ask(reading, number, pair)
        else:
            reading.review, reading.candidates = [], []
        reading.quantity, reading.unit, reading.value = "mass", "lb", joined
        reading.component = reading.point = None


def _ask(reading: Reading, number: Number, pair: tuple[int, int]) -> None:
    """Give a weight its two meanings: "the scale said nineteen six"."""
    why = f"the units were not said: {pair[0]} pounds {pair[1]} ounces, or pounds with a point"
    other = Candidate(value=number.value, unit="lb", heard=reading.heard, why="pounds with a point")
    reading.review, reading.candidates = [why], [other]


def _number_of(reading: Reading, places: dict[tuple[int, int], Number]) -> Number | None:
    """Return the number of a reading whose unit was not said."""
    at = reading.at
    if not reading.unit_assumed or reading.value is None or at.segment is None:
        return None
    if at.first_word is None or at.last_word is None:
        return None
    words = range(at.first_word, at.last_word + 1)
    inside = [places[at.segment, w] for w in words if (at.segment, w) in places]
    return inside[0] if len(inside) == 1 else None


def _of_a_plate(narration: Narration, number: Number) -> bool:
    """Tell whether a plate was named right before a number: "sticker says three twelve"."""
    row = narration.lowers[max(0, number.start - _LEAD) : number.start]
    last = max((k for k, w in enumerate(row) if w in (".", ";", "?", "!")), default=-1)
    said = row[last + 1 :]
    if not word_set("plates_of_other_things").isdisjoint(narration.lowers[number.end : number.end + 2]):
        return False
    return word_set("plates_of_other_things").isdisjoint(said) and not word_list(
        "plates_of_a_charge"
    ).isdisjoint(said)


__all__ = ["tell_pounds_and_ounces"]
