"""Values that later words speak against carry a reason, and plain ones beside them carry none."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

DOUBTED = [
    ("Return 74 degrees, supply 57. Both figures are a degree low.", {74, 57}),
    ("Liquid line 98 degrees, head 320 psi. That ninety-eight looks odd to me.", {98}),
    ("Suction 55 psi, head 210 psi. The fifty-five I'm not happy with.", {55}),
    ("Fan one 1.4 amps, fan two 1.5 amps, fan three 0.9 amps. The third figure bothers me.", {1.4, 1.5, 0.9}),
    ("Freeze took 16 minutes. The sixteen is from the sheet on the door.", {16}),
    ("L1 13.1 amps, L2 13.4 amps. I called that B wrong.", {13.1, 13.4}),
]
PLAIN = [
    ("Box 37 degrees, suction 58 psi and head 240 psi. Last year's suction was 55.", {58, 240, 37}),
    ("Suction 58 psi. Nothing was wrong with the fan. Head 240 psi.", {58, 240}),
]
KINDS = [
    ("Supply air 53, return 61, eight across.", (8, "delta_degF", "measured")),
    ("Checked the room with the detector first, 0.", (0, "ppm", "measured")),
    ("I'm ordering a motor, 9 watts, CW, 115 volts.", (115, "V", "rated")),
    ("The sticker on the motor reads 115 volts, 0.55 amps.", (0.55, "A", "rated")),
    ("New capacitor, thirty-five at four hundred and fifty volt.", (450, "V", "rated")),
    ("Vacuum 0.2 millibar. I'd have accepted point five.", (0.5, "mbar", "target")),
]


@pytest.mark.parametrize(("text", "values"), DOUBTED)
def test_doubted(text: str, values: set[float]) -> None:
    sure = {r.value for r in read_text(text).readings if r.role == "measured" and not r.review}
    assert not values & sure


@pytest.mark.parametrize(("text", "values"), PLAIN)
def test_plain(text: str, values: set[float]) -> None:
    sure = {r.value for r in read_text(text).readings if r.role == "measured" and not r.review}
    assert values <= sure


@pytest.mark.parametrize(("text", "wanted"), KINDS)
def test_kinds(text: str, wanted: tuple[float, str, str]) -> None:
    assert wanted in {(r.value, r.unit, r.role) for r in read_text(text).readings}
