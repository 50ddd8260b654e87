"""Pressure tests and evacuations told in run-on talk: the pump governs until it is over; common practice."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def _heard(text: str, *quantities: str) -> list[float]:
    mentions = find(list(segments_of([text], "c1")))
    return [r.value for r in mentions.readings if r.quantity in quantities and r.value is not None]


@pytest.mark.parametrize(
    ("text", "microns"),
    [
        ("pump on and it went down to like six hundred and hung there so I changed the oil and then it went to two "
         "ninety and I closed the valve and it crept to three fifty over ten minutes", [600, 290, 350]),
        ("put the pump on it and it stopped at eight hundred and I swapped the oil and the second pull got to three "
         "ten and fifteen minutes after I valved it off it was three forty", [800, 310, 340]),
        ("Four hundred twenty, that's where it sat with the pump valved off. Started the hold at three eighty.",
         [420, 380]),
        ("then the pump and the first try it stopped at eleven hundred and when I valved off it ran up to twenty-two "
         "hundred in five minutes so I broke it with nitrogen and the second time it's four twenty and fifteen "
         "minutes later four ninety", [1100, 2200, 420, 490]),
        ("vacuum pump started at nine twenty and by ten it was at seven hundred and by ten forty it was down to three "
         "twenty and I isolated it and it only came up to three seventy by eleven", [700, 320, 370]),
        ("Hooked up the pump at two fifteen, pulled it down to four hundred by three, shut the valve and it held at "
         "four sixty for fifteen minutes.", [400, 460]),
        ("Nine hundred first pull, broke it with nitrogen, four fifty second pull, two seventy on the third.",
         [900, 450, 270]),
        ("I'm pulling a vacuum on it now, it went from two thousand to nine hundred in ten minutes.", [2000, 900]),
    ],
)  # fmt: skip
def test_microns_of_an_evacuation(text: str, microns: list[float]) -> None:
    assert _heard(text, "vacuum") == microns


@pytest.mark.parametrize(
    ("text", "psi"),
    [
        ("then one seventy-five on the nitrogen at one oh five and at one thirty-five it's one seventy-five yet and no "
         "bubbles", [175, 175]),
        ("so then three hundred of nitrogen on it and my first number was at nine forty it was eighty-four degrees out "
         "and at ten forty it's three oh two and eighty-seven out so it just warmed up", [300, 302]),
        ("What did you test it to? Three hundred. How long? Forty minutes. And it held? Two ninety-nine.", [300, 299]),
    ],
)  # fmt: skip
def test_pressures_between_times_of_day(text: str, psi: list[float]) -> None:
    assert _heard(text, "pressure") == psi
