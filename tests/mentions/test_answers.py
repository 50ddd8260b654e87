"""Values told as answers, and in front of their names: "Return? Fifty-one.", "Fifty-eight, return air."."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


@pytest.mark.parametrize(
    ("text", "values"),
    [
        (
            "Yogurt? Forty-six. Milk? Forty-four. Discharge air? Thirty-nine. Return? Fifty-one.",
            "46 degF;44 degF;39 degF;51 degF",
        ),
        ("Suction? Thirty-eight. Head? Two ten. Superheat? Nine.", "38 psi;210 psi;9 delta_degF"),
        ("Box? Forty-one. Ambient? Eighty-eight. Compressor amps? Seven point two.", "41 degF;88 degF;7.2 A"),
        (
            "Common to start? Four point four. Common to run? One point one. Run to start? Five point five. To ground? Nothing.",
            "4.4 ohm;1.1 ohm;5.5 ohm;open",
        ),
        ("Thirty-one minutes, that's the freeze. Two minutes ten, that's the harvest.", "31 min;2.1667 min"),
        (
            "Ten point four amps, compressor. Zero point eight, water pump. Ninety-four degrees is what the condenser breathes.",
            "10.4 A;0.8 A;94 degF",
        ),
        (
            "Fifty-eight, return air. Forty-one, supply. Seventeen across the coil.",
            "58 degF;41 degF;17 delta_degF",
        ),
        (
            "Sixty-eight over two forty-five, those are my pressures. Superheat eleven.",
            "68 psi;245 psi;11 delta_degF",
        ),
        (
            "What's the water coming in at? Sixty-two. Pressure on it? Forty psi. Freeze? Eighteen minutes. Harvest? Ninety seconds.",
            "62 degF;40 psi;18 min;90 s",
        ),
        ("And the box this afternoon? Thirty-six. Product? Thirty-seven.", "36 degF;37 degF"),
        ("Winding on number three? Open. Winding on number five? Twenty-two ohms.", "open;22 ohm"),
        ("Freeze time? Fourteen minutes forty. Harvest? One minute fifty-five.", "14.6667 min;1.9167 min"),
    ],
)
def test_values_beside_their_name(text: str, values: str) -> None:
    mentions = find(list(segments_of([text], "c1")))
    heard = ["open" if r.state == "open" else f"{r.value:g} {r.unit}" for r in mentions.readings]
    assert sorted(heard) == sorted(values.split(";"))
