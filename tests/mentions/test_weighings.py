"""Weights of a cylinder that the difference proves are no readings; what only looks like it stays one."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration
from dictate.mentions.weighings import weighings
from dictate.record.transcript import Segment, Word


def readings(text: str) -> list[tuple[float | None, str]]:
    words = [Word(text=w) for w in text.split()]
    return [(r.value, str(r.unit)) for r in find([Segment(clip="c", text=text, words=words)]).readings]


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("Bottle 16.4 kilos up to 18.9, so two and a half kilos.", [(2.5, "kg", True)]),
        ("New cylinder, 30.6 before, 12.1 after, that's 18.5 pounds.", [(18.5, "lb", False)]),
        ("Drum at 31.2 after, and it was 28.1 before, so 3.1 pounds.", [(3.1, "lb", True)]),
        # a scale read aloud while it went in, pounds and ounces of which neither was said
        (
            "Jug on the scale, forty pounds. Open. Thirty-six. Thirty-one. Thirty, shut. Ten, like the tag.",
            [(10, "lb", False)],
        ),
        (
            "Jug's twenty-nine four. In it goes. Twenty-six. Twenty-two eight, shut. Six twelve in. Tag: seven pounds.",
            [(6.75, "lb", False)],
        ),
        (
            "Tank was eighteen six. It's twenty-four ten now, so six pounds four came out.",
            [(6.25, "lb", True)],
        ),
        # of a gauge, not of the bottle
        ("Bottle's closed. Suction sixty, fifty-five, fifty. Ten minutes. Two pounds on the tag.", []),
        # parts and a total are no weights
        ("Eight pounds out of one jug and five out of the other, thirteen total.", []),
        # no vessel, no difference, another machine's name
        ("Suction 24.5, head 38.2, so 13.7 between them.", []),
        ("Bottle was 16.4 kilos and then 18.9.", []),
        ("Bottle cooler, 9.5 in the top and 5.5 in the bottom, so 4.0 apart.", []),
        # nothing that has a tare is 1.9 beside 952
        ("By scale, 952 to be exact. Suction 1.9, so 950 grams.", []),
    ],
)
def test_weighings(text: str, want: list[tuple[float, str, bool]]) -> None:
    found = weighings(Narration.from_text("R-404A. " + text))
    assert [(w.value, w.unit, w.gained) for w in found] == want


def test_weights_read_on_the_way_are_no_readings() -> None:
    text = "R-404A. Vacuum's at 400 microns. Bottle on the scale, nine kilo. Eight. Seven. Six and a half, shut. So two and a half kilo."
    assert [r for r in readings(text) if r[1] != "kg"] == [(400.0, "micron")]


def test_weights_are_no_readings() -> None:
    text = "R-404A. Suction 2.1 bar. Bottle was 12.4, ended at 14.1. 1.7 kilos recovered. Head 14 bar."
    assert [r for r in readings(text) if r[1] != "kg"] == [(2.1, "bar"), (14.0, "bar")]
