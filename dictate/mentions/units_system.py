"""US or metric: which units a visit is spoken in, and the unit of a bare number.

Weighed are the units that belong to one system (psi, ounces, Fahrenheit; bar, kilograms, Celsius), words of
one system's trade, and the sizes of numbers (unit_systems.toml). Nothing said either way means US, as an
assumption.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from dictate.mentions.narration import Narration
from dictate.mentions.not_values import identity_spans
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.visit import UnitSystem as Name
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from dictate.mentions.taken import Found
    from dictate.mentions.values import Value

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
    pressure: Name = "us"
    """The system of pressures, vacuums and other amounts: that of the name unless words say otherwise."""

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
        return _UNITS[self.pressure if quantity in _NO_DEGREES else self.name][quantity]


def unit_system(narration: Narration) -> UnitSystem:
    """Infer the unit system of a visit: the units said in it, its words, and the sizes of its bare numbers.

    One misheard unit must not turn a whole visit, and a visit without a single unit of one system can still
    tell where it was by its mains and its temperatures.
    """
    data = table("unit_systems")
    names = {t for start, end in identity_spans(narration) for t in range(start, end)}
    weight = {"us": float(data["us_first"]), "metric": 0.0}
    exact, degrees = False, 0.0
    sized: dict[int, Quantity] = {}
    for q in find_quantities(narration):
        if q.kind == "price" or q.start in names or (q.word in _SCALES and abs(q.value) > _HOTTEST):
            continue  # "serial 7720 C"
        sized[q.numbers[0].start] = q
        for system in weight:
            weight[system] += data["units"][system].get(q.word, 0)
        if q.word in {"celsius", "kelvin"}:
            degrees += data["units"]["metric"].get(q.word, 0)
        exact = exact or q.word in _SCALES
    spoken = set(narration.lowers)
    for system, words in data["words"].items():
        weight[system] += min(words["most"], words["each"] * len(spoken.intersection(words["said"])))
    for system, amount in _by_size(narration, sized, names).items():
        weight[system] += amount
    name: Name = "metric" if weight["metric"] > weight["us"] else "us"
    # A cabinet that shows Celsius stands in a US laboratory as well: degrees say little about its gauges.
    pressure: Name = "metric" if weight["metric"] - degrees > weight["us"] else "us"
    if name == "metric" and weight["metric"] - degrees >= weight["us"] - data["us_first"]:
        pressure = "metric"
    return UnitSystem(name, not exact, pressure)


_SCALES = frozenset(("celsius", "fahrenheit"))
_NO_DEGREES = frozenset(("pressure", "vacuum", "mass", "flow", "length"))
_HOTTEST = 400
"""No temperature of the trade is above it, on either scale."""
_BESIDE = 4


@cache
def _sizes() -> tuple[dict[str, Any], ...]:
    return tuple(
        {
            **row,
            "near": frozenset(row.get("near", ())),
            "not_near": frozenset(row.get("not_near", ())),
        }
        for row in table("unit_systems")["size"]
    )


def _by_size(narration: Narration, sized: dict[int, Quantity], names: set[int]) -> dict[str, float]:
    """Return what the sizes of the numbers speak for."""
    found = {"us": 0.0, "metric": 0.0}
    tokens = narration.tokens
    for number in find_numbers(narration):
        if number.start in names:
            continue
        said = sized.get(number.start)
        if said is not None and said.word not in {"degree", "volt"}:
            continue
        before = [t.lower for t in tokens[max(0, number.start - _BESIDE) : number.start]]
        if "." in before:
            before = before[len(before) - before[::-1].index(".") :]
        near = set(before)
        value = -abs(number.value) if near & {"minus", "negative"} else number.value
        for row in _sizes():
            if (row.get("unit") == "volt") != (said is not None and said.word == "volt"):
                continue
            if row["near"] and (row["near"].isdisjoint(near) or not row["not_near"].isdisjoint(near)):
                continue
            if row["low"] <= value < row["high"] and (not row.get("decimals") or number.places):
                for system in found:
                    found[system] += row.get(system, 0)
    most = table("unit_systems")["most"]
    return {system: min(most, amount) for system, amount in found.items()}
