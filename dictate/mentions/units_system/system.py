"""The unit system of a visit, and the unit of a bare number in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from dictate.record.visit import UnitSystem as Name

if TYPE_CHECKING:
    from dictate.mentions.values import Value
    from dictate.mentions.whose.taken import Found

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
_MOST_BAR, _LEAST_KPA = 201, 20
"""A bare pressure from the first on is in kilopascals, and one from the second on where they were said."""
NO_DEGREES = frozenset(("pressure", "vacuum", "mass", "flow", "length"))


@dataclass(frozen=True, slots=True)
class UnitSystem:
    """The system's name, and whether it was only assumed (no unit of one system was said)."""

    name: Name
    assumed: bool
    pressure: Name = "us"
    """The system of pressures, vacuums and other amounts: that of the name unless words say otherwise."""
    below_zero: Name | None = None
    """The system of temperatures below zero and of displays, where it is another than the visit's."""
    told: float = 0.0
    """What all but the sizes of temperatures says of their scale: odds as a logarithm, metric above zero."""
    mixed: bool = False
    """True when both scales were named."""
    kilopascals: bool = False
    """True when pressures were said in kilopascals and none in bar."""

    def fits_temperature(self, value: float) -> bool:
        """Tell whether a bare number can be a temperature in a machine."""
        return -60 <= value <= (70 if self.name == "metric" else 160)

    def usual(self, quantity: str, amount: float = 0.0) -> str:
        """Return the unit that the system has for such an amount, whatever was said in the visit."""
        least = _LEAST_KPA if self.kilopascals else _MOST_BAR
        if quantity == "pressure" and self.pressure == "metric" and amount >= least:
            return "kPa"  # "suction 880, discharge 2,650 kilopascals": no machine has 880 bar
        return _SAME.get(quantity) or _UNITS[self.pressure if quantity in NO_DEGREES else self.name][quantity]

    def unit_of(self, quantity: str, found: Found, value: Value) -> str:
        """Return the unit of a bare number: the one last said for the quantity, else the system's."""
        if quantity in _SAME:
            if quantity == "resistance":
                return "ohm"
            return _SAME[quantity]
        if quantity == "temperature" and self.below_zero is not None and value.value < 0:
            return _UNITS[self.below_zero]["temperature"]
        for taken in reversed(found.readings):
            same = taken.reading.quantity == quantity
            if same and self.below_zero is not None and (taken.reading.value or 0.0) < 0:
                continue  # "minus 61 C" on the display says nothing of the room
            if same and taken.said_unit and taken.reading.unit not in {"inHg"}:
                unit = taken.reading.unit
                if quantity == "pressure" and unit == "bar" and self.pressure == "us" and value.value > 60:
                    continue  # one odd "bar" in a visit spoken in psi
                if quantity == "pressure" and unit in {"psi", "kPa", "bar"}:
                    return unit
                if quantity == "vacuum" and self.pressure == "metric":
                    return unit
                if quantity not in {"pressure", "vacuum"}:
                    return unit
        if quantity == "vacuum" and self.pressure == "metric" and value.value >= 50:
            return "micron"
        return self.usual(quantity, value.value)
