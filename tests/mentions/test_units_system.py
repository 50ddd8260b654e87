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
