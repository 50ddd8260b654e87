"""Open circuits in clauses of their own: "ohmed the coil. Open.", "meter gives me no reading".

A row is the narration and its readings, in order, as in test_ways_of_saying.py.
Source: a meter over range on an ohm test is an open circuit; common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row

CLEAR = ("open ohm|common-ground", "open ohm|run-ground", "open ohm|start-ground")
WINDINGS = ("11.6 ohm|common-run", "14.9 ohm|common-start", "26.4 ohm|run-start")
OHMED = "Compressor ohms: C to R eleven point six, C to S fourteen point nine, S to R twenty-six point four."

ROWS = [
    ("Killed it at the switch, pulled a wire, ohmed the hot gas valve coil. Open.", "open ohm"),
    ("Two heaters in there wired parallel. Left one, open. Right one forty eight ohms.", "open ohm|heater", "48 ohm"),
    ("Pulled the plug off the coil, power off first. Coil: no reading.", "open ohm"),
    ("Drain heater, on ohms my meter gives me no reading.", "open ohm|drain heater"),
    (f"{OHMED} Body earth, no reading.", *WINDINGS, "open ohm|ground"),
    (f"{OHMED} Body to all three no reading.", *WINDINGS, *CLEAR),
    (f"{OHMED} Shell, nothing, on every pin.", *WINDINGS, *CLEAR),
    (f"{OHMED} Over range to the shell from all three.", *WINDINGS, *CLEAR),
    ("Winding's forty four ohms, clear down to earth.", "44 ohm", "open ohm|ground"),
    ("Clutch coil gets 13.8 volts. Engine off. Coil resistance open.", "13.8 V", "open ohm|compressor clutch"),
    ("Compressor windings, C to R twelve, C to S twenty-two, S to R thirty-four.", "12 ohm", "22 ohm", "34 ohm"),
    ("Ohmed the transformer, primary 60 ohms, secondary no reading.", "60 ohm", "open ohm|secondary"),
    ("Float switch goes zero point five ohms and open when you lift it.", "0.5 ohm", "open ohm|float switch"),
    ("Overload, I get open. Cooled it down, still open.", "open ohm|overload", "open ohm|overload"),
    ("Long stem to ground in the water, I read nothing, should be a few thousand ohms.", "open ohm"),
    ("Hose off, looked for leaks with soap, nothing. The box was open all night.",),
    ("Coil ohms 18. The door was open. I left it open.", "18 ohm"),
    ("Door one heater, two twenty ohms. Door two, two eighteen. Door three, open.",
     "220 ohm|heater", "218 ohm|heater", "open ohm|heater"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row[0])
def test_an_open_circuit_in_a_clause_of_its_own(row: tuple[str, ...]) -> None:
    assert_row(row)
