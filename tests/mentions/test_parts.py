"""Parts: only what was done is listed, with action, number, count and rating as said."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.parts import find_parts


def said(text: str) -> list[tuple[str, str]]:
    return [(p.name, p.action) for p in find_parts(Narration.from_text(text))]


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("Replaced the contactor.", [("contactor", "replaced")]),
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
    ],
)
def test_part_number(text: str, number: str) -> None:
    assert number in [p.part_number for p in find_parts(Narration.from_text(text))]


def test_count_and_rating() -> None:
    (fuse,) = find_parts(Narration.from_text("Replaced three fuses."))
    assert fuse.quantity == 3
    (contactor,) = find_parts(Narration.from_text("Put in a new two pole 30 amp contactor."))
    assert (contactor.quantity, contactor.rating) == (1, "two pole 30 amp")
