"""Temperatures by their place, side, moment and pair, differences between them, and the points of both sides.

What is said and what it is: trade facts as common practice has them; the differences are plain arithmetic.
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

US = "Suction 68 psi. "

CASES = [
    ("It's ninety four up here on the roof.", [("temperature", 94, "ambient")]),
    ("It's a hundred and two in the attic.", [("temperature", 102, "ambient")]),
    ("House is sixty one.", [("temperature", 61, "ambient")]),
    ("It was eighteen in there.", [("temperature", 18, "box")]),
    ("Thirty seven on the shelf.", [("temperature", 37, "box")]),
    ("It was forty by the time I left.", [("temperature", 40, "box")]),
    ("It's holding thirty six now.", [("temperature", 36, "box")]),
    ("Box, twenty two above.", [("temperature", 22, "box")]),
    ("Box was 39 by 3:30.", [("temperature", 39, "box")]),
    ("Boxes at 4 after half an hour.", [("temperature", 4, "box")]),
    ("Display says 38.", [("temperature", 38, "box")]),
    ("The room's 76.", [("temperature", 76, "ambient")]),
    ("The room's down at four.", [("temperature", 4, "box")]),
    (
        "Forty on, thirty one off, nine degrees.",
        [("temperature", 40, "return"), ("temperature", 31, "supply"), ("temperature_difference", 9, None)],
    ),
    (
        "Condenser fan back on, ninety in, one oh eight off it.",
        [("temperature", 90, "ambient"), ("temperature", 108, "condenser air out")],
    ),
    (
        "Sixty on, forty eight off, twelve across the coil.",
        [("temperature", 60, "return"), ("temperature", 48, "supply"), ("temperature_difference", 12, None)],
    ),
    (
        "Return 78, supply 60, eighteen degrees.",
        [
            ("temperature", 78, "return"),
            ("temperature", 60, "supply"),
            ("temperature_difference", 18, None),
        ],
    ),
    ("Twelve degrees over ambient.", [("temperature_difference", 12, None)]),
    ("Seven degrees over the indoor coil at most.", [("temperature_difference", 7, None)]),
    (
        "Suction line 52, sat suction 27, that's 25.",
        [("temperature", 52, "suction"), ("temperature", 27, "saturated suction"), ("superheat", 25, None)],
    ),
    (
        "End of freeze 28 on the low side, 204 on the high.",
        [("pressure", 28, "suction"), ("pressure", 204, "discharge")],
    ),
    (
        "Low gauge six, high gauge one ninety-five.",
        [("pressure", 6, "suction"), ("pressure", 195, "discharge")],
    ),
    (
        "Suctions sixty-six on one and sixty-four on the other.",
        [("pressure", 66, "suction"), ("pressure", 64, "suction")],
    ),
    ("Put one fifty of nitrogen on her.", [("pressure", 150, None)]),
]


@pytest.mark.parametrize(("words", "wanted"), CASES)
def test_what_it_is_and_where(words: str, wanted: list[tuple[str, float, str | None]]) -> None:
    readings = find(list(segments_of([US + words], "c1"))).readings[1:]
    assert [(r.quantity, r.value, r.point) for r in readings] == wanted


@pytest.mark.parametrize(
    "words", ["Superheat 12.", "Subcooling ten.", "Return 75, supply 55, that's twenty.", "Ten of superheat."]
)
def test_a_difference_was_worked_out(words: str) -> None:
    assert find(list(segments_of([US + words], "c1"))).readings[-1].derived


@pytest.mark.parametrize(
    ("words", "quantity"),
    [
        ("Compressor on the roof, eleven point two.", "current"),
        ("Contactor had 480 in and 480 out.", "voltage"),
        ("Suction forty eight two minutes in.", "pressure"),
    ],
)
def test_what_stays_what_it_was(words: str, quantity: str) -> None:
    assert find(list(segments_of([US + words], "c1"))).readings[1].quantity == quantity


def test_dots_are_a_pause() -> None:
    found = find(
        list(
            segments_of(
                ["Watching the coil... thirty... forty eight... and it kicked out at fifty six."], "c1"
            )
        )
    )
    assert [r.value for r in found.readings] == [30, 48, 56]
