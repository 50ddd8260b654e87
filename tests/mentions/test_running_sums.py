"""Amounts of refrigerant whose sum is told as they are added, and sums that are called "your"."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def amounts(text: str) -> list[tuple[float, str]]:
    return [(m.value, m.unit) for m in find(list(segments_of([text], "c1"))).movements]


@pytest.mark.parametrize(
    ("said", "amount"),
    [
        (
            "Charging. Eight ounces. Eleven more, nineteen. Six, twenty-five. And three. Twenty-eight.",
            (28, "oz"),
        ),
        ("Weighed in 300 grams. 150 more, 450. Another 100, that makes 550. Last 50, 600.", (600, "g")),
        ("Charged two pounds. Then three, so five. Subcooling five.", (5, "lb")),
        ("Gas in as liquid, 3 kilos, then 2, then another 1.2, and there's your 6.2.", (6.2, "kg")),
        ("Charged four pounds, two more, that makes the six on the plate.", (6, "lb")),
    ],
)
def test_the_last_sum_is_what_moved(said: str, amount: tuple[float, str]) -> None:
    assert amounts(said) == [amount]


@pytest.mark.parametrize(
    ("said", "amount"),
    [
        ("Recovered eight ounces. Suction 11, head 19. Superheat 6.", [(8, "oz")]),
        ("Charged two pounds. Superheat 4, subcooling 6.", [(2, "lb")]),
        ("Charged eight ounces. Eleven more minutes, then twenty on the vacuum.", [(8, "oz")]),
    ],
)
def test_what_is_read_behind_an_amount_is_no_sum(said: str, amount: list[tuple[float, str]]) -> None:
    assert amounts(said) == amount


def test_what_goes_back_in_is_an_amount_by_the_plate() -> None:
    plate = "Heat pump, 410A, three pounds fifteen ounces on the sticker. Recovered two pounds one ounce. "
    assert amounts(plate + "And now three fifteen goes back in.") == [(2.0625, "lb"), (3.9375, "lb")]
    assert amounts(plate + "Head three fifteen, and the panel goes back on.") == [(2.0625, "lb")]
