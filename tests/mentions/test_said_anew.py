"""A value said anew at once, or its unit alone, without a word that takes the first one back."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.mentions import Mentions

ASKED = [
    ("Primary winding of the transformer fifteen ohms... sixteen. Secondary open.", 15),
    ("Glycol in at minus four, minus three point five even. Ambient twelve degrees.", -4),
    ("Transformer primary two thirty one. Thirty eight, two thirty eight, I was in the sun.", 231),
    ("Voltage 241 volts... how is it said, 214. Compressor 6 amps.", 241),
    # among gauges that are read while they move: the digits are turned round, and ohms do not move
    (
        "Head 210 psi, 220. Box 40 degrees... 38. Amps 7.4... 7.2. Suction 46 psi... 64. Head 230 psi, 240.",
        46,
    ),
    ("Head 210 psi, 220. Box 40 degrees... 38. Amps 7.4... 7.2. Suction 46 psi, 47. Coil 15 ohms... 16.", 15),
    ("There are two fans. The first draws 0.52 amps, the second 5.0, 0.50, I left out the point.", 5.0),
    ("Fan motor winding thirty-eight ohms... the meter ranges by itself, that's thirty-eight K.", 38),
]
NOT_ASKED = [
    "Supply legs 208, 207, 209 volts. Compressor 8.2, 8.4, 8.1 amps.",
    "Condenser fans 1.2 amps, 1.3.",
    "Suction went from 60 psi to 62. Head 240 psi.",
    "Suction 60 psi, then 62 later. Head 240 psi.",
    "Common to run 3 ohms. To ground 3 megohms.",
    "Head climbs, 280, 310 psi, and it lets go at 400.",
    "Pulling down, 700 microns, 600, 500 microns.",
    "Suction 40 psi, 38. Head 210 psi, 220. Box 40 degrees... 38. Compressor 7.4 amps... 7.2. Discharge 190 degrees.",
]


def _find(text: str) -> Mentions:
    return find(list(segments_of([text], "c1")))


@pytest.mark.parametrize(("text", "first"), ASKED)
def test_the_first_one_has_a_reason(text: str, first: float) -> None:
    """Two values of one thing with nothing between them cannot both hold."""
    asked = [r for r in _find(text).readings if any("behind it" in why for why in r.review)]
    assert [r.value for r in asked] == [first]


@pytest.mark.parametrize("text", NOT_ASKED)
def test_rows_and_changes_have_none(text: str) -> None:
    """What stands in a row, or changed meanwhile, holds."""
    assert not [r for r in _find(text).readings if any("behind it" in why for why in r.review)]


def test_a_unit_alone_puts_the_unit_right() -> None:
    """The unit said last is taken, with a reason; units listed are none of these."""
    old, new = _find("Suction nought point six psi, bar, I'm new to these. Head eleven bar.").readings[:2]
    assert (old.unit, old.role, new.unit, new.value) == ("psi", "retracted", "bar", 0.6)
    assert new.review
    assert all(r.role == "measured" for r in _find("Gauge reads forty psi, kPa, bar, all on it.").readings)


@pytest.mark.parametrize(
    ("text", "value", "unit", "asked"),
    [
        ("Recovered 1.6 kilos, not pounds, kilos.", 1.6, "kg", False),
        ("Recovered 700 kilos, heavens, grams.", 700, "g", True),
        ("Added two pounds, ounces not counted.", 2, "lb", False),
    ],
)
def test_the_unit_of_an_amount(text: str, value: float, unit: str, asked: bool) -> None:
    """A unit that is denied is none of the amount; one said alone behind it puts it right."""
    (m,) = _find(text).movements
    assert (m.value, m.unit, bool(m.review)) == (value, unit, asked)
