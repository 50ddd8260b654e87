"""Work told by gestures: old ones that come off and new ones that go on, meters that show nothing, a switch."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.whose.things import things_of
from dictate.record.mentions import Mentions


def mentions_of(text: str) -> Mentions:
    return find(list(segments_of([text], "c1")))


def replaced(text: str) -> list[str]:
    return [p.name for p in mentions_of(text).parts if p.action in ("replaced", "installed")]


def steps_of(text: str) -> dict[str, str]:
    return {s.step: s.status for s in mentions_of(text).steps}


@pytest.mark.parametrize(
    ("text", "part"),
    [
        # Named with the old one, or as it comes off
        ("Transformer's humming. Old transformer off. Two screws. New one. There. Wires.", "transformer"),
        ("Defrost timer's dead. Timer out. Four spades. New one, same screws. Push, push.", "defrost timer"),
        ("Contactor's chattering. Contactor in the bin. New one, snug. Tug. Done.", "contactor"),
        # Not named: what was tested and found bad
        (
            "Contactor, bottom side. Two ten, two ten, one eighty. Middle pole's burnt. Compressor, eighteen amps."
            " Old one's off. Fresh one. Screws. There.",
            "contactor",
        ),
        (
            "Evaporator fan motor, nine ohms to ground. Hums, won't turn. Four bolts. That's him out, in the pail."
            " Other one in. Bolts. Plug.",
            "evaporator fan motor",
        ),
        (
            "Run capacitor, three. Says ten. Weak. Nut. Him off. Bucket. Same value, ten, in the strap. Nut.",
            "run capacitor",
        ),
        # Cleared, or off only on the way
        (
            "Gear motor, eight amps, grinding. Start capacitor reads one ten, that's not it. Belt off. Four bolts."
            " Heavy. That's him off. Other one on. Bolts.",
            "gear motor",
        ),
        (
            "Door heater's open. Drain heater, two ten, fine. Two clips. Out she comes. New one. Clips. Good.",
            "door heater",
        ),
        # A part of the circuit comes out with the torch only
        (
            "Compressor's grounded. Torch. Snip, snip. Four bolts. Compressor off. New one in. Joint. Joint.",
            "compressor",
        ),
        ("Compressor's grounded. Cutters. Four bolts. Heavy. New one drops in. Joint, joint.", "compressor"),
        # What hands call a part
        ("Sump band's open. Old band off. New band round her. Nine hundred ohms.", "crankcase heater"),
        (
            "Fan hums. Bled the can. Can reads two. Stamped five. Old can off. New can. Five oh.",
            "run capacitor",
        ),
        (
            "Cap tube's plugged. It's coming out. Torch. New cap in, eighth inch past the screen.",
            "capillary tube",
        ),
        (
            # Which of them it is
            "One of the fans in the box won't turn. Winding's open. New motor, ten watt, in he goes. Blade on.",
            "evaporator fan motor",
        ),
        (
            "Defrost won't clear it. Clamp on the heater wires, zero. Drain line heater, 118 ohms, so he's good."
            " New element, reads forty. Slide it in.",
            "defrost heater",
        ),
        (
            "Volts at the plug, one twenty. So it's a dead fan motor on good power. Breaker off. Four screws. Plug."
            " Ohms, open. Tea. Out with it. New set in, a hundred ohms. Breaker on.",
            "fan motor",
        ),
        (
            "The compressor's grounded. Saw. Hoist. Gone over the side. Sun's out. Tea. Wind's up. New one sweated in.",
            "compressor",
        ),
        (
            # Only the new one is told, as it goes in, of a part that was spoken of long before
            "Fan's dead. Dual cap, bleed it. Herm forty. Fan side has nothing left in it. Motor reads eleven ohms."
            " Twenty one. Thirty two across. None to the frame. Spins free. New one in, same make. Breaker on.",
            "run capacitor",
        ),
        (
            "Valve on that line's quiet. Leads on it. Twelve ohms. Coil's good, it's jammed. Recover it. Tea."
            " Down to zero. Torch. Unsweat the old one, new one in, wet rag round it. Soap. Quiet.",
            "solenoid valve",
        ),
        (
            "Fill's trickling. Coil on that valve, four hundred. Off she comes. New one. Nut. Nut.",
            "water inlet valve",
        ),
        # Other words for the two of them
        (
            "Evaporator fan motor hums. Four screws. Left one's out. New lad's in, spins lovely.",
            "evaporator fan motor",
        ),
        ("Contactor's chattering, burnt. Bottom un's out. New un's on. Wires.", "contactor"),
        (
            "Condenser fan motor's seized. Four bolts. Off ye come. New fella's bolted. Wires.",
            "condenser fan motor",
        ),
        ("Door heater, open. Got a spare. Swap. Nought point four.", "door heater"),
        ("Gear motor's seized. Belt off, pulley off. Out. Heavy. Swapped. Belt on.", "gear motor"),
        ("Drain pump, dead. Out with it. In she goes, same size. Clips.", "condensate pump"),
        ("Contactor. Points burnt to nothing on that pole. New one slots on the rail. Wires.", "contactor"),
        (
            "Thermostat's shot. Two screws, bulb out of the well. New one, knob round. It clicks.",
            "thermostat",
        ),
        (
            "Expansion valve's had it. That's out. New one's on it's all flares no heat needed.",
            "expansion valve",
        ),
        # Nobody named it: a fan's blade came off, a pump's hoses, a compressor's windings were told
        (
            "This one won't turn. Blade off. And out. The bearing's like gravel. New one's bolted. Blade on.",
            "fan motor",
        ),
        ("Jubilee off, hoses off. Look at that impeller. He's out. New lad in. Hoses on.", "water pump"),
        (
            "Common to run, two ohms. Common to start, four. Run to the shell, nine. Cooked. Torch. Old one's out."
            " New one's in. Four joints.",
            "compressor",
        ),
    ],
)
def test_an_old_one_off_and_a_new_one_on_is_an_exchange(text: str, part: str) -> None:
    assert replaced(text) == [part]
    codes = steps_of(text)
    assert codes.get("part_replaced") == "done"


@pytest.mark.parametrize(
    "text",
    [
        # Off only, or back on again
        "Fan motor's dead, open winding. Old one's out. New one's in the van till Thursday.",
        "Contactor's pitted. They want a swap. Not today.",
        "Blade off. The bearing's rough, left it. Blade on.",
        "Contactor's pitted. Two screws. Out she comes. Filed the points. Back in. Screws.",
        "Evaporator fan motor hums. That's him off. Oiled it. On he goes. Bolts.",
        # Still to come, wished for, asked or priced
        "Contactor's pitted. Old one's out. New one next week.",
        "Contactor's pitted. Old one's out. The new one is on order.",
        "Contactor's pitted. Old one's out. New one? Not on the truck.",
        "Contactor's pitted. Old one out. I'd put a new one in.",
        "Contactor's pitted. New one would be forty dollars. Old one's off.",
        # The old one is good, or stays
        "Contactor's fine. Old one's good. New one stays in the box.",
        # In somewhere else, and with no hands at it
        "Contactor's pitted. Six screws. Radio off. Store shut. Tea. Boots wet. Cut wires. New one in the van, he asks.",
        "Contactor's pitted. Amps are fine. Box is cold. Store shut. Radio works. Tea. New one in, he asks.",
        # A word of dialect for "one" is no part
        "Cap's weak, half of what it was. New un, reads eight.",
        # Two that run by turns
        "Compressor one, twelve amps. That's him off. Other one on. Fourteen amps.",
        # A circuit that nobody opened, and words of talk
        "Suction sixty at the compressor. Door cover, two screws. Old one off. New one. There.",
        "Stiff as a board. Out she comes. New one. There.",
        "Can you hear that? Old one's off. New one. There.",
    ],
)
def test_half_a_gesture_is_no_exchange(text: str) -> None:
    assert [p for p in replaced(text) if p not in ("door",)] == []
    assert steps_of(text).get("part_replaced") != "done"


@pytest.mark.parametrize(
    "text",
    [
        "Hair dryer on the gasket till it sits flat.",
        "Drier joint. Torch. Rod. Other end. Rod.",
        "Fan blade's stiff as a board.",
    ],
)
def test_tools_and_similes_are_no_parts(text: str) -> None:
    assert not {"filter drier", "heater", "control board"} & set(replaced(text))


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("Drain it. Cover's off.", False),
        ("Drain the lot. Cover's off.", False),
        ("Drain's clear. Cover's off.", True),
    ],
)
def test_to_drain_something_names_no_drain(text: str, named: bool) -> None:
    words = words_of(Narration(list(segments_of([text], "c1"))))
    assert ("drain line" in {t.name for t in things_of(words)}) is named


@pytest.mark.parametrize(
    "text",
    [
        "Disconnect's out. Meter. Left to right, zip. Left to middle, zip. Screws.",
        "Breaker's off, my lock's on it. Red to black, nothing. Black to blue, nothing. Cover.",
        "Pulled the disconnect. Probes. Zero. Zero. Zero. Okay.",
        "Isolator off, tag on. Top lugs, naught volts.",
    ],
)
def test_a_meter_that_shows_nothing_behind_an_isolation_is_its_proof(text: str) -> None:
    assert steps_of(text).get("absence_of_voltage_verified") == "done"


@pytest.mark.parametrize(
    "text",
    [
        "Breaker's off. Ohms on the motor. Red to black, nothing.",
        "Meter on the plug, nothing. Wall's dead, so call the sparky.",
        "Breaker's off. Sniffer round the joints, nothing.",
    ],
)
def test_nothing_of_another_kind_proves_nothing(text: str) -> None:
    assert steps_of(text).get("absence_of_voltage_verified") != "done"


@pytest.mark.parametrize(
    ("text", "step"),
    [
        (
            "Pulled the plug. Two screws, old fan motor out, new one in, screws, guard, blade. Plug. Spins.",
            "power_restored",
        ),
        (
            "Killed the switch. Cover off, board out, new board in, four screws, leads on. Switch. There.",
            "power_restored",
        ),
        ("Unplugged it. Screwdriver across it, C to H. Snap. Nothing left.", "capacitor_discharged"),
        ("Isolator doon, locked.", "power_isolated"),
        ("Disconnect block's pulled.", "power_isolated"),
        ("Nitrogen just whispering. Torch. Elbow in. That side. This side.", "brazed"),
        ("Hose on. Pulling what's left. Six ounces on the scale.", "refrigerant_recovered"),
    ],
)
def test_steps_in_a_word_or_two(text: str, step: str) -> None:
    assert steps_of(text).get(step) == "done"


@pytest.mark.parametrize(
    ("text", "step"),
    [
        (
            "Pulled the plug. Old plug's melted. Two wires, strip, crimp, heat shrink, tape. Plug. Off it stays.",
            "absence_of_voltage_verified",
        ),
        ("Condenser's a carpet. Brush. Vac. Rinse. Clear.", "evacuated"),
        ("Plate is telling four ounces.", "customer_informed"),
        ("Torch in my teeth, can't see a thing. Fan's iced.", "brazed"),
        ("Screwdriver on the coil, no pull at all.", "capacitor_discharged"),
    ],
)
def test_near_misses_of_steps(text: str, step: str) -> None:
    assert steps_of(text).get(step) != "done"


def test_the_part_is_asked_about_where_nobody_said_that_it_failed() -> None:
    text = "Condenser fan motor, nine tenths. Slow. Two nuts. Old one out. New one. Nuts. Blade."
    assert all(p.review for p in mentions_of(text).parts if p.action == "replaced")


@pytest.mark.parametrize(
    ("text", "step", "want"),
    [
        # Somebody else throws the switch
        ("Joe! Is it off? Off? Meter says zero on both legs.", "power_isolated", "done"),
        ("Is the fan off? Meter says zero on the control.", "power_isolated", None),
        ("Isolator down. Winding is open.", "power_isolated", "done"),
        # and puts it back
        ("Breaker's off. New contactor in. Four wires, four screws, all tight, none loose. Joe? On!", "power_restored", "done"),
        ("Breaker's off. New contactor in. Four wires, four screws, all tight, none loose. Okay, throw it.", "power_restored", "done"),
        ("Breaker's off. New contactor in. Four wires, four screws, all tight, none loose. There she goes. Two forty volts.", "power_restored", "done"),
        ("Breaker's off. Four bolts on the motor, all of them rusted solid, what a pig. There she goes. Off, two bolts left.", "power_restored", None),
        ("Joe? On! Compressor nine amps.", "power_restored", None),
        # Who will be told, by name
        ("Caps on. I'll email Priya. Two hours.", "customer_informed", "planned"),
        ("Caps on. I'll tell Nick on the way out.", "customer_informed", "planned"),
        ("Caps on. I'll let Mrs Hill know it works.", "customer_informed", "planned"),
        ("Caps on. I'll call Polar Supply about a board.", "customer_informed", None),
        ("I'll tell Nick to hold the light. Nick? Up a bit.", "customer_informed", None),
        ("Nick? Hold the light. Caps on. I'll tell Nick when.", "customer_informed", None),
        ("Caps on. I'll call it done.", "customer_informed", None),
    ],
)  # fmt: skip
def test_what_is_told_to_somebody_by_name(text: str, step: str, want: str | None) -> None:
    assert steps_of(text).get(step) == want
