"""Terminals that the values tell: windings by their sum, R and C of a thermostat by their volts.

windings_by_sum(found)
thermostat_pairs(found, words)
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.whose.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_MOST_OHMS = 1000.0
"""Ohms from which it is no winding of a motor."""
_CONTROL_VOLTS = (15.0, 45.0)
"""Between these the two wires R and C of a control circuit are fed with 24 V; common practice."""


def windings_by_sum(found: Found) -> None:
    """Name three ohms of a motor of which one is the sum of the others: "windings 1.5, 4.8, 6.3".

    The sum lies from run to start, and the run winding has fewer ohms than the start winding: common
    practice.
    """
    ohms = [t for t in found.readings if t.reading.quantity == "resistance" and t.reading.role == "measured"]
    for row in zip(ohms, ohms[1:], ohms[2:], strict=False):
        if row[0].reading.component not in {"compressor", *word_list("readings_motors")}:
            continue
        if any(t.reading.value is None or t.reading.component != row[0].reading.component for t in row):
            continue
        if any(b.start - a.end > 8 or b.sentence - a.sentence > 1 for a, b in pairwise(row)):
            continue
        run, start, both = sorted(t.reading.value or 0.0 for t in row)
        if run <= 0 or both >= _MOST_OHMS or start < 1.25 * run:
            continue
        if abs(both - run - start) > max(0.15, 0.04 * both):
            continue
        named = {run: "common-run", start: "common-start", both: "run-start"}
        if all(t.reading.point in {None, named[t.reading.value or 0.0]} for t in row):
            for t in row:
                t.reading.point = named[t.reading.value or 0.0]


def thermostat_pairs(found: Found, words: Sequence[str]) -> None:
    """Call the R and C between which a control voltage was read by their letters: no windings have it."""
    low, high = _CONTROL_VOLTS
    for t in found.readings:
        r = t.reading
        if r.point == "common-run" and r.quantity == "voltage" and low <= (r.value or 0.0) <= high:
            r.point = "R-C" if _letters(t, words) else None


def _letters(t: Taken, words: Sequence[str]) -> bool:
    near = words[max(0, t.start - 8) : t.end + 8]
    return "r" in near and ("c" in near or "common" in near)


def capacitor_sides(found: Found) -> None:
    """Name the other side of a dual capacitor: "thirty four and one point eight on the little side"."""
    for a, b in pairwise(found.readings):
        big, small = a.reading, b.reading
        if (big.quantity, small.quantity, small.point) != ("capacitance", "capacitance", "fan"):
            continue
        alike = big.role == small.role and big.component == small.component and big.point in {None, "fan"}
        if alike and b.sentence == a.sentence and b.start - a.end <= 2:
            big.point = "herm" if (big.value or 0.0) >= 2 * (small.value or 0.0) else big.point


__all__ = ["capacitor_sides", "thermostat_pairs", "windings_by_sum"]
