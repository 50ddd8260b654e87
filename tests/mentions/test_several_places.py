"""Electrical readings of several places at once: what each word stands for, on which part and at which point."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

EVAP, COND = "evaporator fan motor", "condenser fan motor"
OPEN = None

# Text, and for each reading: value (None for open), unit, component, point. "*" is not compared.
SAID: list[tuple[str, list[tuple[float | None, str, str | None, str | None]]]] = [
    (
        "Compressor windings, common to run 1.1, common to start 4.4, run to start 5.5. "
        "Nothing from any of the three pins to the shell.",
        [
            (1.1, "ohm", "compressor", "common-run"),
            (4.4, "ohm", "compressor", "common-start"),
            (5.5, "ohm", "compressor", "run-start"),
            (OPEN, "ohm", "compressor", "common-ground"),
            (OPEN, "ohm", "compressor", "run-ground"),
            (OPEN, "ohm", "compressor", "start-ground"),
        ],
    ),
    (
        "Condenser fan motor by itself, twenty eight ohms and nothing at all from either lead to the frame.",
        [(28, "ohm", COND, None), (OPEN, "ohm", COND, "ground"), (OPEN, "ohm", COND, "ground")],
    ),
    (
        "Killed the breaker, proved it dead at the block, nothing from either leg to ground.",
        [(0, "V", "*", "L1"), (0, "V", "*", "L2")],
    ),
    ("Breaker off. Zero volts both legs to ground.", [(0, "V", "*", "L1"), (0, "V", "*", "L2")]),
    ("Killed the disconnect and checked both legs, nothing.", [(0, "V", "*", "L1"), (0, "V", "*", "L2")]),
    ("Tester said nowt between live and neutral.", [(0, "V", "*", None)]),
    (
        "T one to T two 1.2 ohms, T two to T three open. Terminals one and two to the shell both clear.",
        [
            (1.2, "ohm", "compressor", "L1-L2"),
            (OPEN, "ohm", "compressor", "L2-L3"),
            (OPEN, "ohm", "compressor", "L1-ground"),
            (OPEN, "ohm", "compressor", "L2-ground"),
        ],
    ),
    ("The water pump has good continuity and nothing to its frame.", [(OPEN, "ohm", "water pump", "ground")]),
    (
        "Heater elements 40 and 41 ohms. Wide open to the sheath on both.",
        [
            (40, "ohm", "heater", None),
            (41, "ohm", "heater", None),
            (OPEN, "ohm", "heater", "ground"),
            (OPEN, "ohm", "heater", "ground"),
        ],
    ),
    (
        "I clamped the defrost heaters. First one 5.1 amps, second one 5.2, third one zip.",
        [(5.1, "A", "*", None), (5.2, "A", "*", None), (0, "A", "*", None)],
    ),
    ("I said nothing to the case manager. The sniffer found nothing.", []),
    (
        "Walk-in cooler. Fans in the box, point five, point six and point five.",
        [(0.5, "A", EVAP, None), (0.6, "A", EVAP, None), (0.5, "A", EVAP, None)],
    ),
    ("Ice machine. The fan draws point eight amps.", [(0.8, "A", COND, None)]),
    (
        "Blast chiller. Condenser is clean. Fans in the chiller pull 1.8 amps.",
        [(1.8, "A", "*", None)],
    ),
    (
        "Display case with a condensing unit on top. Fan one, 0.9 amps. Fan two, zero amps, 118 at its plug.",
        [(0.9, "A", "*", None), (0, "A", "*", None), (118, "V", "*", None)],
    ),
    (
        "Line: one-two four seventy-eight, two-three four eighty-one, one-three four seventy-five.",
        [(478, "V", None, "L1-L2"), (481, "V", None, "L2-L3"), (475, "V", None, "L1-L3")],
    ),
    (
        "R to Y 408, Y to B 412, R to B 410 volts.",
        [(408, "V", "*", "L1-L2"), (412, "V", "*", "L2-L3"), (410, "V", "*", "L1-L3")],
    ),
    (
        "Straight across the closed contacts. Point four on A. Three point six on B. Eight point two on C.",
        [(0.4, "V", "*", "L1"), (3.6, "V", "*", "L2"), (8.2, "V", "*", "L3")],
    ),
    (
        "A tenth of a volt across A, a tenth across B, point two on C.",
        [(0.1, "V", "*", "L1"), (0.1, "V", "*", "L2"), (0.2, "V", "*", "L3")],
    ),
    (
        "Half a volt across the left pole and a quarter across the other.",
        [(0.5, "V", "*", None), (0.25, "V", "*", None)],
    ),
    (
        "Amps are 31.5 on A, 26 on B, 30 on C.",
        [(31.5, "A", "*", "L1"), (26, "A", "*", "L2"), (30, "A", "*", "L3")],
    ),
    (
        "Compressor legs: twenty-one even, twenty-one and a half, twenty and three quarters.",
        [(21, "A", "compressor", "L1"), (21.5, "A", "compressor", "L2"), (20.75, "A", "compressor", "L3")],
    ),
    (
        "Running thirty one, thirty and a half and thirty one on the legs.",
        [(31, "A", "*", "L1"), (30.5, "A", "*", "L2"), (31, "A", "*", "L3")],
    ),
    (
        "L1 to L2 482 volts. Compressor amps 29, 29.5, 29.",
        [
            (482, "V", "*", "L1-L2"),
            (29, "A", "compressor", "L1"),
            (29.5, "A", "compressor", "L2"),
            (29, "A", "compressor", "L3"),
        ],
    ),
    (
        "Three phase. Compressor amps 29, 29.5, 29.",
        [(29, "A", "compressor", "L1"), (29.5, "A", "compressor", "L2"), (29, "A", "compressor", "L3")],
    ),
    (
        "Compressor hot: common to run open, common to start open, run to start 4.75 ohms. "
        "Cold now: 0.9, 3.8, 4.7.",
        [
            (OPEN, "ohm", "compressor", "common-run"),
            (OPEN, "ohm", "compressor", "common-start"),
            (4.75, "ohm", "compressor", "run-start"),
            (0.9, "ohm", "compressor", "common-run"),
            (3.8, "ohm", "compressor", "common-start"),
            (4.7, "ohm", "compressor", "run-start"),
        ],
    ),
    (
        "Harvest valve coil 480 ohms. Starting, sixty-eight amps for a blink.",
        [(480, "ohm", "harvest valve", "*"), (68, "A", "compressor", None)],
    ),
    ("Suction 68 on A, 70 on B.", [(68, "psi", "*", "suction"), (70, "psi", "*", "suction")]),
    ("The fan on the roof, 1.08 amps.", [(1.08, "A", COND, None)]),
    ("The fan over the coil is pulling 1.2 amps.", [(1.2, "A", EVAP, None)]),
]


@pytest.mark.parametrize(("text", "wanted"), SAID, ids=[t[:50] for t, _ in SAID])
def test_several_places(text: str, wanted: list[tuple[float | None, str, str | None, str | None]]) -> None:
    """Each place gets its own reading, in the order in which it was said."""
    found = read_text(text).readings
    got = [(r.value, r.unit, r.component, r.point) for r in found]
    assert len(got) == len(wanted), got
    for one, want in zip(got, wanted, strict=True):
        assert all(w in ("*", g) for g, w in zip(one, want, strict=True)), (one, want)
    assert all((r.state == "open") == (w[0] is OPEN) for r, w in zip(found, wanted, strict=True))
