"""What a refrigerant does at a pressure: saturation on the dew and on the bubble line, from CoolProp.

The property library is loaded with the first question, because its start costs more than a second;
answers are kept. Pressures are psi absolute, temperatures °F. Blends with R-1234yf, R-1234ze(E) or carbon
dioxide rest on mixture models: their pressures are good to about 2 psi or 2 %.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

PASCAL_PER_PSI = 6894.757293168
_PURE = {
    "R-11": "R11", "R-12": "R12", "R-13": "R13", "R-22": "R22", "R-23": "R23", "R-32": "R32",
    "R-113": "R113", "R-114": "R114", "R-123": "R123", "R-124": "R124", "R-125": "R125", "R-134A": "R134a",
    "R-143A": "R143a", "R-152A": "R152A", "R-245FA": "R245fa", "R-290": "Propane", "R-404A": "R404A",
    "R-407C": "R407C", "R-410A": "R410A", "R-507A": "R507A", "R-507": "R507A", "R-600": "n-Butane",
    "R-600A": "IsoButane", "R-717": "Ammonia", "R-718": "Water", "R-744": "CarbonDioxide",
    "R-1234YF": "R1234yf", "R-1234ZE(E)": "R1234ze(E)", "R-1234ZE": "R1234ze(E)", "R-1270": "Propylene",
}  # fmt: skip
"""ASHRAE 34 designation in capitals -> name in CoolProp; the other blends are its predefined mixtures."""

GLIDE_F = 1.5
"""Above this difference of dew and bubble temperature a blend is spoken of as one with glide."""


@cache
def _backend(refrigerant: str) -> str | None:
    """Return the name that CoolProp knows a refrigerant by, or None."""
    key = refrigerant.strip().upper()
    if key in _PURE:
        return _PURE[key]
    if not re.fullmatch(r"R-[45]\d\d[A-I]?", key):
        return None
    import CoolProp.CoolProp as CoolProp

    name = key.replace("-", "") + ".mix"
    known = CoolProp.get_global_param_string("predefined_mixtures").split(",")
    return name if name in known else None


def known(refrigerant: str | None) -> bool:
    """True when properties of this refrigerant are at hand."""
    return refrigerant is not None and _backend(refrigerant) is not None


@lru_cache(maxsize=4096)
def _ask(name: str, output: str, input_: str, value: float, quality: int) -> float | None:
    """Ask CoolProp for a saturation value in SI units; None outside the range of the fluid."""
    import CoolProp.CoolProp as CoolProp

    try:
        return float(CoolProp.PropsSI(output, input_, value, "Q", quality, name))
    except ValueError:
        return None


def _temperature(refrigerant: str | None, psia: float | None, quality: int) -> float | None:
    if refrigerant is None or psia is None or psia <= 0:
        return None
    name = _backend(refrigerant)
    if name is None:
        return None
    kelvin = _ask(name, "T", "P", round(psia * PASCAL_PER_PSI, 1), quality)
    return None if kelvin is None else kelvin * 1.8 - 459.67


def dew_f(refrigerant: str | None, psia: float | None) -> float | None:
    """Return the dew temperature in °F: the one that superheat is counted from."""
    return _temperature(refrigerant, psia, 1)


def bubble_f(refrigerant: str | None, psia: float | None) -> float | None:
    """Return the bubble temperature in °F: the one that subcooling is counted from."""
    return _temperature(refrigerant, psia, 0)


def _pressure(refrigerant: str | None, deg_f: float, quality: int) -> float | None:
    name = _backend(refrigerant) if refrigerant else None
    if name is None:
        return None
    pascal = _ask(name, "P", "T", round((deg_f + 459.67) / 1.8, 4), quality)
    return None if pascal is None else pascal / PASCAL_PER_PSI


def dew_psia(refrigerant: str | None, deg_f: float) -> float | None:
    """Return the pressure of saturated vapour in psi absolute."""
    return _pressure(refrigerant, deg_f, 1)


def bubble_psia(refrigerant: str | None, deg_f: float) -> float | None:
    """Return the pressure of saturated liquid in psi absolute."""
    return _pressure(refrigerant, deg_f, 0)


def glides(refrigerant: str | None, psia: float | None) -> bool:
    """True for a blend whose dew and bubble temperatures lie visibly apart at this pressure."""
    dew, bubble = dew_f(refrigerant, psia), bubble_f(refrigerant, psia)
    return dew is not None and bubble is not None and dew - bubble > GLIDE_F


def water_boils_f(micron: float) -> float | None:
    """Return the temperature in °F at which water boils (or ice sublimes) at an absolute pressure.

    Above the triple point (about 4 579 micron) by CoolProp's water (IAPWS-95); below it the sublimation
    equation of IAPWS R14-08(2011), solved by bisection.
    """
    pascal = micron * 101325 / 760000
    if pascal <= 0:
        return None
    if pascal >= 611.657:
        kelvin = _ask("Water", "T", "P", round(pascal, 3), 0)
        return None if kelvin is None else kelvin * 1.8 - 459.67
    low, high = 50.0, 273.16
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if sublimation_pascal(middle) < pascal else (low, middle)
    return low * 1.8 - 459.67


def sublimation_pascal(kelvin: float) -> float:
    """Return the vapour pressure over ice in Pa: IAPWS R14-08(2011), equation 6, 50 K to 273.16 K."""
    from math import exp

    theta = kelvin / 273.16
    total = sum(
        a * theta**b
        for a, b in (
            (-0.212144006e2, 0.333333333e-2),
            (0.273203819e2, 0.120666667e1),
            (-0.610598130e1, 0.170333333e1),
        )
    )
    return 611.657 * exp(total / theta)
