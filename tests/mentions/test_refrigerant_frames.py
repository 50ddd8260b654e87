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
        ("Head two sixty. That's four oh four in there, nineteen ounces.", ["R-404A"]),
        ("Leak is fixed. It's four four eight. Gave it three pounds.", ["R-448A"]),
        ("Fan is off and head climbs. It's four oh four. Fan on, it falls.", []),
        ("Rooftop, five ton, twenty two. Not cooling.", ["R-22"]),
        # right before a machine
        (
            "Flake machine in the fish shop, water cooled, four oh four machine. Suction ten pounds.",
            ["R-404A"],
        ),
        ("It is an old five oh seven system. Suction ten pounds.", ["R-507A"]),
        ("Serial number four oh four machine is out.", []),
        # in front of the plate and its charge
        ("Fan on. Head falls. Box cold. Tank's here. Four oh four, tag says two pounds ten.", ["R-404A"]),
        ("Fan on. Head climbs. Box cold. Four oh four, tag says four hundred at the switch.", []),
        # behind the pressures of its sentence, or what is read on it
        ("Ran it again. Suction ten pounds, head two twenty, it's four oh four. Fan spins.", ["R-404A"]),
        ("Ran it. Box is six. Head sixteen bar. That's 448. Leaving it.", ["R-448A"]),
        ("Ran it. Box is six. Head two ninety and suction thirty on four oh four. Unplugged it.", ["R-404A"]),
        ("Ran it. Ten pounds on the low side, one ninety high, four oh four, box seven.", ["R-404A"]),
        ("Head was three hundred, and on this 404 it wants two sixty.", ["R-404A"]),
        ("Fish case, remote, four oh four on the rack. Case is at forty.", ["R-404A"]),
        ("Rooftop. Ran it. Amps are sixteen. Four ten stuff, one twenty and three fifty.", ["R-410A"]),
        (
            "Cuber. Box. Mine is left. Model IC-12, serial W09, four oh four, plate charge's five pounds.",
            ["R-404A"],
        ),
        ("Fridge. The tag's gone, it's one thirty-four and says four ounces.", ["R-134a"]),
        ("Three boxes. The left's one three four A, the back one's four oh four.", ["R-134a", "R-404A"]),
        ("Fan dead. Box at five. Then the ice maker under the bar, four oh four. Harvest.", ["R-404A"]),
        # blends hardly met, by their letter only
        ("Cold room, R four five three A, six kilos.", ["R-453A"]),
        ("Reach-in, serial nine nine four oh one B, R-134a.", ["R-134a"]),
        ("Chiller, four fifty-three on the counter. Suction sixty.", []),
        # volts, a meter, the value of a label
        ("Ran it. Liquid is two thirty and suction, it's 404, way too high.", []),
        ("Ran it. Leg to leg four ten, four oh six, it's four oh four.", []),
        ("Ran it. Box at five. Line volts are low, it's 404. Suction three.", []),
        ("Ran it. Meter shows four oh four on the meter. Case at forty.", []),
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
