"""New parts set apart from what stayed, trips that take nothing out, and pressures across a strainer."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

PARTS = [
    ("So the top bearing is new, the bottom one I left.", [("auger bearing", "replaced")]),
    ("The closer had lost its oil, so that's off and there's a new one on.", [("door closer", "replaced")]),
    ("Thermostat was the trouble. I jumped it and the compressor came right on. Put a new one in.",
     [("thermostat", "replaced")]),
    ("Fan number two has a new motor. Number one and three I left.", [("fan motor", "replaced")]),
    ("Compressor is new, they changed it last year.", []),
    ("Unit trips, cut out on the low pressure switch at 12.", []),
    ("Set point thirty-four on the control.", []),
    ("So I changed my opinion.", []),
]  # fmt: skip


@pytest.mark.parametrize(("text", "parts"), PARTS)
def test_parts(text: str, parts: list[tuple[str, str]]) -> None:
    assert [(p.name, p.action) for p in find(list(segments_of([text], "c1"))).parts] == parts


PRESSURES = [
    ("Gauges across the strainer 31 in and 12 out so 19 pounds gone in the strainer.", [31, 12, 19]),
    ("Pressure across the strainer was 40 in, 22 out. After cleaning 38 in, 36 out.", [40, 22, 38, 36]),
    ("Water gauges on the barrel, 46 in and 39 out, so seven pounds across it.", [46, 39, 7]),
    ("Air filter's dirty, 75 in and 58 out.", []),
]


@pytest.mark.parametrize(("text", "psi"), PRESSURES)
def test_across_a_strainer(text: str, psi: list[float]) -> None:
    mentions = find(list(segments_of([text], "c1")))
    assert [r.value for r in mentions.readings if r.unit == "psi"] == psi
    assert not mentions.movements
