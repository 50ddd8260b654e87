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
