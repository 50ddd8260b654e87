"""Where a value was read when the words leave it to the listener: usual points, rows of points, one motor going on.

Cases are our own sentences; what is usual at a plug, a transformer or a display is common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

# Text, and for each reading: value, component, point. "*" is not compared.
SAID: list[tuple[str, list[tuple[float | None, str | None, str | None]]]] = [
    ("One twenty two at the receptacle, one eighteen volts at the disconnect.",
     [(122, "receptacle", "line"), (118, "disconnect switch", "line")]),
    ("Transformer, two thirty three in, twenty six out.", [(233, "*", "primary"), (26, "*", "secondary")]),
    ("Display reads minus forty one Celsius. My thermometer on the middle shelf, minus thirty nine.",
     [(-41, None, "box"), (-39, None, "box")]),
    ("Compressor windings come out one point four common to run, four point eight common to start, six point two "
     "run to start.",
     [(1.4, "compressor", "common-run"), (4.8, "compressor", "common-start"), (6.2, "compressor", "run-start")]),
    ("Eight ohms on the run winding, fourteen on the start, twenty two across the pair of them. Compressor is good.",
     [(8, "compressor", "common-run"), (14, "compressor", "common-start"), (22, "compressor", "run-start")]),
    ("Line at four sixty two, four fifty eight, four sixty five across A-B, B-C, A-C.",
     [(462, "*", "L1-L2"), (458, "*", "L2-L3"), (465, "*", "L1-L3")]),
    ("Four eighty one one to two, four seventy eight two to three, four eighty three one to three.",
     [(481, "*", "L1-L2"), (478, "*", "L2-L3"), (483, "*", "L1-L3")]),
    ("One to two four eighty, two to three four seventy eight, one to three four eighty one.",
     [(480, "*", "L1-L2"), (478, "*", "L2-L3"), (481, "*", "L1-L3")]),
    ("Contactor. Two oh nine and two oh seven volts, in and out of the contactor.",
     [(209, "contactor", "line"), (207, "contactor", "load")]),
    ("Compressor 4.1 amps. Condenser fan motor: common to run forty, common to start fifty two, run to start ninety "
     "two.",
     [(4.1, "compressor", None), (40, "condenser fan motor", "common-run"),
      (52, "condenser fan motor", "common-start"), (92, "condenser fan motor", "run-start")]),
    ("Agitator motor. Main is fourteen ohms, start's twenty two, end to end thirty six.",
     [(14, "agitator motor", "common-run"), (22, "agitator motor", "common-start"),
      (36, "agitator motor", "run-start")]),
    ("Suction nought point two bar, delivery nine bar.", [(0.2, None, "suction"), (9, None, "discharge")]),
    ("Line's two oh six, two oh nine, two oh eight.", [(206, "*", "L1-L2"), (209, "*", "L2-L3"), (208, "*", "L1-L3")]),
    ("Runs again, compressor 4.6 amps, and air in 74, air out 53.",
     [(4.6, "compressor", None), (74, None, "return"), (53, None, "supply")]),
    ("Condenser fan good, air in 74, air out 92.", [(74, None, "ambient"), (92, None, "condenser air out")]),
    ("Pulled the disconnect, meter says nothing on the line side, nothing on load.",
     [(0, "disconnect switch", "line"), (0, "disconnect switch", "load")]),
    ("Isolator off, proved dead, nothing line to neutral.", [(0, None, "line-neutral")]),
    ("Disconnect off and locked, dead on all 3.", [(0, "*", "L1"), (0, "*", "L2"), (0, "*", "L3")]),
    ("The harvest coil read wide open on the ohms.", [(None, "harvest valve", "*")]),
    ("The door was wide open when I got there, box at 52.", [(52, None, "box")]),
    ("Glycol pump four point four amps.", [(4.4, "glycol pump", None)]),
    ("Ice machine. Pump's point seven amps.", [(0.7, "water pump", None)]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected"), SAID, ids=[t[:45] for t, _ in SAID])
def test_places(text: str, expected: list[tuple[float | None, str | None, str | None]]) -> None:
    readings = read_text(text).readings
    got = [(r.value, r.component, r.point) for r in readings]
    assert len(got) == len(expected), got
    for mine, wanted in zip(got, expected, strict=True):
        assert all(w == "*" or m == w for m, w in zip(mine, wanted, strict=True)), got


def test_a_fan_put_on_a_machine_to_cool_it_is_no_part_of_it() -> None:
    text = "Put the shop fan on it for an hour. Common to run 3.8 ohms, common to start 14.2."
    assert {r.component for r in read_text(text).readings} == {"compressor"}


def test_no_ohms_are_read_on_a_live_circuit() -> None:
    text = "Transformer primary 14 ohms, secondary 0.9. New transformer in. Power back on. 26.4 now."
    assert [(r.value, r.unit) for r in read_text(text).readings if r.quantity == "resistance"] == [
        (14, "ohm"),
        (0.9, "ohm"),
    ]
