"""Values that others measured, that stand on a sheet of before, or that are a limit: and what was read beside them."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

ROLES = [
    # of before
    ("The evaporator fan draws 0.6 amps now where it was pulling 0.9 in the spring.", ["measured", "earlier"]),
    ("Subcooling four and a half, was nine on the sheet.", ["measured", "earlier"]),
    ("The lad in the depot had measured eight amps on the evaporator fan, I make it six and a half.",
     ["earlier", "measured"]),
    ("The electrician measured 228 volts at the panel, I have 234 volts.", ["earlier", "measured"]),
    ("He measured the dough himself at 9 degrees yesterday and it ought to sit at 3.", ["earlier", "target"]),
    ("Suction twenty-eight, I had that same number last year, head one twenty-two.", ["measured", "measured"]),
    # limits
    ("Run to start has to add up to 9.5 ohms, I get 9.6 ohms.", ["target", "measured"]),
    ("Set point left at two. Cut-out still minus one degree.", ["target"]),
    ("Superheat 9, 8 to 12 is okay.", ["measured", "target", "target"]),
    ("Water flow nine gallons a minute. Eighteen gallons a minute is on the pump curve.",
     ["measured", "target"]),
    ("Herm to common 33.6 microfarads. Bottom of the band is 42.3, so out it goes.", ["measured", "target"]),
    # what was read
    ("Defrost took 26 minutes and the termination opened at fifty-two, the sheet says fifty-five.",
     ["measured", "measured", "target"]),
    ("Fail safe is set for 35 minutes and this defrost went 17.", ["target", "measured"]),
    ("Potential relay, across one and two, that should be closed and it's open, no continuity.", ["measured"]),
    ("Test and tag on the leads: earth bond 0.1 ohms, 0.12 and 0.15 ohms.", ["measured"] * 3),
]  # fmt: skip


@pytest.mark.parametrize(("text", "roles"), ROLES)
def test_told_by_others(text: str, roles: list[str]) -> None:
    assert [r.role for r in readings(text)] == roles


POSSIBLE = [
    (
        "Leads off the compressor. Phase to phase 1.3, 1.3 and 1.4.",
        [(1.3, "ohm"), (1.3, "ohm"), (1.4, "ohm")],
    ),
    ("Phase to phase 478, 480, 481.", [(478, "V"), (480, "V"), (481, "V")]),
    ("Rated input says 2.6 kilowatts and it's drawing one point one.", [(2600, "W"), (1100, "W")]),
    ("Head 14.2 bar. Liquid's twenty-six and fourteen bar now.", [(14.2, "bar"), (26, "degC"), (14, "bar")]),
    ("The coil on it has 24.6 and 31 ohms.", [(24.6, "V"), (31, "ohm")]),
    ("The two heaters have 24.6 and 25.1 ohms.", [(24.6, "ohm"), (25.1, "ohm")]),
    ("Pressure in forty-two. Inlet valve's seeing 118 and it hums.", [(42, "psi"), (118, "V")]),
    ("The liquid line solenoid coil is 240 volt, reads 410 ohms.", [(240, "V"), (410, "ohm")]),
]


@pytest.mark.parametrize(("text", "values"), POSSIBLE)
def test_what_a_number_can_be(text: str, values: list[tuple[float, str]]) -> None:
    assert [(r.value, r.unit) for r in readings(text)] == values
