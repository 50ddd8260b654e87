"""What a bare number is a value of, where the nearest word alone would mislead: all evidence is weighed."""

from __future__ import annotations

import pytest

from dictate.mentions.weighing import _talk, _weights
from dictate.pipeline import read_text

CASES = [
    (
        "US job, box 38 degrees. Probe is a 10 K at 77. What I got was eight point six, then eight point seven.",
        [(8600, "ohm"), (8700, "ohm")],
    ),
    (
        "Metric job, all in celsius, room 4 degrees. Probe should be 10 K at 25 degrees. Old probe gave me 8.6, "
        "new one 9.98.",
        [(8600, "ohm"), (9980, "ohm")],
    ),
    (
        "Contactor coil 24 volts, pulled in. Pool air coming in 28 degrees and going out over the reheat at 38.",
        [(28, "degF"), (38, "degF")],
    ),
    ("Blast chiller. 70 degrees to 3 in 82 minutes, the limit is 90.", [(82, "min"), (90, "min")]),
    ("Receiver level was 40 percent, now 55.", [(40, "%"), (55, "%")]),
    ("Supply voltage 231 volts. Incoming water was 69 and room 77 degrees.", [(69, "degF"), (77, "degF")]),
    ("Defrost heater 12.1 amps. Coil 29 at the end and it wants another defrost.", [(29, "degF")]),
    (
        "Compressor common to run 1.2 ohms, common to start 3.4 ohms. Buttoned it up, breaker on. Amps on the "
        "legs are eleven point three, eleven five, eleven four.",
        [(11.3, "A"), (11.5, "A"), (11.4, "A")],
    ),
    ("Suction 68 psi, head 240. Oil: fifty-eight on the pump, twenty-seven net.", [(58, "psi"), (27, "psi")]),
]


@pytest.mark.parametrize(("text", "wanted"), CASES)
def test_all_evidence_together_tells_the_quantity(text: str, wanted: list[tuple[float, str]]) -> None:
    found = [(r.value, r.unit) for r in read_text(text).readings]
    assert found[-len(wanted) :] == wanted


def test_the_words_of_talk_and_the_weights_fit_together() -> None:
    quantities = {q for several in _talk().values() for q in several}
    weighed = {name.removeprefix("is ") for name in _weights() if name.startswith("is ")}
    assert {"voltage", "current", "pressure", "temperature"} <= quantities & weighed
    assert _weights()["opinion"] > 0 and _weights()["rule"] > 0


def test_thousands_of_ohms_are_taken_over() -> None:
    text = (
        "Now the cabinet sensor. I unplugged the freezer at the wall and pulled the sensor off the board. In an ice "
        "slurry at zero it ought to be ten K. What I got was eight point six, then eight point seven after I let it "
        "sit, call it eight point seven. New one in the same slurry, nine point nine eight. That went in. "
        "The room first thing was twenty-three degrees."
    )
    found = [r for r in read_text(text).readings if r.quantity == "resistance" and r.role == "measured"]
    assert found[0].value == 8600.0
