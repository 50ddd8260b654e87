"""What is taken back at a distance or with a tale of how it came to be misread, and what only sounds like it."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

TAKEN_BACK = [
    # clauses that tell of a misreading
    ("Low side 2.1 bar, I read the inner ring there, 1.2 bar is correct.", [2.1], [1.2]),
    ("Head's 260, no, I'm on the wrong line on this gauge, 216.", [260], [216]),
    ("Run cap reads 31, hang on, the meter was on nanofarads. 35.2 microfarads.", [31], [35.2]),
    ("Return air 72, supply 58. No, I read the supply wrong, it's 52.", [58], [72, 52]),
    ("Compressor amps 12.1, no that was both wires in the jaws, 6.2.", [12.1], [6.2]),
    ("Suction 86 psi, ah, I'd the hose on the other machine, 62 psi. Head 240.", [86], [62, 240]),
    ("Gear motor's 3.1 amps, no, I had the clamp wrong, it's pulling 2.4.", [3.1], [2.4]),
    ("Six amps. No. Scale was off. Six point four.", [6], [6.4]),
    # spoken of again, sentences later
    ("Box at 28. New stat in. I gave you 28 for the box; the picture on my phone has it at 26.", [28, 28], [26]),
    ("Suction 64. Head 230. By the way, I said 64 on the suction, it was actually 46.", [64, 64], [230, 46]),
    ("Head 240. Box 38. The head pressure I gave you was wrong, it's 204.", [240], [38, 204]),
    ("Head 220. Box 38. I had it down as 38 in the box, that's actually 34.", [38, 38], [220, 34]),
    ("Suction at 1.9 bar, head at 11. Looking at my photo the head was 12, mind, not 11.", [11, 11], [1.9, 12]),
    ("Amp draw 11.2. Forget the 11.2, that was startup. It runs at 8.4.", [11.2, 11.2], [8.4]),
    ("Head 260. That 260 was wrong, it's 206.", [260, 260], [206]),
    ("Suction 68. Head 210. Superheat 12. Correction, suction 58.", [68], [210, 12, 58]),
    # two for each other
    ("Suction 210, head 68, sorry, I had those the wrong way round. Superheat 10.", [210, 68], [10, 68, 210]),
    ("Suction 210 and head 68. Other way round, suction 68, head 210.", [210, 68], [68, 210]),
    ("Supply 75, return 55, no, those are backwards. Room 72.", [75, 55], [72, 55, 75]),
    # a set
    (
        "Suction 40, head 250. Scrap those, wrong machine. Suction 68, head 210.",
        [40, 250],
        [68, 210],
    ),
    (
        "L1 to L2 212, L2 to L3 208. Let me do that again, meter was on hold. L1 to L2 480, L2 to L3 478.",
        [212, 208],
        [480, 478],
    ),
    # a unit alone, and numbers in part
    ("High side 109 bar. Psi, that was the outer ring.", [109], [109]),
    ("Suction 120 bar. It's psi not bar.", [120], [120]),
    ("Capacitor 35 ohms, microfarads rather.", [35], [35]),
    ("Suction nine pounds, correction, nine inches.", [9], [9]),
    ("Clutch coil 3.6 K, rubbish, 3.6 ohms.", [3600], [3.6]),
    ("It reads 600 ohms, no, sorry, wrong scale, 6 ohms.", [600], [6]),
    # the side is said afterwards
    ("Fan motor draws 6.1 amps, no, sorry, that's the right, left is 5.8, right is 6.1.", [6.1], [5.8, 6.1]),
    # taken back, and no right one is said
    ("Suction 68. Head 210. Scrap the 210.", [210], [68]),
    ("Suction 68, head 210. Scrap those, wrong machine.", [68, 210], []),
    ("Fan one 2.3 amps, fan two 2.4 amps. Let me do that again. Fan one 2.5 amps.", [2.3], [2.4, 2.5]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "back", "stand"), TAKEN_BACK)
def test_taken_back(text: str, back: list[float], stand: list[float]) -> None:
    """What was taken back is retracted, and what stands is measured."""
    found = readings(text)
    assert sorted(r.value for r in found if r.role == "retracted") == sorted(back)
    assert sorted(r.value for r in found if r.role == "measured") == sorted(stand)


STANDS = [
    "Suction 68, head 210. The contactor was the wrong one so I ordered the right one. Superheat 12.",
    "Head 310 with the wrong fan blade on, 240 after the right one went in.",
    "Scrap those old filters. Supply air 55. Throw them all out. Return 75.",
    "The two fans were in the wrong way round. Supply 55, return 75. I swapped them over.",
    "Suction 68, I put the other hose on, head 210.",
    "Amps 5.2, I put the clamp on the other leg, 5.3.",
    "Vacuum 800 microns, that was before I opened the core tool, 450 microns now.",
    "Air on 15, air off 7.5, so I make that 7.5 kelvin across it.",
    "Let me do that again next week. Suction 68, head 210.",
    "Like I said, the box is at 38. Product 40.",
]


@pytest.mark.parametrize("text", STANDS)
def test_nothing_is_taken_back(text: str) -> None:
    """Words of correction that are of things and not of values take nothing back."""
    assert not [r for r in readings(text) if r.role == "retracted"]


def test_a_repair_in_part_has_a_reason() -> None:
    """ "Thirty six, no, seven" is 37 or 7: the likelier, and a reason to look."""
    old, new = readings("Box thirty six, no, seven.")
    assert (old.value, old.role) == (36, "retracted")
    assert new.value == 37
    assert new.review


def test_what_is_said_to_be_wrong_has_a_reason() -> None:
    """Where no right value follows, the value stays and gets a reason to look."""
    assert all(r.review for r in readings("Box 38. That 38 is wrong for dairy."))


@pytest.mark.parametrize(
    "text",
    [
        "Suction 68. Head 210. The head pressure I gave you was wrong.",
        "Suction 68. Head 210. That 210 was wrong.",
        "Suction 68, head 210. Scrap those, wrong machine.",
    ],
)
def test_said_to_be_wrong_without_a_right_one(text: str) -> None:
    """Nothing says what is right, so the value never stands without a reason to look."""
    found = [r for r in readings(text) if r.value == 210]
    assert found and all("nothing says what is right" in " ".join(r.review) for r in found)
