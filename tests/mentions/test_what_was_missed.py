"""Values that a careless reader misses or misreads: no amps at all, pins to the shell, legs that have a name already.

A row is the narration and its readings, in order, as in test_ways_of_saying.py. Sources: how windings, pins and legs
are called is common practice; what nothing to ground means on a meter follows from what an ohmmeter shows.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row

NAMED_LEGS = [
    ("Compressor windings, run leg two point two ohms, start leg six point nine, across both nine point one.",
     "2.2 ohm|run", "6.9 ohm|start", "9.1 ohm|run-start"),
    ("Compressor run winding one point one ohms, start winding three point four.", "1.1 ohm|run",
     "3.4 ohm|start"),
]  # fmt: skip

NO_AMPS = [
    ("Right fan has 120 volts at the leads and no amps whatsoever.", "120 V|measured", "0 A|fan motor"),
    ("Heater has 208 across it and no amps.", "208 V|measured", "0 A|heater"),
    ("Blower motor gets 230 volts, no current at all.", "230 V|measured", "0 A|blower motor"),
    ("The motor has voltage but draws no current.", "0 A|motor"),
    ("It reads 40 amps, no, volts.", "40 A|retracted", "40 V|measured"),
]  # fmt: skip

_PINS = ("open ohm|common-ground", "open ohm|run-ground", "open ohm|start-ground")
PINS_TO_THE_SHELL = [
    ("Compressor, common to run 1.4 ohms, not a thing from the shell to any of the three pins.",
     "1.4 ohm|common-run", *_PINS),
    ("Compressor pins: from the shell to all three, nothing.", *_PINS),
    ("Ohmed the compressor. Not a one of the three pins shows anything to the shell.", *_PINS),
    ("I ohmed each pin against the shell of the compressor and got nothing.", *_PINS),
    ("Any pin to the housing of the compressor reads OL.", *_PINS),
]  # fmt: skip

NO_NAME_AND_NO_TIME = [
    ("Walk-in freezer. Coil was a block of ice. Room -9, supposed to be -20.", "-9 degF|box", "-20 degF|target"),
    ("Voltage at the heater terminals 231. Heater 1 drew 4.4 amps.", "231 V|heater", "4.4 A|heater"),
    ("Glycol going out at -2, coming back at 3. Set point is -3.", "-2 degF|supply", "3 degF|return", "-3 degF|target"),
    ("Heater coil was open. New element came in at 24.", "open ohm", "24 ohm|heater"),
]  # fmt: skip

# 1 inch of water (at 4 degC) is 249.089 Pa: NIST Special Publication 811, appendix B.8
STATIC_PRESSURE_OF_AIR = [
    ("External static 0.82 inches.", "204.253 Pa|pressure"),
    ("Return static 0.32 inches, supply static 0.28 inches.", "79.7085 Pa", "69.7449 Pa"),
    ("Static across the filters, point nine inches. That should be under point five.", "224.18 Pa", "124.5445 Pa|target"),
    ("Static's at point eight.", "199.2711 Pa|measured"),
    ("Total static 0.8 inches with a 1 inch filter.", "199.2711 Pa"),
    ("Static 110 on both sides.", "110 psi|static", "110 psi|static"),
    ("Pulled it down to 28 inches and let it sit.", "28 inHg"),
]  # fmt: skip

ROWS = [*STATIC_PRESSURE_OF_AIR, *NAMED_LEGS, *NO_AMPS, *PINS_TO_THE_SHELL, *NO_NAME_AND_NO_TIME]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0][:50])
def test_row(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)
