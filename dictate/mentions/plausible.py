"""Is a value possible at all? Limits in quantities.toml; the reasons are for a person to read."""

from __future__ import annotations

from collections.abc import Collection
from functools import cache
from typing import Any

from dictate.units import convert
from dictate.vocabulary.load import table


@cache
def _limits() -> dict[str, Any]:
    limits: dict[str, Any] = table("quantities")["plausible"]
    return limits


_EXACT = {
    ("kPa", "psi"): 1 / 6.894757, ("bar", "psi"): 14.503774, ("mbar", "psi"): 0.014503774,
    ("Pa", "psi"): 1.4503774e-4,
    ("inHg", "psi"): 0.491154, ("mbar", "micron"): 750.0617, ("Pa", "micron"): 7.500617,
    ("kg", "lb"): 2.2046226,
    ("g", "lb"): 0.0022046226, ("oz", "lb"): 0.0625, ("h", "min"): 60.0, ("s", "min"): 1 / 60,
    ("ft", "in"): 12.0,
    ("mm", "in"): 1 / 25.4, ("delta_degC", "delta_degF"): 1.8, ("gal/min", "ft3/h"): 8.0208,
    ("L/min", "ft3/h"): 2.1189,
    ("psi", "micron"): 51714.9, ("inHg", "micron"): 25400.0, ("ppm", "%"): 0.0001,
    ("micron", "psi"): 1.9336777e-5,
}  # fmt: skip
"""Factors of the everyday comparisons; a test compares each with the unit registry, which loads slowly."""


def in_unit(value: float, unit: str, to: str) -> float:
    """Convert for a comparison with a limit."""
    if unit == to:
        return value
    if (unit, to) == ("degC", "degF"):
        return value * 1.8 + 32
    factor = _EXACT.get((unit, to))
    return value * factor if factor is not None else convert(value, unit, to)


def limits_of(quantity: str, point: str | None) -> tuple[float, float, str]:
    """Return (low, high, unit) of what is possible."""
    entry = _limits()[quantity]
    low, high = entry.get("points", {}).get(point, (entry["low"], entry["high"]))
    return float(low), float(high), entry["unit"]


def fits(quantity: str, point: str | None, value: float, unit: str) -> bool:
    """Tell whether a value is possible for its quantity at its point."""
    low, high, limit_unit = limits_of(quantity, point)
    return low <= in_unit(value, unit, limit_unit) <= high


def reason(quantity: str, point: str | None, value: float, unit: str) -> str | None:
    """Return why a value is not possible, or None."""
    if fits(quantity, point, value, unit):
        return None
    low, high, limit_unit = limits_of(quantity, point)
    what = quantity.replace("_", " ")
    where = f" at the point {point}" if point else ""
    return f"{value:g} {unit} is outside of what a {what}{where} can be ({low:g} to {high:g} {limit_unit})"


@cache
def bands() -> tuple[dict[str, Any], ...]:
    """Return the bands of plausible.toml: what is usual for a part and a place."""
    return tuple(table("plausible")["band"])


def band_fits(band: dict[str, Any], quantity: str, component: str | None, point: str | None) -> bool:
    """Tell whether a band speaks of this quantity of this part at this place."""
    return not (
        band["quantity"] != quantity
        or ("component" in band and component not in band["component"])
        or component in band.get("not_component", ())
        or point in band.get("not_point", ())
        or ("points" in band and point not in band["points"])
        or (band.get("no_point") and (point is not None or component is not None))
    )


@cache
def bands_of(quantity: str, component: str | None, point: str | None) -> tuple[dict[str, Any], ...]:
    """Return the bands that speak of a quantity of a part at a place, in their order; kept, for few do."""
    return tuple(band for band in bands() if band_fits(band, quantity, component, point))


def in_band(band: dict[str, Any], value: float, unit: str) -> bool:
    """Tell whether a value lies in one of the ranges of a band."""
    amount = in_unit(value, unit, band["unit"])
    return any(low <= amount <= high for low, high in band["bands"])


@cache
def _saturation() -> dict[str, list[float]]:
    found: dict[str, list[float]] = table("plausible")["saturation"]["gauge"]
    return found


def suits_gases(
    point: str | None, value: float, unit: str, gases: Collection[str], *, running: bool = False
) -> bool:
    """Tell whether a pressure at a point can be one of the refrigerants; of an unknown one any can.

    Of a machine that is `running` no head pressure lies below that of 40 degrees Fahrenheit.
    """
    known = [_saturation()[gas] for gas in gases if gas in _saturation()]
    if point not in {"suction", "discharge", "liquid"} or not known or len(known) != len(gases):
        return True
    amount = in_unit(value, unit, "psi")
    if point == "suction":
        low, high = -15.0, max(of[4] for of in known)
    else:
        low, high = min(of[1 + running] for of in known), max(1.45 * of[5] + 20 for of in known)
    return (low <= amount or point == "liquid") and amount <= high


_CONDITIONS = frozenset(("machines", "not_refrigerants"))


def usual(quantity: str, component: str | None, point: str | None, value: float, unit: str) -> bool:
    """Tell whether a value is possible and usual, for all that is known without the machine."""
    return fits(quantity, point, value, unit) and all(
        in_band(band, value, unit)
        for band in bands_of(quantity, component, point)
        if _CONDITIONS.isdisjoint(band)
    )
