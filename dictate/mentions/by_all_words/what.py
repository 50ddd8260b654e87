"""Whether a value is a reading of now, and of what quantity, by all the words around it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import cast

from dictate.mentions.narration import Narration
from dictate.mentions.places.possible_points import can_be_at
from dictate.mentions.second_opinion import MEASURED, NONE, Told, told
from dictate.mentions.second_opinion.opinion import BETWEEN
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.told_outright import is_role_told_outright, is_told_outright
from dictate.mentions.units_system import UnitSystem
from dictate.mentions.whose.taken import OTHERWISE_BY_WORDS, READ_NOW_BY_WORDS
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Candidate, Reading
from dictate.units import UCUM

_NOT_NOW, _NOW, _NO_VALUE, _OTHER = 0.35, 0.98, 0.9, 0.5
"""Shares: what is no reading of now has less of being one; what is one though taken for a target has more;
a number that is no value has more of being none; another quantity of a bare number has more."""
_MAY_BE_NOW = frozenset({"target", "rated", "earlier", "expected"})
_SWITCHED = frozenset(
    {"voltage", "current", "resistance", "capacitance", "pressure", "temperature", "superheat", "subcooling"}
)
"""The quantities between which a bare number may be switched."""
_SWITCHED_WISHES = frozenset({"vacuum", "temperature_difference"})
"""Those between which one may be switched besides that was not read now."""
_PAIRS = frozenset({"or", "to", "-"})
"""Words behind which a number is of what the one before is of: "eleven or twelve"."""
_MEANINGS = {"measured": MEASURED, "retracted": "retracted", **dict.fromkeys(_MAY_BE_NOW, "not now")}
"""What the encoder calls a value of each role."""


def settle_what(
    narration: Narration, readings: Sequence[Reading], placed: Mapping[int, int], units: UnitSystem
) -> list[Reading]:
    """Return the readings, put right where the words leave no doubt; `placed` gives the number of each."""
    classes = told(narration, "class")
    names = next(iter(classes.values())).names if classes else ()
    measured = [i for i, name in enumerate(names) if name.endswith(BETWEEN + MEASURED)]
    out: list[Reading] = []
    for i, reading in enumerate(readings):
        own = classes.get(placed.get(i, -1))
        if own is None:
            out.append(reading)
            continue
        now = sum([own.shares[i] for i in measured])
        outright = is_role_told_outright(narration, placed[i])
        if reading.role == MEASURED and now < _NOT_NOW and not outright:
            if own.of(NONE + BETWEEN + NONE) > _NO_VALUE and not reading.retracts:
                continue
            _not_now(reading, own, narration.lowers, placed[i])
        elif reading.role in _MAY_BE_NOW and now > _NOW and not outright:
            _ask(reading, f"{READ_NOW_BY_WORDS}, not as {reading.role}")
            reading.role = "measured"
        paired = reading.role != MEASURED and narration.lowers[placed[i] - 1] in _PAIRS
        if reading.unit_assumed and not paired and not is_told_outright(narration, placed[i]):
            _other_quantity(reading, own, units, numbers_by_start(narration)[placed[i]])
        out.append(reading)
    return out


def _not_now(reading: Reading, own: Told, words: Sequence[str], at: int) -> None:
    """Make a value a target, one of before or one that was taken back, as its likeliest meaning is."""
    meaning = own.best.partition(BETWEEN)[2]
    # What puts another one right does not fall itself, and is no wish ("the 320 should be 420").
    lead = set(words[max(0, at - _LEAD) : at])
    if reading.retracts and not word_list("told_as_repair").isdisjoint(lead):
        return
    if reading.retracts and meaning == "retracted":
        _ask(
            reading,
            "the words around it sound like a value that was taken back, and it puts another one right",
        )
        return
    if meaning == "retracted":
        _ask(reading, "the words around it sound like a value that was taken back")
        if _had_before(words, at):
            return  # "before I had superheat 25 and low pressure 5.8": of before, and not taken back
        reading.role = "retracted"
    elif meaning == "not now":
        role: record.Role = "earlier" if _of_before(words, at) else "target"
        _ask(reading, f"the words around it sound like a value that was not read now: taken as {_AS[role]}")
        reading.role = role
    else:
        return
    reading.stage = None


def _had_before(words: Sequence[str], at: int) -> bool:
    """Tell whether a value is one of those that somebody had before the work, as the sentence says."""
    said = tuple(words[max(0, at - _HAD) : at])
    cut = max((k + 1 for k, w in enumerate(said) if w in {".", ";", "?", "!"}), default=0)
    said = said[cut:]
    return any(
        said[k] == "before"
        and said[k + 1] in {"i", "we", "it", "she"}
        and said[k + 2] in {"had", "was", "read"}
        for k in range(len(said) - 2)
    )


_AS = {"earlier": "one of before", "target": "a target"}
_LEAD, _BACK, _HAD = 4, 8, 12
_BREAKS = frozenset({",", ";", ".", "?", "!", "but", "and"})


def _of_before(words: Sequence[str], at: int) -> bool:
    """Tell whether the clause in front of a value tells what has been: "it's always been | eleven".

    A day behind it does so too ("the box at | minus two on Friday"). A wish in the past ("wanted", "was
    supposed to be") is a wish.
    """
    first = at
    while first > 0 and at - first < _BACK and words[first - 1] not in _BREAKS:
        first -= 1
    said = set(words[first:at])
    if not word_list("told_as_wished").isdisjoint(said) or any(w.endswith("'ll") for w in said):
        return False
    return not word_list("told_of_before").isdisjoint(said) or _on_a_day(words, first, at)


_AHEAD = 6
"""Words behind a value among which its day is looked for."""


def _on_a_day(words: Sequence[str], first: int, at: int) -> bool:
    """Tell whether a day that is over stands behind a value, or a season or month in front of it."""
    for k in range(first + 1, at):
        if words[k] in word_list("told_seasons") and words[k - 1] in word_list("leads_to_a_season"):
            return True
    for k in range(at + 1, min(len(words), at + _AHEAD)):
        if words[k] in _BREAKS:
            return False
        if words[k] in word_list("told_days"):
            return words[k - 1] in {"on", "since", "last", "that"} or words[k] in {"yesterday", "last", "ago"}
    return False


def _other_quantity(reading: Reading, own: Told, units: UnitSystem, number: Number) -> None:
    """Take a bare number for a value of another quantity; where it was scaled, for what was said."""
    quantity, _, meaning = own.best.partition(BETWEEN)
    if own.share < _OTHER or meaning != _MEANINGS.get(reading.role) or quantity == reading.quantity:
        return
    switched = _SWITCHED if reading.role == MEASURED else _SWITCHED | _SWITCHED_WISHES
    if quantity not in switched or reading.quantity not in switched:
        return
    why = f"it may be a {reading.quantity.replace('_', ' ')}"
    reading.candidates.append(Candidate(value=reading.value, unit=reading.unit, heard=reading.heard, why=why))
    _ask(reading, f"taken as a {quantity.replace('_', ' ')} {OTHERWISE_BY_WORDS}")
    if reading.value is not None and abs(reading.value) >= 100 * abs(number.value) > 0:
        reading.value = number.value
    if number.form == "two_digits" and quantity not in word_list("readings_settle"):
        reading.value = number.value  # "seven six" is 76 degrees, but 7.6 microfarad
    unit = units.usual(quantity, reading.value or 0.0)
    reading.quantity = cast(record.Quantity, quantity)
    reading.unit, reading.ucum = cast(record.Unit, unit), UCUM.get(unit)
    reading.reference = "gauge" if quantity == "pressure" else None
    if not can_be_at(quantity, reading.point):
        reading.point = None


def _ask(reading: Reading, why: str) -> None:
    reading.review.append(why)
    reading.confidence = min(reading.confidence, 0.5)


__all__ = ["settle_what"]
