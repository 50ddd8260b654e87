"""Is it usual: for the part and the place, for the refrigerant, beside the other pressures."""

from __future__ import annotations

from dictate.mentions.doubts.talk import Case, plain_unit, word_set
from dictate.mentions.plausible import bands_of, in_band, suits_gases
from dictate.mentions.word_lists import word_list

_LOW_VOLTS = 60
_PAIRS = frozenset(("L1-L2", "L2-L3", "L1-L3"))
_VEHICLE = frozenset(("battery", "alternator", "engine", "idling", "idle"))


def unusual(c: Case) -> str | None:
    """Compare with the bands of plausible.toml."""
    r = c.reading
    if r.value is None or r.derived:
        return None
    for band in bands_of(r.quantity, r.component, r.point):
        if not (band.get("said") or c.loose):
            continue
        if any(m in c.talk.machines for m in band.get("not_machines", ())):
            continue
        if c.talk.refrigerants & set(band.get("not_refrigerants", ())):
            continue
        if "machines" in band and not any(m in c.talk.machines for m in band["machines"]):
            continue
        if (
            r.quantity == "voltage"
            and r.value <= 20
            and (r.component or "")
            and "sensor" in (r.component or "")
        ):
            continue
        if (
            r.quantity == "voltage"
            and (8 <= r.value <= 15.5 or 22 <= r.value <= 30)
            and _VEHICLE & set(c.talk.words[max(0, c.start - 60) : c.end])
        ):
            continue  # what a battery gives
        if r.quantity == "voltage" and r.point in _PAIRS and _leg_lost(c):
            continue  # what is left between a dead leg and the others
        if r.component == "power supply" and r.quantity == "voltage" and r.value <= _LOW_VOLTS:
            continue  # it may give any low voltage
        if (
            r.quantity == "voltage"
            and (r.component or "").endswith("capacitor")
            and r.value < 60
            and word_list("places_bleeding") & set(c.talk.words[max(0, c.start - 16) : c.end + 8])
        ):
            continue  # what was left on it when it was emptied
        if not in_band(band, r.value, r.unit):
            what = r.component or (f"the {r.point}" if r.point else f"a {r.quantity.replace('_', ' ')}")
            return f"{r.value:g} {plain_unit(r.unit)} is unusual for {what}: {band['why']}"
    return None


def _leg_lost(c: Case) -> bool:
    """Tell whether two of three pairs that were named are low alike, and the third one is not.

    "One to two, two oh four. Two to three, | ninety-one | . One to three, | eighty-eight": a leg is dead.
    """
    row = [c]
    for step in ("previous", "following"):
        x = getattr(c, step)
        while (
            x is not None and len(row) < 5 and x.reading.quantity == "voltage" and x.reading.point in _PAIRS
        ):
            row.append(x)
            x = getattr(x, step)
    values = {x.reading.point: x.reading.value or 0.0 for x in reversed(row)}
    if set(values) != _PAIRS:
        return False
    low, middle, high = sorted(values.values())
    return low > 0 and middle <= 1.25 * low and 0.2 * high <= middle <= 0.75 * high and high >= 190


def saturated(c: Case) -> str | None:
    """Tell whether a pressure can be one of the refrigerant named, at this place."""
    r = c.reading
    if (
        r.quantity != "pressure"
        or r.point not in {"suction", "discharge", "liquid"}
        or r.value is None
        or r.reference not in {None, "gauge"}
    ):
        return None
    # Where no unit was said, a head pressure that only a cold or empty machine has may be in another one.
    if suits_gases(r.point, r.value, r.unit, c.talk.refrigerants, running=c.bare):
        return None
    names = ", ".join(sorted(c.talk.refrigerants))
    return f"{r.value:g} {plain_unit(r.unit)} is hardly a {r.point} pressure of {names}"


def pressure_order(c: Case) -> str | None:
    """Doubt a suction above the head pressure, and a liquid pressure well above it, of the same breath."""
    r = c.reading
    if (
        r.quantity != "pressure"
        or r.point not in {"suction", "liquid"}
        or not r.value
        or r.reference not in {None, "gauge"}
    ):
        return None
    for x in (
        c.previous,
        c.following,
        c.previous.previous if c.previous else None,
        c.following.following if c.following else None,
    ):
        if (
            x is None
            or abs(x.start - c.start) > 14
            or x.reading.quantity != "pressure"
            or x.reading.point != "discharge"
        ):
            continue
        if (
            x.reading.role != "measured"
            or not x.reading.value
            or x.reading.unit != r.unit
            or x.reading.review
        ):
            continue
        if r.point == "liquid" and r.value < 0.6 * x.reading.value:
            return f"a liquid pressure far below the discharge pressure, {x.reading.value:g}, is unusual"
        if r.value > (1.0 if r.point == "suction" else 1.2) * x.reading.value:
            return f"a {r.point} pressure above the discharge pressure, {x.reading.value:g}, is unusual"
    return None


def celsius(c: Case) -> str | None:
    """Doubt degrees Fahrenheit that were only assumed, where a room indoors would be freezing cold."""
    r = c.reading
    if r.quantity != "temperature" or not c.bare or r.unit != "degF" or not c.talk.cold_room:
        return None
    return "no unit was said, and the room's temperature sounds like Celsius"


_OF_BURNERS = 16
"""Words before a pressure within which a burner or its gas valve is spoken of."""


def of_a_burner(c: Case) -> str | None:
    """Doubt a small bare pressure beside a burner: fuel gas is read in inches of water (common practice)."""
    r = c.reading
    if r.quantity != "pressure" or not c.bare or r.unit != "psi" or not r.value or abs(r.value) > 15:
        return None
    near = c.talk.words[max(0, c.start - _OF_BURNERS) : c.end + 6]
    if word_set("speaks_of_burners").isdisjoint(near):
        return None
    return "beside a burner it may be inches of water"


def small_pressure(c: Case) -> str | None:
    """Doubt parts of a psi, and parts of a degree Fahrenheit: air pressures are said in that way."""
    r = c.reading
    if not c.bare or r.value is None or not 0 < abs(r.value) < 1:
        return None
    if r.unit == "degF" or (r.unit == "psi" and r.point in {None, "static", "supply", "return"}):
        return "may be inches of water, the unit was not said"
    return None
