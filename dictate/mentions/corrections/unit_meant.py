"""The unit and the quantity that a word of unit stands for behind a value that it puts right."""

from __future__ import annotations

from dictate.mentions.whose.taken import Taken

KINDS = (
    frozenset({"micron", "Pa", "mbar"}),
    frozenset({"psi", "bar", "kPa", "inHg"}),
    frozenset({"lb", "oz", "kg", "g"}),
    frozenset({"degF", "degC"}),
    frozenset({"delta_degF", "delta_degC"}),
)
"""Units of which one may slip out for another one."""


def unit_meant(word: str, means: dict[str, float], old: Taken) -> str | None:
    """Return the unit of the record that a word of unit means behind an old value, or None."""
    if word == "inch":
        return "inHg" if old.reading.quantity in {"pressure", "vacuum"} else "in"
    if word == "pound":
        return "psi" if old.reading.quantity in {"pressure", "vacuum"} else "lb"
    if word == "k":
        return "ohm" if old.reading.quantity == "resistance" else "delta_degC"
    if word in {"mike", "micro"}:
        return "micron" if old.reading.quantity in {"vacuum", "pressure"} else "uF"
    if word in {"fahrenheit", "celsius"}:
        base = "degF" if word == "fahrenheit" else "degC"
        return (
            "delta_" + base
            if old.reading.quantity in {"superheat", "subcooling", "temperature_difference"}
            else base
        )
    if word == "degree":
        return None
    return next(iter(means))


_QUANTITIES = {
    "V": "voltage", "A": "current", "ohm": "resistance", "uF": "capacitance", "W": "power",
    "Hz": "frequency", "psi": "pressure", "kPa": "pressure", "bar": "pressure", "inHg": "pressure",
    "micron": "vacuum", "mbar": "vacuum", "Pa": "vacuum", "degF": "temperature", "degC": "temperature",
    "lb": "mass", "oz": "mass", "g": "mass", "kg": "mass", "s": "duration", "min": "duration",
    "h": "duration", "%": "concentration", "rpm": "speed",
}  # fmt: skip


def quantity_of(unit: str, old: Taken) -> str | None:
    """Return what a value with a unit of the record is a value of, beside the old value."""
    if unit in {"delta_degF", "delta_degC"}:
        return (
            old.reading.quantity
            if old.reading.quantity in {"superheat", "subcooling", "temperature_difference"}
            else "temperature_difference"
        )
    return _QUANTITIES.get(unit)
