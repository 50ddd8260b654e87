"""The scale of a visit's temperatures weighed once more with the readings taken, and what stays open.

    other_system(narration, found)    the system to read the visit in again, None where it was the likelier
    settle_scales(narration, found)   the scale of each bare temperature, in place

The words of a narration give a first answer; only the readings tell which number is the temperature of what.
A whole visit read on the wrong scale is the worst of errors, so what hangs on a small margin gets a reason
and the other scale as a candidate. One value that cannot be on the scale of the others is taken on its own:
a case that shows Celsius stands in many a shop where all else is spoken in Fahrenheit.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, log
from typing import cast

from dictate.mentions.narration import Narration
from dictate.mentions.plausible import fits, reason
from dictate.mentions.units_system.levels import row_of, speaks_for_celsius
from dictate.mentions.units_system.system import UnitSystem
from dictate.mentions.whose.taken import DIFFERENCES, Found, Taken
from dictate.record.visit import Candidate, Unit
from dictate.units import UCUM
from dictate.vocabulary.load import table

_SCALES = frozenset(("celsius", "fahrenheit", "kelvin", "k"))
_OTHER = {
    "degF": "degC", "degC": "degF", "delta_degF": "delta_degC", "delta_degC": "delta_degF",
}  # fmt: skip
_CELSIUS = frozenset(("degC", "delta_degC"))
_WRITTEN = {"degF": "°F", "degC": "°C", "delta_degF": "°F", "delta_degC": "°C"}


def _scale_open(taken: Taken) -> bool:
    """Tell whether a temperature or a difference was said without its scale."""
    reading = taken.reading
    if reading.state != "value" or reading.value is None or reading.unit not in _OTHER:
        return False
    return taken.value.word not in _SCALES


def _weigh(narration: Narration, found: Found) -> tuple[float, dict[int, float]]:
    """Return the logarithm of the odds that the visit is spoken in Celsius, and what each open value adds."""
    data = table("temperature_levels")
    by_row: dict[object, float] = {}
    each: dict[int, float] = {}
    for i, taken in enumerate(found.readings):
        reading = taken.reading
        if not _scale_open(taken):
            continue
        if reading.quantity == "temperature" and found.units.below_zero and (reading.value or 0.0) < 0:
            continue
        said = speaks_for_celsius(taken, narration)
        said = max(-data["most"], min(data["most"], said))
        if any(
            t.reading.value == reading.value and t.reading.quantity == reading.quantity
            for t in found.readings[max(0, i - 8) : i]
        ):
            continue  # the same value said again tells nothing new
        row = reading.quantity if reading.quantity in DIFFERENCES else row_of(taken, narration)
        before = by_row.get(row, 0.0)
        after = max(-data["most_place"], min(data["most_place"], before + said))
        by_row[row] = after
        each[i] = after - before
    return found.units.told + sum(by_row.values()) + _of_mains(found), each


def _of_mains(found: Found) -> float:
    """Return what mains voltages that were said without their unit speak for."""
    sizes = table("unit_systems")
    told = {"us": 0.0, "metric": 0.0}
    seen: set[tuple[float, float]] = set()
    for taken in found.readings:
        reading = taken.reading
        if reading.quantity != "voltage" or reading.value is None or taken.value.quantity is not None:
            continue
        for row in sizes["size"]:
            span = (row["low"], row["high"])
            if row.get("unit") != "volt" or span in seen or not span[0] <= reading.value < span[1]:
                continue
            seen.add(span)
            for system in told:
                told[system] += row.get(system, 0)
    return told["metric"] - told["us"]


def other_system(narration: Narration, found: Found) -> UnitSystem | None:
    """Return the system to read the visit in again, None where the one it was read in is the likelier."""
    system = found.units
    odds, _ = _weigh(narration, found)
    if odds == 0 or (odds > 0) == (system.name == "metric"):
        return None
    return replace(system, name="metric" if odds > 0 else "us", below_zero=None)


def settle_scales(narration: Narration, found: Found) -> None:
    """Give each temperature without a scale the likelier one, with a reason where the other is not far."""
    data = table("temperature_levels")
    system = found.units
    odds, each = _weigh(narration, found)
    rare = data["mixed"]["often" if system.mixed or system.below_zero else "seldom"]
    if abs(system.told) <= 1.5 and not any(t.reading.quantity == "temperature" for t in found.readings):
        return  # differences alone say too little against what is assumed where nothing was said
    named: tuple[int, float] | None = None
    for i, taken in enumerate(found.readings):
        reading = taken.reading
        if not _scale_open(taken):
            if reading.unit in _OTHER and reading.state == "value" and taken.value.word in _SCALES:
                named = (taken.end, data["beside"] * (1 if reading.unit in _CELSIUS else -1))
            continue
        if system.below_zero is not None and (reading.value or 0.0) < 0:
            continue
        assert reading.value is not None
        rest = max(-30.0, min(30.0, odds - each.get(i, 0.0)))
        visit = 1 / (1 + exp(-rest))
        mine = visit * (1 - rare) + (1 - visit) * rare
        total = log(mine / (1 - mine))
        if reading.quantity not in DIFFERENCES:
            total += speaks_for_celsius(taken, narration) + _echo(found, i)
        if named is not None and taken.start - named[0] <= data["within"]:
            total += named[1]
        celsius = 1 / (1 + exp(-max(-30.0, min(30.0, total))))
        _settle(taken, celsius, system, open_to_both=abs(odds) < data["open"])


def _echo(found: Found, i: int) -> float:
    """Return what it says for Celsius that the same temperature was told beside it on the other scale.

    The one of the two that is off the scale of the visit is the one that is put on the other by it.
    """
    data = table("temperature_levels")
    taken, metric = found.readings[i], found.units.name == "metric"
    value = taken.reading.value or 0.0
    for other in found.readings[max(0, i - 3) : i + 4]:
        level = other.reading.value
        if other is taken or level is None or other.reading.quantity != "temperature":
            continue
        if max(other.start - taken.end, taken.start - other.end) > data["within"]:
            continue
        off = 1.8 * level + 32 - value if metric else 1.8 * value + 32 - level
        if abs(off) <= data["echo_off"] and value != level:
            return float(-data["echo"] if metric else data["echo"])
    return 0.0


def _settle(taken: Taken, celsius: float, system: UnitSystem, *, open_to_both: bool) -> None:
    """Choose the scale of one value by the chance that it is Celsius, with a reason where it is not sure.

    In a visit that may be spoken in either, no value is sure: all of them would be wrong together.
    """
    data = table("temperature_levels")
    reading = taken.reading
    assert reading.value is not None and reading.unit is not None
    chance = celsius if reading.unit in _CELSIUS else 1 - celsius
    if chance >= data["sure"] and not open_to_both:
        return
    unit: str = reading.unit
    other = _OTHER[unit]
    if chance < 0.5 and fits(reading.quantity, reading.point, reading.value, other):
        old = reason(reading.quantity, reading.point, reading.value, unit)
        reading.review = [r for r in reading.review if r != old]
        unit, other = other, unit
        reading.unit, reading.ucum = cast(Unit, unit), UCUM.get(unit)
        if (
            1 - chance >= data["plain"]
            and not open_to_both
            and (unit in _CELSIUS) == (system.name == "metric")
        ):
            return  # it went on from one odd value: "model H P 3 6 C"
    why = f"{_WRITTEN[unit]} was not said, and it may be {_WRITTEN[other]}"
    reading.review.append(why)
    reading.candidates.append(Candidate(value=reading.value, unit=other, heard=reading.heard, why=why))
    reading.confidence = min(reading.confidence, 0.5)
