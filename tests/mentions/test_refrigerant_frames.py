"""A gas told by its number alone where only a gas can stand, and names of gases that only describe."""

from __future__ import annotations

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.named import find_refrigerants


def named(text: str) -> list[str]:
    return [r.name for r in find_refrigerants(Narration.from_text(text))]


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("Outdoor unit on the roof, gas four one zero. Suction three bar.", ["R-410A"]),
        ("Hold on, it's a one thirty-four, the label says so.", ["R-134a"]),
        ("Head is only eight bar, that is on four oh four, and the glass bubbles.", ["R-404A"]),
        ("Gauges now, four oh four, suction two bar, head fourteen.", ["R-404A"]),
        ("Milk tank, old one, twenty two still in it.", ["R-22"]),
        ("Rooftop, five ton, twenty two. Not cooling.", ["R-22"]),
        # a value, a temperature of a line, a pressure
        ("Hot gas one thirty-four, liquid ninety.", []),
        ("It's a two thirty volt motor.", []),
        ("Suction four oh four, head nine hundred kilopascal.", []),
        ("Gauges on, suction, one thirty-four, head three ninety.", []),
        # what a gas only describes
        ("The ammonia lads look after the big plant, I only do the cold room.", []),
        ("Package unit behind the propane cage.", []),
        ("Fridge on propane, sixty grams.", ["R-290"]),
    ],
)
def test_frames_of_a_gas(text: str, want: list[str]) -> None:
    assert named(text) == want
