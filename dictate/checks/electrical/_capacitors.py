"""Which print belongs to which measured capacitor, and what tolerance was said."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from itertools import pairwise

from dictate.checks.facts import Facts, phrases, same_part, value_in
from dictate.record.visit import Reading

RUN_TOLERANCE, LOOSE_TOLERANCE = 6.0, 10.0
"""Per cent: assumed for a run capacitor without a legible print, and the loosest print in use."""
_TOLERANCE = re.compile(
    r"(?:plus or minus|plus minus|\+/-|±|within|tolerance(?: is| of)?)\s+(three|five|six|ten|3|5|6|10)\b"
)
_WORD = {"three": 3.0, "five": 5.0, "six": 6.0, "ten": 10.0}


@dataclass
class Print:
    """What a capacitor says on its can: least and greatest µF, and where that comes from."""

    low: float
    high: float
    nominal: float
    tolerance: float | None
    on: list[Reading]


def _tolerance(facts: Facts, prints: list[Reading]) -> float | None:
    """Return the tolerance in per cent that was said near the prints, if any."""
    for r in facts.readings("concentration", role=None):
        if r.unit == "%" and r.value in (3, 5, 6, 10) and "capacitor" in (r.component or ""):
            return float(r.value)
    for r in prints:
        if found := _TOLERANCE.search(facts.context(r)):
            text = found.group(1)
            return _WORD.get(text) or float(text)
    return None


def taken_as_prints(facts: Facts) -> list[Reading]:
    """Return values not said to be rated that the words make a print: "five mfd reads five point one"."""
    readings = facts.readings("capacitance")
    found = []
    for one, other in pairwise(readings):
        if one.at.first_word is None or facts.place(other) - facts.place(one) > 2:
            continue
        before, after = facts.around(one, before=4)
        reads = phrases("reads")
        if any(f" {w} " in f" {after} " for w in reads) and not any(f" {w} " in f" {before} " for w in reads):
            found.append(one)
    return found


def measured(facts: Facts) -> list[Reading]:
    """Return the capacitances that were measured, less those that are prints by the words."""
    prints = taken_as_prints(facts)
    return [r for r in facts.readings("capacitance") if not any(r is p for p in prints)]


def prints_of(facts: Facts, reading: Reading) -> list[Reading]:
    """Return the rated readings that may belong to a measured capacitor: of its own name, else of any."""
    rated = [
        r
        for role in ("rated", "target")
        for r in facts.readings("capacitance", role=role)
        if r.value and (reading.equipment is None or r.equipment in (reading.equipment, None))
    ]
    near = [r for r in rated if r.component == reading.component]
    near = near or [r for r in taken_as_prints(facts) if r.equipment == reading.equipment]
    near = near or [
        r
        for r in rated
        if r.component is None or reading.component is None or same_part(r.component, reading.component)
    ]
    # "Five microfarad cap" of a fan motor is the print of that motor's capacitor.
    near = near or rated
    if reading.point or reading.which:
        by_point = [r for r in near if (r.point, r.which) == (reading.point, reading.which)]
        near = by_point or near
    return near


def print_of(facts: Facts, reading: Reading) -> Print | None:
    """Return the print that a measured value belongs to; None when none was said.

    Two prints that lie within a factor of 1.6 on a start capacitor are a printed range (88 to 108 µF);
    a dual run capacitor's two sections lie much further apart, and the nearer one (as a ratio) is meant.
    """
    rated = prints_of(facts, reading)
    value = value_in(reading, "uF")
    values = [value_in(r, "uF") for r in rated if value_in(r, "uF") > 0]
    if not values or not value > 0:
        return None
    distinct = sorted(set(values))
    start = "start" in (reading.component or "")
    if start and len(distinct) == 2 and distinct[1] / distinct[0] < 1.6:
        return Print(distinct[0], distinct[1], distinct[0], None, rated)
    nominal = min(distinct, key=lambda v: abs(math.log(v / value)))
    # Of several cans with the same print (the old and the new one) the nearest in the telling is meant.
    chosen = facts.nearest(reading, [r for r in rated if value_in(r, "uF") == nominal])
    on = [chosen] if chosen is not None else rated[:1]
    said = _tolerance(facts, on)
    if start and said is None:
        return Print(nominal, nominal * 1.2, nominal, None, on)
    percent = RUN_TOLERANCE if said is None else said
    return Print(nominal * (1 - percent / 100), nominal * (1 + percent / 100), nominal, said, on)
