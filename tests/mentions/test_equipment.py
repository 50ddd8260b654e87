"""Machines: type, model, serial and refrigerant as spelled; places and parts are no machines."""

from __future__ import annotations

import string
import tomllib
from pathlib import Path

import pytest

from dictate.mentions.equipment import find_equipment
from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import read_designation
from dictate.writeup.machines import Machines

CASES = tomllib.loads((Path(__file__).parent / "cases" / "equipment.toml").read_text(encoding="utf-8"))[
    "cases"
]


@pytest.mark.parametrize(("text", "want"), CASES)
def test_sentence(text: str, want: str) -> None:
    machines = Machines(find_equipment(Narration.from_text(text))).machines
    got = " | ".join(f"{e.type} {e.model or '-'} {e.serial or '-'} {e.refrigerant or '-'}" for e in machines)
    assert got == want


def test_the_spelling_alphabet_gives_all_letters() -> None:
    # ICAO Annex 10, volume II, 5.2.1.3: the radiotelephony spelling alphabet.
    words = (
        "alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo "
        "sierra tango uniform victor whiskey x-ray yankee zulu"
    )
    read = read_designation(Narration.from_text(words + " one"), 0)
    assert read is not None
    assert read.text == string.ascii_uppercase + "1"


@pytest.mark.parametrize(
    ("said", "want"),
    [
        ("alpha four seven", "A47"),
        ("K X four fifty", "KX450"),
        ("eighty eight dash one oh four", "88-104"),
        ("double seven nine", "779"),
        ("WCU-30", "WCU-30"),
        ("twenty two hundred", "2200"),
        ("S as in Sam 4 4 8", "S448"),
        ("X as in x-ray nine nine two one", "X9921"),
        ("one one two slash B", "112/B"),
    ],
)
def test_designation(said: str, want: str) -> None:
    read = read_designation(Narration.from_text(said), 0)
    assert read is not None
    assert read.text == want


def test_a_part_s_number_is_not_the_machine_s() -> None:
    text = "Ice machine, serial 1234. New compressor, its model is CR 22, serial 99 88."
    (machine,) = Machines(find_equipment(Narration.from_text(text))).machines
    assert (machine.model, machine.serial) == (None, "1234")


@pytest.mark.parametrize(
    ("text", "model"),
    [
        ("Condensing unit is a QX seven hundred, serial three three oh four.", "QX700"),
        ("Beer cave first, condensing unit BC eighteen. It's cutting out at thirty.", "BC18"),
        ("Slush machine SL dash two, and nothing else.", "SL-2"),
        ("Ice merchandiser, an IM dash nine.", "IM-9"),
        ("Walk-in freezer at the seafood place. Evaporator's an EV six oh six, electric defrost.", "EV606"),
        ("Process chiller, model A C H thirty, serial four four one.", "ACH30"),
        ("Ice machine, the plate says NV five two oh, serial K three oh eight.", "NV520"),
        ("Reach-in freezer, TB five hundred on the tag, serial one eight four.", "TB500"),
        ("Ice machine. L C nine hundred is the model, and the serial goes nine, nine, oh, four.", "LC900"),
        ("Walk-in cooler, R404A, serial one eight four two.", None),
        ("Walk-in cooler, box at 38, serial one eight four two.", None),
    ],
)
def test_a_model_right_before_the_serial(text: str, model: str | None) -> None:
    found = find_equipment(Narration.from_text(text))
    assert [e.model for e in found][:1] == [model]


def test_a_machine_that_was_not_named_is_asked_about() -> None:
    said = find_equipment(
        Narration.from_text("Freeze was 31 minutes and the harvest four minutes ten. Head 268.")
    )
    assert [e.type for e in said] == ["ice machine"]
    assert said[0].review


@pytest.mark.parametrize(
    ("text", "types"),
    [
        # what a condensing unit or a rack cools, told by its warmth only
        (
            "Condensing unit behind the creamery. Off on high pressure. Coil was plugged. Milk tank at 39 degrees.",
            ["condensing unit"],
        ),
        (
            "Rack A, low temp. Number two was off on oil. Suction twenty. Ice cream case was minus six.",
            ["rack"],
        ),
        (
            "Condensing unit behind the creamery. Off on high pressure. Coil was plugged. Now the milk tank. "
            "Agitator motor was seized.",
            ["condensing unit", "milk tank"],
        ),
        (
            "Rack A, low temp. Number two was off on oil. Suction twenty. Next is the ice cream case. "
            "Its fan was dead.",
            ["rack", "display case"],
        ),
        # what the machine is, said once more while it is introduced
        (
            "It's the heat pump at the club. Only blows warm. Ducted reverse cycle, twelve kilowatt.",
            ["heat pump"],
        ),
        # one tank, and its plate cooler
        ("Milk vat up the valley. Slow to pull down. Plate cooler, water eleven in.", ["milk vat"]),
    ],
)
def test_what_is_only_cooled_or_described_is_no_second_machine(text: str, types: list[str]) -> None:
    found = find_equipment(Narration.from_text(text))
    assert list(dict.fromkeys(e.type for e in found)) == types
