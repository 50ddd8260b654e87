"""Which component and point a value is of, where its own words leave it open. Trade usage: common practice."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

CASES = [
    ("Dry cooler on the roof, six fans. Fan four pulls 3.1 amps.", [("condenser fan motor", None)]),
    ("Walk-in cooler. Fan one 0.8 amps, fan two 0.9.", [("evaporator fan motor", None)] * 2),
    ("Computer room unit. Humidifier pulls 9.2 amps.", [("humidifier", None)]),
    (
        "Blew a fan on the compressor. C to R 0.9 ohms, C to S 3.1, R to S 4.0.",
        [("compressor", "common-run"), ("compressor", "common-start"), ("compressor", "run-start")],
    ),
    (
        "Process chiller. Supply water is 54 degrees, return water is 62.",
        [(None, "supply"), (None, "return")],
    ),
    ("Brine chiller. Brine going out 16, coming back 18.5.", [(None, "supply"), (None, "return")]),
    ("Chiller. Glycol in 34, out 28.", [(None, "return"), (None, "supply")]),
    ("Liquid line drier is plugged: 92 in, 71 out.", [("filter drier", "inlet"), ("filter drier", "outlet")]),
    ("Suction line at the outlet of the coil, 61 degrees.", [(None, "suction")]),
    ("Flower truck. Driver says it stays at 14 degrees C.", [(None, "box")]),
    ("The piercing valve gives nine psi low and one forty high.", [(None, "suction"), (None, "discharge")]),
    (
        "Incoming power 471 volts from A to B, 468 volts from B to C and 472 volts from A to C.",
        [(None, "L1-L2"), (None, "L2-L3"), (None, "L1-L3")],
    ),
    (
        "Line side of the contactor 241 volts, load side the same.",
        [("contactor", "line"), ("contactor", "load")],
    ),
    ("Leg one 9.1 amps, leg two 9.3, leg three ditto.", [(None, "L1"), (None, "L2"), (None, "L3")]),
    ("New run capacitor, 45 microfarads, the same marking.", [("run capacitor", None)]),
]


@pytest.mark.parametrize(("text", "wanted"), CASES)
def test_place_of_a_value(text: str, wanted: list[tuple[str | None, str | None]]) -> None:
    readings = find(segments_of([text], "c1")).readings
    assert len(readings) == len(wanted)
    for reading, (component, point) in zip(readings, wanted, strict=True):
        assert component is None or reading.component == component
        assert reading.point == point
