"""Limits are no values of now, values struck by their numbers, gigohms, and noughts that were said twice."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

LIMITS = [
    ("Herm side 38.1 microfarads, five percent off would make it, 42.8 would be the floor.", [38.1], [42.8]),
    ("Cap reads 31.2 microfarads, 33.3 is the lower limit.", [31.2], [33.3]),
    ("Milk is at 44, the machine locks itself out over 41.", [44], [41]),
    ("Box at 46, it alarms above 45.", [46], [45]),
    # read, and no limit
    ("Shelf temps 38 and 39, 41 at the floor.", [38, 39, 41], []),
    ("It went off over lunch. Box 44.", [44], []),
    # put on a meter, whatever it is marked
    ("The cap is a 45 microfarad and came up as 31 microfarads.", [31], []),
]


@pytest.mark.parametrize(("text", "measured", "wanted"), LIMITS)
def test_a_limit_is_no_value_of_now(text: str, measured: list[float], wanted: list[float]) -> None:
    """The least and the most that something may have, and where a machine shuts down."""
    found = readings(text)
    assert [r.value for r in found if r.role == "measured"] == measured
    assert [r.value for r in found if r.role == "target"] == wanted


STRUCK = [
    (
        "Probe 3.8 kilohms. In the slush it gave 5.2 kilohms. Battery was flat, the 3.8 and the 5.2 are garbage.",
        [],
        [3800, 5200, 3800, 5200],
    ),
    ("Fan 1.2 amps, pump 3.3 amps. The 1.2 is bogus.", [3.3], [1.2, 1.2]),
    ("Fan 1.2 amps, pump 3.3 amps. The filters and the belts are garbage.", [1.2, 3.3], []),
    # the sentence behind tells what the first was of
    ("Heaters 5.1 amps, the pair 10.2 amps, I should say. 5.1 is the left one.", [5.1, 10.2, 5.1], []),
    ("Head was 240, 260, I should say. Suction 68.", [260, 68], [240]),
    # what is called so is the value right in front
    (
        "Supply 58, return 76. Discharge line 164 2, the probe's cutting out, call it 164.",
        [58, 76, 164, 164],
        [],
    ),
]


@pytest.mark.parametrize(("text", "kept", "struck"), STRUCK)
def test_values_struck_by_their_numbers(text: str, kept: list[float], struck: list[float]) -> None:
    """Each of those that are said to be no good, and none that only stands near such words."""
    found = readings(text)
    assert [r.value for r in found if r.role == "measured"] == kept
    assert sorted(r.value or 0 for r in found if r.role == "retracted") == sorted(struck)


NOUGHTS = [
    ("Contactor coil has no volts, zero. 121 on the load side.", [0, 121]),
    ("Solenoid coil gets not a volt, zero.", [0]),
    ("Timer has 120 going in and nothing coming out, 0 volts.", [120, 0]),
    ("Pulled the disconnect, 0 volts across both lugs.", [0]),
    # of two, or of two places
    ("Killed the breaker, 0 volts on both lugs to ground.", [0, 0]),
    ("Voltage drop 0.4 volts across both poles.", [0.4, 0.4]),
    ("Zero volts L1 to L2, nothing to ground.", [0, 0]),
]


@pytest.mark.parametrize(("text", "values"), NOUGHTS)
def test_a_nought_said_twice_is_one(text: str, values: list[float]) -> None:
    """In words and in a number, or from one of a pair to the other."""
    assert [r.value for r in readings(text) if r.role == "measured"] == values


GIGOHMS = [
    ("Compressor to ground, 1.4 gig on the megger.", [1.4e9]),
    ("Windings to earth better than two gigohms.", [2e9]),
    ("Compressor windings 1.9, 1.9, 2.0 ohms. Meg on that one said eighty.", [1.9, 1.9, 2.0, 80e6]),
    ("The controller has a 16 gig card in it. Room 72 degrees.", [72]),
]


@pytest.mark.parametrize(("text", "values"), GIGOHMS)
def test_insulation_in_gigohms(text: str, values: list[float]) -> None:
    """A gig is a thousand megohms where insulation is under talk."""
    assert [r.value for r in readings(text)] == values
