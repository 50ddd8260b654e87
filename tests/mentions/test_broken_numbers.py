"""Numbers that a recogniser wrote in pieces are asked about; whole ones beside the same words are not."""

from __future__ import annotations

import pytest

from dictate.mentions.doubts.broken_numbers import why_broken
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers


def _broken(text: str) -> list[tuple[float, float | None]]:
    narration = Narration.from_text(text)
    found = [(n.value, why_broken(narration, n)) for n in find_numbers(narration)]
    return [(value, why[1]) for value, why in found if why is not None]


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("Held at 25 O PSI for the hour.", [(25, 250)]),
        ("Suction 41 oh PSI.", [(41, 410)]),
        ("Head is 14 point a, suction fine.", [(14, None)]),
        ("It draws eleven point for now.", [(11, None)]),
        ("Away it went. 12. 6 amps, plate says 15.", [(6, 12.6)]),
        ("Weighed in 12 50 grams.", [(12, 1250), (50, 1250)]),
        ("Pulled to 3 to 5 microns.", [(3, 325), (5, 325)]),
        ("put that one seventy on the high side of it", [(70, 170)]),
        ("the fan draws two point one one five on the tag", [(2.115, None)]),
        ("Its new capacitor shows 3.0 six. Power on.", [(3, 3.06)]),
        ("Oil heater 063 amps, low side 09 bar.", [(63, 0.63), (9, 0.9)]),
        ("The probe shows 3 2.6 K.", [(3, 32.6), (2.6, 32.6)]),
        ("Superheat 1 2 degrees.", [(1, 12), (2, 12)]),
        ("Liquid line ninety for degrees.", [(90, 94)]),
        ("It is drawing seven ate amps.", [(7, 7.8)]),
    ],
)
def test_a_number_in_pieces(text: str, pieces: list[tuple[float, float | None]]) -> None:
    assert _broken(text) == pieces


@pytest.mark.parametrize(
    "text",
    [
        "A 15 point check of the unit.",
        "The box came from forty to thirty degrees.",
        "Looking for degrees of superheat.",
        "Capacitor shows 3.0, five minutes later as well.",
        "Suction 2.5 two fans running. Fan 1.2 five amps.",
        "The box is at 17. Three amps on the fan.",
        "Suction 55 PSI. 12 amps on the compressor.",
        "Element 4 shows O L on the meter.",
        "The box went from 4 to 0 degrees.",
        "Return 25, out 11 degrees.",
        "Six to eight amps. 10 amps, 50 grams.",
        "At 9 o'clock 400 microns.",
        "That one reads seventy, that one is seventy.",
        "Shim it to nought point one two five inches.",
        "Head fifteen and a half, one and an eighth line.",
        "Compressor 2 7.9 amps, compressor 1 8.2 amps.",
        "Fan 1 2.1 amps, leg 2 3 amps.",
        "Density one point one one four kilos.",
        "Low side 09.5 bar, 0.9 before, at 09:30 it was 0,9.",
    ],
)
def test_whole_numbers(text: str) -> None:
    assert _broken(text) == []
