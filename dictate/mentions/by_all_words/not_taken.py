"""Values that no rule took and that all the words around them tell.

A rule asks for a thing beside a number, or for words that it knows; people say numbers in other ways too:
"thirty-four pounds with the valve open", "now it's 48 seconds", "the digital reads 4". Where the text encoder
is nearly certain that such a number was read, and of what quantity, it is taken, with a reason to look at it.
"""

from __future__ import annotations

from typing import cast

from dictate.mentions.by_all_words.words_taken import taken_tokens
from dictate.mentions.narration import Narration
from dictate.mentions.not_values.log_times import log_times
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.quantities.side_of_zero import below_zero
from dictate.mentions.roles.cues import relation_of
from dictate.mentions.second_opinion import MEASURED, told
from dictate.mentions.second_opinion.opinion import BETWEEN
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.units_system import UnitSystem
from dictate.record import visit as record
from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading
from dictate.units import UCUM

NOT_TAKEN = "no rule took this value: it is taken because of all the words around it"
_SURE = 0.97
"""The share from which a number is taken; chosen on narrations that the encoder had not seen."""
_BARE_CAN_BE = frozenset(
    {
        "voltage", "current", "resistance", "capacitance", "pressure", "vacuum", "temperature", "superheat",
        "subcooling", "temperature_difference",
    }
)  # fmt: skip
"""The quantities whose unit goes without saying; of a bare time nobody knows whether it was minutes."""
_ELECTRIC = frozenset({"voltage", "current", "resistance", "capacitance"})
_COUNTS = 6
"""Legs, terminals and heaters are counted up to here, where their volts, amps or ohms are told."""
_UNITS = {
    "voltage": {"V"}, "current": {"A"}, "resistance": {"ohm"}, "capacitance": {"uF"}, "power": {"W"},
    "frequency": {"Hz"}, "pressure": {"psi", "kPa", "bar", "mbar", "Pa", "inHg"},
    "vacuum": {"micron", "mbar", "Pa"}, "temperature": {"degF", "degC"}, "speed": {"rpm"},
    "superheat": {"delta_degF", "delta_degC"}, "subcooling": {"delta_degF", "delta_degC"},
    "temperature_difference": {"delta_degF", "delta_degC"}, "mass": {"lb", "oz", "g", "kg"},
    "duration": {"s", "min", "h"}, "concentration": {"%", "ppm"},
    "flow": {"L/min", "gal/min", "ft3/h", "m3/h"},
}  # fmt: skip
"""The units of each quantity; lengths are left to the rules, for most of them are sizes."""


def with_not_taken(narration: Narration, mentions: Mentions, units: UnitSystem) -> list[Reading]:
    """Return the readings with those that only all the words tell, in the order of the words."""
    classes = told(narration, "class")
    if not classes:
        return mentions.readings
    taken = taken_tokens(narration, mentions)
    said = {n.start: q for q in find_quantities(narration) for n in q.numbers}
    added = []
    logged = log_times(narration)
    for number in find_numbers(narration):
        own = classes.get(number.start)
        if own is None or number.pronoun or number.form == "ordinal" or number.start in logged:
            continue
        quantity, _, meaning = own.best.partition(BETWEEN)
        if meaning != MEASURED or own.share < _SURE:
            continue
        q = said.get(number.start)
        start, end = (q.start, q.end) if q is not None else (number.start, number.end)
        if not taken.isdisjoint(range(start, end)):
            continue
        reading = _reading(narration, number, q, quantity, units)
        if reading is not None:
            taken.update(range(start, end))
            added.append(reading)
    if not added:
        return mentions.readings
    return sorted([*mentions.readings, *added], key=lambda r: _first(r.at))


def _reading(
    narration: Narration, number: Number, q: Quantity | None, quantity: str, units: UnitSystem
) -> Reading | None:
    """Return a value as a reading; None where its unit does not go with the quantity, or cannot be told."""
    if q is not None:
        unit = _unit_said(q, quantity)
        if unit is None:
            return None
        start, end = q.start, q.end
        amount = q.in_unit(unit if q.can_be(unit) else unit.removeprefix("delta_"))
    elif quantity in _BARE_CAN_BE and not _counts(number, quantity):
        start, end, amount, unit = number.start, number.end, number.value, units.usual(quantity, number.value)
        cold = below_zero(narration.lowers, end) if quantity == "temperature" and amount > 0 else None
        if cold is not None:
            amount, end = -amount, cold
    else:
        return None
    heard = narration.probability(start, end)
    return Reading(
        quantity=cast(record.Quantity, quantity),
        value=amount,
        unit=cast(record.Unit, unit),
        ucum=UCUM.get(unit),
        reference="gauge" if quantity == "pressure" else None,
        unit_assumed=q is None,
        relation=cast(record.Relation, relation_of(narration, start, end)),
        at=narration.at(start, end),
        heard=narration.heard(start, end),
        confidence=min(0.5, 1.0 if heard is None else heard),
        review=[NOT_TAKEN],
    )


def _counts(number: Number, quantity: str) -> bool:
    """Tell whether a bare number may count things of which something was read: "dead on all three"."""
    whole = number.value == int(number.value) and not number.places
    return whole and 0 < number.value <= (_COUNTS if quantity in _ELECTRIC else 1)


def _unit_said(q: Quantity, quantity: str) -> str | None:
    """Return the unit that was said, as a unit of the quantity; None where it is none."""
    for unit, _ in q.means:
        for own in (unit, f"delta_{unit}"):
            if own in _UNITS.get(quantity, ()):
                return own
    return None


def _first(at: At) -> tuple[int, int]:
    return (at.segment if at.segment is not None else -1, at.first_word if at.first_word is not None else -1)


__all__ = ["NOT_TAKEN", "with_not_taken"]
