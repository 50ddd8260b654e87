"""The single unit registry, and the conversions the trade needs beyond plain factors.

A pressure said on a gauge and one on an absolute scale share the unit `psi`; the record keeps which in
`reference`, so nothing here guesses it. `micron` is a vacuum unit (0.001 mmHg), and a difference of
temperatures is `delta_degF`, never `degF`.
"""

from __future__ import annotations

from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pint import UnitRegistry

STANDARD_ATMOSPHERE_PSI = 14.695949
"""One standard atmosphere (101 325 Pa) in psi."""

# Record unit -> name in the registry.
_PINT = {
    "V": "volt", "A": "ampere", "ohm": "ohm", "uF": "microfarad", "W": "watt", "Hz": "hertz", "psi": "psi",
    "kPa": "kilopascal", "bar": "bar", "mbar": "millibar", "Pa": "pascal", "inHg": "inch_of_mercury",
    "micron": "micron_of_mercury", "degF": "degF", "degC": "degC", "delta_degF": "delta_degF",
    "delta_degC": "delta_degC", "lb": "pound", "oz": "ounce", "g": "gram", "kg": "kilogram",
    "ft3/h": "foot**3/hour", "gal/min": "gallon/minute", "L/min": "liter/minute",
    "s": "second", "min": "minute", "h": "hour",
    "in": "inch", "ft": "foot", "mm": "millimeter", "rpm": "rpm", "%": "percent", "ppm": "ppm",
}  # fmt: skip

UCUM = {
    "V": "V", "A": "A", "ohm": "Ohm", "uF": "uF", "W": "W", "Hz": "Hz", "psi": "[psi]", "kPa": "kPa",
    "bar": "bar", "mbar": "mbar", "Pa": "Pa", "inHg": "[in_i'Hg]", "micron": "um[Hg]", "degF": "[degF]",
    "degC": "Cel", "delta_degF": "[degF]", "delta_degC": "Cel", "lb": "[lb_av]", "oz": "[oz_av]", "g": "g",
    "kg": "kg", "ft3/h": "[ft_i]3/h", "gal/min": "[gal_us]/min", "L/min": "L/min",
    "s": "s", "min": "min", "h": "h",
    "in": "[in_i]", "ft": "[ft_i]", "mm": "mm", "rpm": "{rpm}/min", "%": "%", "ppm": "[ppm]",
}  # fmt: skip
"""Record unit -> UCUM code. Gauge against absolute, and level against difference, are fields of ours."""


@lru_cache(maxsize=1)
def registry() -> UnitRegistry[Any]:
    """Return the registry, made on first use (its start costs a third of a second)."""
    import pint
    from pint import UnitRegistry as Registry

    kept = _cache_folder(Path(pint.__file__).parent)
    try:
        made: UnitRegistry[Any] = Registry(autoconvert_offset_to_baseunit=True, cache_folder=kept)
    except OSError:  # nothing can be kept there, or what is kept names files that are gone
        made = Registry(autoconvert_offset_to_baseunit=True)
    made.define("micron_of_mercury = 0.001 * millimeter_Hg")
    if "inch_of_mercury" not in made:
        made.define("inch_of_mercury = inch_Hg")
    return made


def _cache_folder(place: Path) -> Path:
    """Return where pint keeps its parsed definitions: a folder for each place that pint is installed in.

    What it keeps names the files of that place, and an environment that was removed must not break the next.
    """
    from platformdirs import user_cache_path

    return user_cache_path("dictate") / f"units-{sha256(str(place).encode()).hexdigest()[:12]}"


def convert(value: float, unit: str, to: str) -> float:
    """Convert a number between two units of the record. Raises pint's DimensionalityError if they differ."""
    if unit == to:
        return value
    return float(registry().Quantity(value, _PINT[unit]).to(_PINT[to]).magnitude)
