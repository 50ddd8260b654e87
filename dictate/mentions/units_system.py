"""US or metric: which units a visit is spoken in, and the unit of a bare number.

Counted are the units that belong to one system only (psi, ounces, Fahrenheit; bar, kilograms, Celsius).
Grams are on plates of both. Nothing said either way means US, as an assumption.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.visit import UnitSystem as Name

if TYPE_CHECKING:
    from dictate.mentions.taken import Found
    from dictate.mentions.values import Value

_METRIC = {
    "celsius": 4, "bar": 3, "kilogram": 2, "kilopascal": 3, "millibar": 2, "pascal": 2, "kelvin": 3,
    "gram": 1, "lpm": 2,
    "millimetre": 1, "centimetre": 1, "metre": 1, "megapascal": 3,
}  # fmt: skip
_US = {
    "fahrenheit": 4, "psi": 3, "psia": 3, "pound": 3, "ounce": 3, "inch_mercury": 3, "inch": 1, "foot": 1,
    "gpm": 2,
    "cfh": 2, "sterling": 1, "ton": 1, "btu": 1, "micron": 1, "inch_water": 2,
}  # fmt: skip
_UNITS = {
    "us": {"pressure": "psi", "vacuum": "micron", "temperature": "degF",
    "temperature_difference": "delta_degF",
           "superheat": "delta_degF", "subcooling": "delta_degF", "mass": "lb", "flow": "ft3/h",
           "length": "in"},
    "metric": {"pressure": "bar", "vacuum": "mbar", "temperature": "degC",
    "temperature_difference": "delta_degC",
               "superheat": "delta_degC", "subcooling": "delta_degC", "mass": "kg", "flow": "L/min",
               "length": "mm"},
}  # fmt: skip
_SAME = {
    "voltage": "V", "current": "A", "resistance": "ohm", "capacitance": "uF", "power": "W", "frequency": "Hz",
    "duration": "min", "speed": "rpm", "concentration": "%",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class UnitSystem:
    """The system's name, and whether it was only assumed (no unit of one system was said)."""

    name: Name
    assumed: bool

    def fits_temperature(self, value: float) -> bool:
        """Tell whether a bare number can be a temperature in a machine."""
        return -60 <= value <= (70 if self.name == "metric" else 160)

    def unit_of(self, quantity: str, found: Found, value: Value) -> str:
        """Return the unit of a bare number: the one last said for the quantity, else the system's."""
        if quantity in _SAME:
            if quantity == "resistance":
                return "ohm"
            return _SAME[quantity]
        for taken in reversed(found.readings):
            same = taken.reading.quantity == quantity
            if same and taken.said_unit and taken.reading.unit not in {"inHg"}:
                unit = taken.reading.unit
                if quantity == "pressure" and unit == "bar" and self.name == "us" and value.value > 60:
                    continue  # one odd "bar" in a visit spoken in psi
                if quantity == "pressure" and unit in {"psi", "kPa", "bar"}:
                    return unit
                if quantity == "vacuum" and self.name == "metric":
                    return unit
                if quantity not in {"pressure", "vacuum"}:
                    return unit
        if quantity == "vacuum" and self.name == "metric" and value.value >= 50:
            return "micron"
        return _UNITS[self.name][quantity]


def unit_system(narration: Narration) -> UnitSystem:
    """Infer the unit system of a visit from the units said in it."""
    us = metric = 0
    exact = False
    for q in find_quantities(narration):
        if q.word == "degree" or q.kind == "price":
            continue
        us += _US.get(q.word, 0)
        metric += _METRIC.get(q.word, 0)
        exact = exact or q.word in {"fahrenheit", "celsius"}
    if us == metric == 0:
        return UnitSystem("us", True)
    by_range = _by_range(narration)
    # One misheard unit must not turn the whole visit: the sizes of the bare numbers have a say, too.
    us += by_range[0]
    metric += by_range[1]
    return UnitSystem("metric" if metric > us else "us", not exact)


_HIGH = frozenset(("head", "discharge", "liquid", "condensing"))
_LOW = frozenset(("suction", "low"))
_AIR = frozenset(("ambient", "outdoor", "outside", "return", "supply", "room", "kitchen", "roof", "water"))
_BESIDE = 4


def _by_range(narration: Narration) -> tuple[int, int]:
    """Return what the sizes of numbers beside pressure and air words speak for: (US, metric).

    A head of 165 is psi and one of 14.2 is bar; air of 78 is Fahrenheit and 24 beside it says little.
    """
    us = metric = 0
    tokens = narration.tokens
    for number in find_numbers(narration):
        before = [t.lower for t in tokens[max(0, number.start - _BESIDE) : number.start]]
        if "." in before:
            before = before[len(before) - before[::-1].index(".") :]
        after = tokens[number.end].lower if number.end < len(tokens) else ""
        if after in {
            "volt",
            "volts",
            "v",
            "amp",
            "amps",
            "ohm",
            "ohms",
            "minutes",
            "hours",
            "micron",
            "microns",
        }:
            continue
        value, near = number.value, set(before)
        if near & _HIGH and "line" not in near:
            us += 2 * (value >= 60)
            metric += 2 * (4 <= value <= 40)
        elif near & _LOW and "line" not in near:
            us += value >= 16
            metric += 0 < value < 8 and value != int(value)
        elif near & _AIR:
            us += 2 * (50 <= value <= 130)
    return min(us, 8), min(metric, 8)
