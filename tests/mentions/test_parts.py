"""Parts: only what was done is listed, with action, number, count and rating as said."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.parts.handled_parts import find_parts


def said(text: str) -> list[tuple[str, str]]:
    return [(p.name, p.action) for p in find_parts(Narration.from_text(text))]


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("Replaced the contactor.", [("contactor", "replaced")]),
        # an old one out, and a new one told of behind it
        (
            "Unsweated the expansion valve with a wet rag on it, new valve's a three ton.",
            [("expansion valve", "replaced")],
        ),
        (
            "Cut the old sight glass out, then wrapped the new one and brazed it.",
            [("sight glass", "replaced")],
        ),
        ("Pulled the old relay. Set the new one and landed the wires.", [("relay", "replaced")]),
        ("Took out the old float switch, told him he wants a new one.", [("float switch", "removed")]),
        (
            "Took out the float switch and the new one did not fit, so the old one went back.",
            [("float switch", "removed")],
        ),
        ("Removed the old board. No new one on the van.", [("control board", "removed")]),
        # whose core, cap and line it is
        (
            "The drier drops nine degrees. Opened the shell, two cores, black. Fitted new ones.",
            [("filter drier", "replaced")],
        ),
        ("The port was weeping. Changed the core. Drier's fine.", [("valve core", "replaced")]),
        ("Fitted a new suction filter core.", [("suction drier", "replaced")]),
        ("Tray wiped out, line blown through.", [("drain pan", "cleaned"), ("drain line", "cleaned")]),
        ("The drain ran slow, so I flushed the line.", [("drain line", "cleaned")]),
        ("Drain pan is dry. Blew the line out with nitrogen.", []),
        ("Put the caps on and wrote it up. The capacitor reads 40 microfarads.", []),
        ("Inlet screen picked clean with a pin.", [("strainer", "cleaned")]),
        # what is no exchange, and what comes another day
        ("Blower panel screw was missing, put one in.", []),
        ("The drive belt is frayed, I change it on Monday.", []),
        ("Belt was frayed so I change it, and on Monday I look again.", [("belt", "replaced")]),
        ("Suction drier's in the van, I'm putting it in Friday.", []),
        ("The capacitor is flat. Six mike capacitor fitted.", [("run capacitor", "replaced")]),
        ("Heat works too, I put it on, nine amps on the compressor.", []),
        ("The motor is fine. I put it in the socket first.", []),
        ("Five amp fuse on the secondary now, there wasn't one.", [("fuse", "installed")]),
        ("Fuse was blown. New fuse in, there was none in the box.", [("fuse", "replaced")]),
        (
            "Hot gas defrost off a valve. Ohmed its coil, open. Slid the old coil off and the new one on.",
            [("hot gas valve coil", "replaced")],
        ),
        ("Lid gasket on the far end, not replaced.", []),
        # a cleaning that is taken back
        ("The condenser coil was iced, hosed it off, so that's thawed, not cleaned.", []),
        ("Washed the condenser coil. Drain not cleaned.", [("condenser coil", "cleaned")]),
        ("Oil filter was plugged. New filter in.", [("oil filter", "replaced")]),
        (
            "Replaced the compressor. Start relay and overload came with it so they're new too.",
            [("compressor", "replaced"), ("start relay", "replaced"), ("overload", "replaced")],
        ),
        ("The compressor is new, they put it in last year.", []),
        ("Fan blade had a crack, got a fresh one on there.", [("fan blade", "replaced")]),
        ("Scraper blades were gone so they got new ones.", [("scraper blade", "replaced")]),
        ("Belt off, new one on.", [("belt", "replaced")]),
        ("Belt is cracked, new one on order.", []),
        ("New hose made up and screwed in.", [("hose", "replaced")]),
        ("The heater is open and must be changed.", []),
        (
            "Swapped the start relay and the overload.",
            [("start relay", "replaced"), ("overload", "replaced")],
        ),
        ("Put in a new defrost timer.", [("defrost timer", "replaced")]),
        ("New condenser fan motor in.", [("condenser fan motor", "replaced")]),
        ("The contactor was replaced.", [("contactor", "replaced")]),
        ("Found the run capacitor weak, swapped it out.", [("run capacitor", "replaced")]),
        ("Pulled out the old compressor and brazed in the new one.", [("compressor", "replaced")]),
        ("Installed a hard start kit.", [("hard start kit", "installed")]),
        ("Cleaned the strainer.", [("strainer", "cleaned")]),
        ("Adjusted the expansion valve.", [("expansion valve", "adjusted")]),
        ("Changed the contactor. The overload too.", [("contactor", "replaced"), ("overload", "replaced")]),
        ("Parts used: one contactor and two fuses.", [("contactor", "replaced"), ("fuse", "replaced")]),
        ("Needs a new contactor.", []),
        ("I quoted a compressor and a drier.", []),
        ("Ordered the control board.", []),
        ("Did not replace the contactor.", []),
        ("The last guy replaced the contactor.", []),
        ("They replaced the compressor last year.", []),
        ("If it trips again, replace the overload.", []),
        ("I'll change the contactor tomorrow.", []),
        ("Pulled the cover off.", []),
        ("Put the panel back on.", []),
        ("Replaced the run capacitor.", [("run capacitor", "replaced")]),
        (
            "Put in three fuses and a contactor, 24 volt coil.",
            [("fuse", "replaced"), ("contactor", "replaced")],
        ),
        ("Put in a contactor.", [("contactor", "replaced")]),
        ("Fitted a thermostat.", [("thermostat", "replaced")]),
        ("Fitted a new thermostat.", [("thermostat", "replaced")]),
        ("Fitted the new thermostat and wired it.", [("thermostat", "replaced")]),
        (
            "New cap tube, 9 feet of 0 point 042, and a dryer, part C-032.",
            [("capillary tube", "replaced"), ("filter drier", "replaced")],
        ),
        (
            "Capacitor on the beater is a thirty, I got eighteen, that's junk. New one's thirty, reads thirty point four.",
            [("run capacitor", "replaced")],
        ),
        ("Contactor pitted, new one fitted.", [("contactor", "replaced")]),
        ("Contactor was burnt. New one in.", [("contactor", "replaced")]),
        ("Fan motor seized. Got another off the van and fitted it.", [("fan motor", "replaced")]),
        ("Overload was open, put another one in.", [("overload", "replaced")]),
        ("It got a new fan motor.", [("fan motor", "replaced")]),
        ("It got a new start relay and overload.", [("start relay", "replaced"), ("overload", "replaced")]),
        ("Gave it a new start capacitor.", [("start capacitor", "replaced")]),
        ("Chucked a new contactor in.", [("contactor", "replaced")]),
        ("Chucked in a new contactor.", [("contactor", "replaced")]),
        ("Slapped a new contactor in.", [("contactor", "replaced")]),
        ("Threw a new capacitor on it.", [("run capacitor", "replaced")]),
        ("Bunged in a new fan motor.", [("fan motor", "replaced")]),
        ("Whacked in a new fan motor.", [("fan motor", "replaced")]),
        ("Hung a new compressor.", [("compressor", "replaced")]),
        ("Popped a new thermostat in.", [("thermostat", "replaced")]),
        ("Dropped in a new compressor.", [("compressor", "replaced")]),
        ("Wired up a new defrost timer.", [("defrost timer", "replaced")]),
        ("Wired in the new timer.", [("defrost timer", "replaced")]),
        ("Defrost timer swapped.", [("defrost timer", "replaced")]),
        ("Timer's been swapped.", [("defrost timer", "replaced")]),
        ("Had to swap the defrost timer.", [("defrost timer", "replaced")]),
        ("Ended up replacing the control board.", [("control board", "replaced")]),
        ("Wound up changing the door gasket.", [("door gasket", "replaced")]),
        ("Replacing the contactor fixed it.", [("contactor", "replaced")]),
        ("After changing the capacitor it started.", [("run capacitor", "replaced")]),
        ("New fan motor and blade installed.", [("fan motor", "replaced"), ("fan blade", "replaced")]),
        (
            "Parts: contactor, capacitor, two fuses.",
            [("contactor", "replaced"), ("run capacitor", "replaced"), ("fuse", "replaced")],
        ),
        (
            "Parts on this one were a contactor and a fan motor.",
            [("contactor", "replaced"), ("fan motor", "replaced")],
        ),
        (
            "Used one contactor and one 35 microfarad capacitor.",
            [("contactor", "replaced"), ("run capacitor", "replaced")],
        ),
        (
            "Contactor, capacitor and fan motor all replaced.",
            [("contactor", "replaced"), ("run capacitor", "replaced"), ("fan motor", "replaced")],
        ),
        ("Contactor, new.", [("contactor", "replaced")]),
        ("Put two new belts on.", [("belt", "replaced")]),
        ("New belts, two of them, A42.", [("belt", "replaced")]),
        ("New belt on.", [("belt", "replaced")]),
        ("Belt replaced with a B56.", [("belt", "replaced")]),
        ("Upgraded the thermostat to a digital one.", [("thermostat", "replaced")]),
        ("Switched the contactor out.", [("contactor", "replaced")]),
        ("Got the new TXV in.", [("expansion valve", "replaced")]),
        ("Got a new TXV in it.", [("expansion valve", "replaced")]),
        ("TXV replaced, bulb strapped and insulated.", [("expansion valve", "replaced")]),
        ("Took the old compressor out and set the new one.", [("compressor", "replaced")]),
        ("Finished up with a new door switch.", [("door switch", "replaced")]),
        ("There's a new contactor in there now.", [("contactor", "replaced")]),
        ("Fuse blown, replaced with 15 amp.", [("fuse", "replaced")]),
        ("Blown fuse, changed.", [("fuse", "replaced")]),
        ("Installed new evaporator fan motors, both.", [("evaporator fan motor", "replaced")]),
        ("Installed a hard start.", [("hard start kit", "installed")]),
        ("Added a hard start kit.", [("hard start kit", "installed")]),
        ("Fitted a crankcase heater, it never had one.", [("crankcase heater", "installed")]),
        ("Installed a line tap.", [("access valve", "installed")]),
        ("Replaced the harvest valve coil.", [("harvest valve coil", "replaced")]),
        ("New coil on the harvest valve.", [("harvest valve coil", "replaced")]),
        ("Repaired the wire to the fan.", [("wire", "repaired")]),
        ("Fixed the door closer.", [("door closer", "repaired")]),
        ("Re-terminated the burnt wire.", [("wire", "repaired")]),
        ("Repaired the flare on the liquid line.", [("flare nut", "repaired")]),
        (
            "Cleaned the condenser coil and the drain pan.",
            [("condenser coil", "cleaned"), ("drain pan", "cleaned")],
        ),
        ("Adjusted the expansion valve a quarter turn.", [("expansion valve", "adjusted")]),
        ("Belt was loose, tightened it.", [("belt", "adjusted")]),
        ("Put the new start relay on.", [("start relay", "replaced")]),
        ("Stuck a new door gasket on.", [("door gasket", "replaced")]),
        ("New start relay on there.", [("start relay", "replaced")]),
        (
            "Changed out the contactor, 3 pole, 40 amp, and the control fuse.",
            [("contactor", "replaced"), ("fuse", "replaced")],
        ),
        ("Contactor replaced with a 40 amp.", [("contactor", "replaced")]),
        ("Swapped in a new defrost board.", [("defrost board", "replaced")]),
        ("Replaced the thermostat, the old one was stuck.", [("thermostat", "replaced")]),
        ("One new contactor.", [("contactor", "replaced")]),
        ("Put in two hours.", []),
        ("Put in a ticket.", []),
        ("It has got a new compressor from 2021.", []),
        ("The unit got a new board last year.", []),
        ("The new one is on order.", []),
        ("A new one is four hundred dollars.", []),
        ("Used a jumper to run the fan.", []),
        ("Got a new drill bit.", []),
        ("Recommend new gaskets.", []),
    ],
)
def test_handled(text: str, want: list[tuple[str, str]]) -> None:
    assert said(text) == want


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("Replaced the contactor, part number C S two four zero.", "CS240"),
        ("New coil for the harvest valve, part number eighty eight dash one oh four. Put it in.", "88-104"),
        ("Changed the third defrost heater, 1,200 watts, part number DH-1204.", "DH-1204"),
        ("New belt, a B fifty four, and new filters.", "B54"),
        ("New box probe, SN twelve. Ten point two K in my hand.", "SN12"),
        ("New contactor put in, a 30 amp 3 pole with a 24 volt coil, number C30-3.", "C30-3"),
        ("Swapped the compressor, number C R seven oh, and a new drier.", "CR70"),
        ("Door heater changed, kit number DH 7.", "DH7"),
        ("Replaced the ignitor. The box says IG 200.", "IG200"),
    ],
)
def test_part_number(text: str, number: str) -> None:
    assert number in [p.part_number for p in find_parts(Narration.from_text(text))]


def test_count_and_rating() -> None:
    (fuse,) = find_parts(Narration.from_text("Replaced three fuses."))
    assert fuse.quantity == 3
    (contactor,) = find_parts(Narration.from_text("Put in a new two pole 30 amp contactor."))
    assert (contactor.quantity, contactor.rating) == (1, "two pole 30 amp")


@pytest.mark.parametrize(
    "text",
    [
        "Put a new expansion valve in, half ton, R 448A.",
        "New contactor, two pole, thirty amp, 24 volt coil.",
        "New contactor, L1 to T1 point one.",
        "New cap, thirty five and five, four forty.",
        "New compressor, it pulls four amps.",
    ],
)
def test_a_size_or_a_gas_is_no_part_number(text: str) -> None:
    assert [p.part_number for p in find_parts(Narration.from_text(text))] == [None]


def test_a_pronoun_of_several_stands_for_the_row() -> None:
    parts = find_parts(Narration.from_text("Relay and overload come as a set. Put those on."))
    assert [p.action for p in parts] == ["replaced", "replaced"]
