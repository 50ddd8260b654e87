"""The phrase lists of the rules: what they find, and as many near misses that they must not find."""

from __future__ import annotations

from pathlib import Path

import pytest

from dictate import checks
from dictate.checks.words import kind_of_part, phrases
from dictate.record.visit import Record, Visit
from dictate.vocabulary.load import table

FOUND = {
    "found_empty": [
        "System was flat when I got there.",
        "The circuit is completely empty.",
        "It was bone dry, no refrigerant left.",
        "There was nothing left to recover.",
        "It lost its whole charge over the weekend.",
        "Unit came up flat.",
        "Machine was out of gas.",
        "All the charge had leaked out.",
        "Zero psi standing pressure.",
        "No pressure in it at all.",
    ],
    "pumped_down": [
        "Pumped it down.",
        "I pumped the system down into the receiver.",
        "Did a pump down first.",
        "Pumping down the circuit.",
    ],
    "plugged": ["Unplugged it.", "Pulled the plug.", "Plugged it back in.", "Cord was pulled."],
    "joined_without_flame": [
        "Put in a flare drier.",
        "Used press fittings.",
        "Lokring joints on both ends.",
        "No brazing, it's a swivel nut.",
        "Compression fitting on the liquid line.",
    ],
    "regulator": ["Regulator set at one fifty.", "Nitrogen through the regulator."],
    "burnout": ["Compressor is burned out.", "It's a burnout.", "Oil was black.", "Acid in the oil."],
    "vented": [
        "Vented the charge.",
        "Let the refrigerant out.",
        "Bled off the freon.",
        "Dumped the whole charge off.",
    ],
    "triple": ["Triple evac.", "Did a triple evacuation.", "Evacuated it three times."],
    "broke_with_nitrogen": [
        "Broke the vacuum with nitrogen.",
        "Nitrogen sweep between.",
        "Broke it with dry nitrogen.",
    ],
    "process_tube": ["Pinched off the process tube.", "Crimped off and brazed."],
    "left_off": [
        "Left it off.",
        "Left the unit off and locked out.",
        "Leaving it locked out till Thursday.",
        "It stays off until then.",
        "Left the freezer unplugged.",
    ],
    "retrofit": ["Retrofitted it to 407C.", "Converted it over.", "It's a drop-in."],
    "vapor_charge": ["Charged as a vapor.", "Added it as vapour.", "Vapor charged it through the suction."],
    "not_opened": ["Never opened the system up.", "Didn't open the circuit.", "Sealed system not opened."],
    "customer_told": [
        "Told the manager.",
        "Let the chef know.",
        "Left a note for the owner.",
        "Quoted a new compressor.",
    ],
    "inspection": ["Quarterly inspection.", "PM visit.", "Did the preventive maintenance."],
    "setting": ["Set it to thirty six.", "Set point is minus ten.", "Cut in at ten, cut out at two."],
    "charge_kept": ["No refrigerant added.", "Opened the liquid valve.", "Didn't touch the charge."],
    "suction_drier": ["Put in a suction line drier.", "Suction drier too."],
    "unsafe_gas": ["Pressurized the system with oxygen.", "Leak tested it with shop air."],
    "disposable_cylinder": ["Recovered it into a disposable jug."],
    "torch_leak_search": ["Leak checked it with the torch.", "Used the halide torch."],
    "commissioned": ["Commissioned the new rooftop.", "Initial start-up today.", "Brand new unit."],
    "liquid_charge": ["Charged as liquid.", "Turned the jug upside down.", "Charged it in as a liquid."],
    "nitrogen_flow": [
        "Brazed it with nitrogen.",
        "Fixed the leak with a torch, nitrogen running.",
        "New drier with OFN trickling through.",
        "Purged nitrogen through while I brazed.",
        "Nitrogen was flowing the whole time, nitrogen running through while brazing.",
    ],
    "pump_left_running": [
        "Left the pump running overnight.",
        "Leaving the vacuum pump on.",
        "Evacuating it overnight.",
    ],
    "to_the_plate": [
        "Weighed in the nameplate charge.",
        "Charged it to the plate.",
        "Recharged per the data plate.",
    ],
    "leak_search": [
        "Soap on the joints.",
        "Went over the repair with soap bubbles.",
        "Sniffed every joint.",
        "Bubbles on the flares, tight.",
        "Leak detector again on all of it, nothing.",
    ],
    "not_detected": [
        "Found nothing.",
        "No leaks found.",
        "Couldn't find a leak.",
        "Checked it all over, nothing.",
    ],
    "leak_found": [
        "Found the leak at the flare.",
        "Leak was at the king valve.",
        "Schrader was leaking.",
        "Oil on the u bend.",
    ],
    "removed_charge": [
        "Let the isobutane vent.",
        "Vented the propane outside.",
        "Hose out the back door to the outside.",
    ],
    "all_parts": ["Checked all the joints.", "Went over the whole system.", "Every fitting."],
    "leak_method": ["Soap on the joints.", "Used the electronic detector.", "No bubbles."],
}

NOT_FOUND = {
    "found_empty": [
        "The bin is empty.",
        "The drain pan was empty.",
        "My recovery tank was empty.",
        "The system was not flat.",
        "Bin's empty, no ice.",
        "It was running flat out.",
        "The walk-in is empty of product.",
        "The cooler was empty, they moved the food.",
    ],
    "pumped_down": ["It won't pump down.", "It would not pump down.", "The water pump is down."],
    "plugged": ["The condenser is plugged.", "Drain was plugged solid.", "The strainer was plugged up."],
    "regulator": ["Replaced the crankcase pressure regulator.", "No regulator."],
    "burnout": ["No acid.", "The light bulb is burned out.", "Fan motor burned out.", "Heater burned out."],
    "vented": [
        "Vented the nitrogen.",
        "I did not vent the charge.",
        "Let it run.",
        "Blew out the drain with gas.",
        "The hot gas bled off.",
        "Released the pressure of the nitrogen charge.",
    ],
    "left_off": [
        "Left at noon.",
        "Took up where he left off.",
        "Left it running.",
        "The left fan is off.",
        "Left hand side is down two psi.",
        "Left the door open.",
        "Put my lock on it.",
    ],
    "retrofit": ["Not a retrofit."],
    "triple": ["Triple pole breaker."],
    "inspection": ["The health inspector was here.", "At three pm."],
    "unsafe_gas": ["Blew the condenser coil with compressed air.", "Cleaned the drain with shop air."],
    "vapor_charge": ["Vapor line is sixty.", "Suction vapor superheat is nine."],
    "process_tube": ["The door pinches."],
    "customer_told": ["Told me it was warm.", "Customer says it is warm."],
    "commissioned": ["Quoted a brand new unit.", "Replaced the compressor with a new one."],
    "nitrogen_flow": [
        "Brazed it in, then nitrogen to two hundred.",
        "Pressure tested with nitrogen.",
        "Brazed it without nitrogen.",
        "No nitrogen flowing.",
        "Nitrogen running out.",
        "Broke the vacuum with nitrogen.",
    ],
    "pump_left_running": ["The water pump is running.", "Left the water pump running."],
    "to_the_plate": ["Charged fourteen ounces, plate says twelve.", "Never charged it to the plate."],
    "leak_search": ["Sight glass is bubbling.", "Bubbles in the sight glass.", "Washed the coil with soap."],
    "liquid_charge": ["New liquid line drier.", "Liquid line is ninety.", "Charged it, liquid line is warm."],
    "leak_found": [
        "No leak at the flare.",
        "Could not find a leak, nothing leaking on it.",
        "Bubbles in the sight glass.",
    ],
    "torch_leak_search": ["Leak checked with soap.", "Torch brazed it."],
}


def heard(name: str, text: str) -> list[str]:
    record = Record(visit=Visit(id="v1"), transcript=[{"clip": "c1", "text": text}])  # type: ignore[list-item]
    return [p.heard for p in phrases(record, name)]


@pytest.mark.parametrize(("name", "text"), [(n, t) for n, ts in FOUND.items() for t in ts])
def test_found(name: str, text: str) -> None:
    assert heard(name, text)


@pytest.mark.parametrize(("name", "text"), [(n, t) for n, ts in NOT_FOUND.items() for t in ts])
def test_not_found(name: str, text: str) -> None:
    assert not heard(name, text)


def test_every_phrase_list_compiles_and_is_a_list() -> None:
    for name, entry in table("work")["phrases"].items():
        assert set(entry) == {"said", "unless"}, name
        assert heard(name, "") == []


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("compressor", "circuit"), ("compressor contactor", "electrical"), ("evaporator coil", "circuit"),
        ("condenser fan motor", "electrical"), ("filter drier", "drier"), ("suction line drier", "drier"),
        ("harvest valve", "circuit"), ("harvest valve coil", "electrical"), ("solenoid valve coil", "electrical"),
        ("water inlet valve", "electrical"), ("expansion valve", "circuit"), ("door gasket", "neutral"),
        ("schrader core", "neutral"), ("temperature sensor", "low_voltage"), ("fan blade", "moving"),
        ("drain heater", "electrical"), ("low pressure switch", "electrical"), ("capillary tube", "circuit"),
        ("water filter", "neutral"), ("shaft seal", "circuit"), ("gadget", "other"),
    ],
)  # fmt: skip
def test_kind_of_part(name: str, kind: str) -> None:
    assert kind_of_part(name) == kind


def test_every_phrase_list_is_used_by_some_rule() -> None:
    folder = Path(checks.__file__).parent
    code = "".join(path.read_text(encoding="utf-8") for path in folder.rglob("*.py"))
    assert not [name for name in table("work")["phrases"] if f'"{name}"' not in code]
