"""What a later sentence names again in order to put it right, and what only sounds like it.

Sources: none; the sentences are written for this project (common practice of dictating a service call).
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text


def _of(words: str, quantity: str) -> tuple[list[float | None], list[float | None]]:
    found = [r for r in read_text(words).readings if r.quantity == quantity]
    taken_back = sorted({r.value for r in found if r.role == "retracted"}, key=str)
    return taken_back, [r.value for r in found if r.role != "retracted"]


@pytest.mark.parametrize(
    ("words", "quantity", "wrong", "right"),
    [
        ("Suction 68, head 240. Going back a minute, the suction was actually 58.", "pressure", 68, 58),
        ("Line side 208, load side 206. The 208 I called out was really 218.", "voltage", 208, 218),
        (
            "Suction 4 bar, head 13 bar. And the 13 bar head from before was 11 bar, my gauge sticks.",
            "pressure",
            13,
            11,
        ),
        (
            "230 volts at the terminal block. Fan 2 amps. Also that 230 I read at the start, the display was "
            "lagging, it's 238.",
            "voltage",
            230,
            238,
        ),
        (
            "Water 22 degrees Celsius, outside only nineteen. By the way the nineteen outside was the sunny "
            "side. In the shade I get seventeen.",
            "temperature",
            19,
            17,
        ),
        (
            "Suction two inches of vacuum, head one forty. Two inches I said, strike that, it was four inches.",
            "pressure",
            2,
            4,
        ),
        (
            "Beater motor 6.9 amps, 7.1 amps and 7.0 amps. And fix this, the beater at 7.0, third leg, was 7.4.",
            "current",
            7,
            7.4,
        ),
        ("Head 240, suction 62. Subcooling 8. Amend the head to 250.", "pressure", 240, 250),
        ("Condenser fan 1.9 amps. Box 38. I told you 1.9 on the fan, make it 2.1.", "current", 1.9, 2.1),
        ("Voltage 118 at the plug. Amps 6.2. Where I said 118, write 113.", "voltage", 118, 113),
        ("Ambient 95. Liquid line 102. It was 91 outside, not 95 like I said.", "temperature", 95, 91),
        (
            "The feed water is seventy two. Little correction for the file: the feed water, call that seventy.",
            "temperature",
            72,
            70,
        ),
        ("Coil reads 17 ohms. Load side 0 volts. Seventeen, I said? It's seventy one.", "resistance", 17, 71),
        ("Supply air 52, return 71. The supply was 55; 52 was the other unit.", "temperature", 52, 55),
        ("Heater 4.1 amps at 231 volts. Amps again: that's 3.9, clamp wasn't closed.", "current", 4.1, 3.9),
        ("Head 262, suction 60. Ambient 90. I fat fingered the head, 226.", "pressure", 262, 226),
        ("Motor 5.6, 5.8 and 5.5 amps. Sorry, the last one is 5.7, I misread it.", "current", 5.5, 5.7),
        ("Low side 68, high side 250. I called the low side 68, it's 58.", "pressure", 68, 58),
        ("Head 395 when it tripped. Reset. Box 38. Cross out 395, it was 405.", "pressure", 395, 405),
    ],
)
def test_a_later_sentence_puts_a_value_right(words: str, quantity: str, wrong: float, right: float) -> None:
    taken_back, kept = _of(words, quantity)
    assert taken_back == [wrong]
    assert right in kept
    assert wrong not in kept


@pytest.mark.parametrize(
    ("words", "quantity", "kept"),
    [
        ("Suction 58, head 230. Cleaned the coil. The 230 head is 205 now.", "pressure", [58, 230, 205]),
        (
            "A hundred nineteen volts at the cord. Oh, the plug voltage, I said a hundred nineteen, that was "
            "before. While it's trying to start it sags to one eleven.",
            "voltage",
            [119, 119, 111],
        ),
        ("Box was 44 when I got here. Suction 30. Box is actually down to 36 now.", "temperature", [44, 36]),
        (
            "Evacuated to 480 microns. Box 38. That 480 came up to 510 after ten minutes.",
            "vacuum",
            [480, 480, 510],
        ),
    ],
)
def test_a_change_takes_nothing_back(words: str, quantity: str, kept: list[float]) -> None:
    assert _of(words, quantity) == ([], kept)
