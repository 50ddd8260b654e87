"""A number without a unit that is set against a value has its quantity and unit; where a value was found or left."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

COMPARED = [
    ("Pump flow is fourteen gallons a minute, spec is sixteen.", 16, "gal/min", "target"),
    ("Compressor draws 9.4 amps, should be 7.", 7, "A", "target"),
    ("Freeze time was nineteen minutes, ought to be done in about 14.", 14, "min", "target"),
    ("Heater reads 19 ohms, should be about 16.", 16, "ohm", "target"),
    ("Fan motor pulls 2.9 amps, nameplate says 2.1.", 2.1, "A", "rated"),
    ("Compressor should draw 7.8, it draws 11.", 7.8, "A", "target"),
    ("Box 44 in thirty minutes, should be thirty six by tonight.", 36, "degF", "expected"),
    ("Overload dialed to 8.5.", 8.5, "A", "target"),
    ("High pressure switch opens at 610 per print.", 610, "psi", "target"),
    ("High pressure switch is stamped 425.", 425, "psi", "rated"),
    ("Defrost board was set at sixty minutes. Box 38.", 60, "min", "target"),
    ("Failsafe's set for thirty, I left it.", 30, "min", "target"),
]

STAGES = [
    ("New coil reads 312 ohms. Swapped the coil. Suction 38.", {312: "as_left", 38: "as_left"}),
    ("Box was 44 before, 38 after an hour.", {44: "as_found", 38: "as_left"}),
    ("Reach-in. Compressor 9.8 amps. New fan motor, 118 volts, 0.6 amps.", {118: "as_left", 0.6: "as_left"}),
    ("Box 51. Pulled the disconnect. Wire was loose. Disconnect back on. Box 45.", {51: "as_found", 45: "as_left"}),
    ("Their box was minus one when I got here, it read minus six leaving.", {-1: "as_found", -6: "as_left"}),
    ("Cleaned the condenser. Coil's ninety eight coming off. Ninety one now.", {98: "as_found", 91: "as_left"}),
]  # fmt: skip


@pytest.mark.parametrize(("text", "value", "unit", "role"), COMPARED)
def test_compared(text: str, value: float, unit: str, role: str) -> None:
    found = [(r.value, r.unit, r.role) for r in read_text(text).readings]
    assert (value, unit, role) in found, found


@pytest.mark.parametrize(("text", "stages"), STAGES)
def test_stages(text: str, stages: dict[float, str]) -> None:
    found = {r.value: r.stage for r in read_text(text).readings}
    assert {value: found.get(value) for value in stages} == stages, found
