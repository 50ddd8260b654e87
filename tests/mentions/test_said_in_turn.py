"""One word said in turn for each of several is as many values.

Ways of speaking: common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Breaker off. I'm on the contactor with the meter, goose egg, goose egg, goose egg.", ["zero"] * 3),
        ("Meter on the load side, zip, zip and zip.", ["zero"] * 3),
        ("Ohms on the elements. To the frame, one by one, OL, OL, OL, OL.", ["open"] * 4),
        ("Elements to the shell, one at a time, open, open, open.", ["open"] * 3),
        # said of a search, or twice for emphasis
        ("Looked for the leak along the suction line, nothing, nothing, nothing.", []),
        ("Doors open, open, open, all night long.", []),
    ],
)
def test_a_word_said_in_turn(text: str, told: list[str]) -> None:
    found = readings(text)
    assert ["open" if r.state == "open" else "zero" for r in found] == told
    assert all(r.state == "open" or r.value == 0 for r in found)


def test_tenths_said_in_turn() -> None:
    found = readings("Contactor. 231 volts on it. Drop across the poles a tenth, a tenth, a tenth.")
    assert [r.value for r in found] == [231, 0.1, 0.1, 0.1]
    assert [r.value for r in readings("Sold a tenth, then a fifth. Suction sixty.")] == [60]
