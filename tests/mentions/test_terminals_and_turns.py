"""Ohms and volts of terminals, sides and several of a kind: what is taken of each, where, in their order.

The sum of the windings, the side a switch is fed at, and ohms measured without power are common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

TOLD = [
    ("Comp one nineteen amps, comp two eighteen four.", ["19 A compressor", "18.4 A compressor"]),
    ("Motor one twelve point two amps, motor two eleven nine.", ["12.2 A motor", "11.9 A motor"]),
    ("Head one ninety, head two ten now.", ["190 psi - discharge", "210 psi - discharge"]),
    (
        "Rooftop. Suction one 21, discharge 348, outside 94.",
        ["121 psi - suction", "348 psi - discharge", "94 degF - ambient"],
    ),
    ("Fans 0.4 amps times three, 0.5 on the last.", [*["0.4 A fan motor"] * 3, "0.5 A fan motor"]),
    ("The fuse blew three times. Compressor 14 amps, reset it 2 times.", ["14 A compressor"]),
    ("Compressor windings, all three point eight ohms.", ["0.8 ohm compressor"] * 3),
    ("They are all three point eight ohms.", ["3.8 ohm -"]),
    (
        "Condenser fans, 22.4 and 22.6 ohms. Blower is 3.9, 3.9, 3.9.",
        ["22.4 ohm condenser fan motor", "22.6 ohm condenser fan motor", *["3.9 ohm blower motor"] * 3],
    ),
    ("Heater 41 ohms. Fan motor 0.4.", ["41 ohm heater", "0.4 A fan motor"]),
    (
        "Fan motor 22 ohms. Power on. Compressor 14.1 and the fan 0.9.",
        ["22 ohm fan motor", "14.1 A compressor", "0.9 A fan motor"],
    ),
    (
        "Compressor windings one point five, four point eight, six point three.",
        ["1.5 ohm compressor common-run", "4.8 ohm compressor common-start", "6.3 ohm compressor run-start"],
    ),
    (
        "Compressor ohms 9.1, 2.2 and 6.9.",
        ["9.1 ohm compressor run-start", "2.2 ohm compressor common-run", "6.9 ohm compressor common-start"],
    ),
    ("Compressor windings 2.1, 2.1, 2.2 ohms.", ["2.1 ohm compressor -", "2.1 ohm compressor -", "2.2 ohm compressor -"]),
    (
        "Windings on the compressor. 4.8 ohms, and then 7.9, and across the both, 12.6.",
        ["4.8 ohm compressor common-run", "7.9 ohm compressor common-start", "12.6 ohm compressor run-start"],
    ),
    (
        "Windings C2R 1.1, C2S 4.2, R2S 5.3 ohms.",
        ["1.1 ohm compressor common-run", "4.2 ohm compressor common-start", "5.3 ohm compressor run-start"],
    ),
    ("27 volts between R and C.", ["27 V - R-C"]),
    (
        "Two oh nine in at the contactor, top side. Bottom side zero, not pulled in.",
        ["209 V contactor line", "0 V contactor load"],
    ),
    (
        "240 coming in at the disconnect, top side, 240 on the bottom. Contactor pulled in.",
        ["240 V disconnect switch line", "240 V disconnect switch load"],
    ),
    (
        "At the disconnect top, two eleven, two ten, two twelve. Bottom, two eleven, one thirty, one eighteen.",
        [
            *(f"{v} V disconnect switch {p}" for v, p in ((211, "L1-L2"), (210, "L2-L3"), (212, "L1-L3"))),
            *(f"{v} V disconnect switch load" for v in (211, 130, 118)),
        ],
    ),
    ("New capacitor, thirty five five. Plugged it all on.", ["35 uF run capacitor", "5 uF run capacitor"]),
    (
        "Contactor too, and the run cap, forty five five, because I don't trust the old one.",
        ["45 uF run capacitor", "5 uF run capacitor"],
    ),
    ("The run cap reads forty five five.", ["45.5 uF run capacitor"]),
    (
        "The capacitor, thirty five and five, got thirty four and one point eight on the little side.",
        [
            "35 uF run capacitor", "5 uF run capacitor", "34 uF run capacitor herm",
            "1.8 uF run capacitor fan",
        ],
    ),
    (
        "Start can is 88 to 108, reads 96. Run can 35, reads 34.2.",
        [*(f"{v} uF start capacitor" for v in (88, 108, 96)), "35 uF run capacitor", "34.2 uF run capacitor"],
    ),
    ("Top fan gets 231 volts, bottom fan 230.", ["231 V fan motor -", "230 V fan motor -"]),
]  # fmt: skip


def test_machines_told_by_their_number() -> None:
    record = read_text(
        "Strip mall, three units. Unit one, the nail place. Compressor 10 amps. Unit two, the pizza place. "
        "Blower draws four amps. Unit three, the empty suite. Suction 110."
    )
    assert [e.name for e in record.equipment] == ["unit 1", "unit 2", "unit 3"]
    assert [r.equipment for r in record.readings] == ["e1", "e2", "e3"]


def test_the_only_kind_of_machine_named_is_the_machine() -> None:
    record = read_text("High head on the big outdoor condensing unit. Head was three ninety.")
    assert [e.type for e in record.equipment] == ["condensing unit"]
    record = read_text("Parked behind the ice machine. Compressor 4 amps.")
    assert not any(e.type for e in record.equipment)


@pytest.mark.parametrize(("said", "told"), TOLD, ids=[s[:45] for s, _ in TOLD])
def test_what_is_told_of_each(said: str, told: list[str]) -> None:
    found = [f"{r.value:g} {r.unit} {r.component or '-'} {r.point or '-'}" for r in read_text(said).readings]
    assert len(found) == len(told), found
    for got, wanted in zip(found, told, strict=True):
        assert got == wanted or got.startswith(f"{wanted} "), (got, wanted)
