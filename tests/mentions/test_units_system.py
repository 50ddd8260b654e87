"""US or metric: what speaks for which. Mains voltages after IEC 60038; temperatures are common practice."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.units_system import unit_system


@pytest.mark.parametrize(
    ("text", "system"),
    [
        ("Suction is twenty two psi, box thirty eight.", "us"),
        ("Suction four bar, box at three.", "metric"),
        # No unit of one system at all: mains and temperatures tell.
        ("One eighteen volts at the plug. Box is thirty seven.", "us"),
        ("Three ninety eight volts on all three, cabinet minus nineteen.", "metric"),
        ("Front four point two, bottle three point six, plug to earth good.", "metric"),
        ("Outside it's ninety one, return seventy six, supply fifty five.", "us"),
        # A letter behind a serial number is no scale, and one misheard unit turns nothing.
        ("Serial 7720 C. Air in 74, air out 53, 118 volts.", "us"),
        ("Suction 68 psi, head 2 bar hundred ten, 12 ounces, box 38.", "us"),
        ("Two of them, then.", "us"),
    ],
)
def test_system(text: str, system: str) -> None:
    assert unit_system(Narration.from_text(text)).name == system


def test_only_a_named_scale_is_no_assumption() -> None:
    assert not unit_system(Narration.from_text("It's four Celsius in there.")).assumed
    assert unit_system(Narration.from_text("Head is fourteen bar.")).assumed


@pytest.mark.parametrize(
    ("text", "degrees", "gauges", "below_zero"),
    [
        (
            "Suction 30 psi, head 210 psi. Box is at 3.4, set point is 3. Mains 238 volts.",
            "metric",
            "us",
            None,
        ),
        ("Return air 74, supply 55. Suction 118, head 340.", "us", "us", None),
        (
            "Discharge air? Thirty-four. Return? Forty-eight. Suction at the case? Thirty-one.",
            "us",
            "us",
            None,
        ),
        (
            "The display's in Celsius. It shows minus 62, room is 74, discharge line 190.",
            "us",
            "us",
            "metric",
        ),
        (
            "Chiller water in at 12, out at 7. Suction 68 psi, discharge 250 psi. Ambient is 34. Supply 412 volts.",
            "metric",
            "us",
            None,
        ),
        ("Air on 24, air off 13. Suction 820 kPa, head 2650 kPa.", "metric", "metric", None),
        ("Freezer at minus 21 C. Suction one bar, head fourteen bar.", "metric", "metric", None),
        (
            "Ultra-low. Readout says minus 70 Celsius, set for minus 80 Celsius. Outlet one eighteen. Room 76.",
            "us",
            "us",
            "metric",
        ),
        (
            "Fridge is at 9, should be 4. 231 volts at the socket, compressor 1.1 amps. Gassed it with 90 grams.",
            "metric",
            "metric",
            None,
        ),
        ("Walk-in 47. Head 235, suction 18. Added two pounds of 404A.", "us", "us", None),
        ("What's the box at? Fifty-two. Head? Three ten. Compressor amps? Seven.", "us", "us", None),
        (
            "Room 23, cabinet 7.5. Low side 12 psi, high side 160 psi. Charged 140 grams.",
            "metric",
            "us",
            None,
        ),
        ("Supply air 53, return air 72, superheat 12, subcooling 9.", "us", "us", None),
        ("Discharge pressure 14, suction 1.8, liquid line 38.", "metric", "metric", None),
        ("Low side sat at 2.1 bar. Room thirty. Box eleven.", "metric", "metric", None),
    ],
)
def test_degrees_and_gauges_apart(text: str, degrees: str, gauges: str, below_zero: str | None) -> None:
    """Psi stands beside Celsius in half the world, and an ultra-low cabinet shows Celsius everywhere."""
    system = unit_system(Narration.from_text(text))
    assert (system.name, system.pressure, system.below_zero) == (degrees, gauges, below_zero)
