"""Which part, and where on it, volts, amps and ohms are of that were told without saying it.

The order of legs and pins, and what draws the current of a running machine, are common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

PLACES = [
    ("Amps on the common 9.8.", [("compressor", "common")]),
    ("Fan outside 0.9 amps, blower 3.1.", [("condenser fan motor", None), ("blower motor", None)]),
    (
        "Windings are good. Start relay rattles, potential type. Contacts 1 to 2 welded, 0.1 ohm.",
        [("start relay", "1-2")],
    ),
    ("Reefer. Standby motor pulls 7.8 amps.", [("standby motor", None)]),
    (
        "Three phase. Amps at the compressor, twelve on the first, eleven point eight, and the third was six and a half.",
        [("compressor", "L1"), ("compressor", "L2"), ("compressor", "L3")],
    ),
    (
        "Line to line at the contactor, 207, 206, 208.",
        [("contactor", p) for p in ("L1-L2", "L2-L3", "L1-L3")],
    ),
    (
        "Mains: four hundred and one between the first pair, four hundred and three and three ninety-eight for the rest.",
        [(None, "L1-L2"), (None, "L2-L3"), (None, "L1-L3")],
    ),
    (
        "Contactor has 241 coming into it and 226 on the load side.",
        [("contactor", "line"), ("contactor", "load")],
    ),
    (
        "Drain heater is fine, 420 ohms. She fired up. Pulling 8.4 amps.",
        [("drain heater", None), ("compressor", None)],
    ),
    ("New condenser fan motor in. Power back on, drawing 0.9 amps.", [("condenser fan motor", None)]),
    (
        "Evap fan 0.4 amps. Suction 22, head 210, superheat 8. Amps 6.1.",
        [("evaporator fan motor", None), ("compressor", None)],
    ),
    ("Water pump is fine. The condensing unit is drawing 11.2 amps.", [("compressor", None)]),
    ("Reach-in freezer. Forced a defrost, 4.2 amps on the clamp.", [("defrost heater", None)]),
    (
        "Reversing valve coil read open. 24 volts at the transformer secondary. The replacement measured 16 ohms.",
        [("reversing valve", None), ("transformer", "secondary"), ("reversing valve", None)],
    ),
    (
        "Common to run 2.1, common to start 6.0, run to start 8.1. Start cap is 90 microfarads. "
        "All three terminals to the shell, OL.",
        [
            ("compressor", "common-run"),
            ("compressor", "common-start"),
            ("compressor", "run-start"),
            ("start capacitor", None),
            ("compressor", "common-ground"),
            ("compressor", "run-ground"),
            ("compressor", "start-ground"),
        ],
    ),
    ("Compressor hums. Relay rattles, 3.2 ohms. Overload is closed.", [("start relay", None)]),
    ("Ice machine. Hot gas valve has 120 volts on it.", [("harvest valve", None)]),
    (
        "Dairy case, condenser is up on the roof. Fans draw 0.41, 0.42 and 0.45 amps.",
        [("evaporator fan motor", None)] * 3,
    ),
    (
        "Checked the transformer. Disconnect off, locked, tested, zero between all three legs.",
        [("disconnect switch", p) for p in ("L1-L2", "L2-L3", "L1-L3")],
    ),
    # What only tells when something was read is no part under test.
    (
        "Meter on the inlet valve coil while the board was calling, 24.5 volts.",
        [("water inlet valve", "coil")],
    ),
    # Windings are a motor's, whatever was taken off it.
    (
        "Took the relay and overload off: common to run 2.2, common to start 9.6, start to run 11.7. "
        "To the shell from all three, OL.",
        [
            ("compressor", "common-run"),
            ("compressor", "common-start"),
            ("compressor", "run-start"),
            ("compressor", "common-ground"),
            ("compressor", "run-ground"),
            ("compressor", "start-ground"),
        ],
    ),
    ("House AC. Compressor 11.8 amps. Fan 1.2 amps.", [("compressor", None), ("condenser fan motor", None)]),
    (
        "Three heaters in the case. Voltage at the terminals is there, 231.",
        [("heater", None)],
    ),
    (
        "Three phase condensing unit. Amps, 19.8 on 1, 22.4 on 2, and 18.1 on the third.",
        [(None, "L1"), (None, "L2"), (None, "L3")],
    ),
]


@pytest.mark.parametrize(("text", "wanted"), PLACES, ids=[t[:60] for t, _ in PLACES])
def test_part_of_electric_values(text: str, wanted: list[tuple[str | None, str | None]]) -> None:
    """The part and the point of each electrical value, in the order in which they were said."""
    kinds = {"voltage", "current", "resistance", "capacitance"}
    found = [(r.component, r.point) for r in read_text(text).readings if r.quantity in kinds]
    assert found == wanted
