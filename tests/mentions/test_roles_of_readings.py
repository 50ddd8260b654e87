"""What a value is: read now, printed, wanted, or where a control was seen to act; told by the words around it.

The sentences are our own; that a comparison with a plate ends with the plate's figure, that a gauge's pressure
and its saturation temperature are said as one, and that a thermostat is watched until it cuts, is common practice.
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

CASES = [
    # a rating that a value is set against ends with itself
    ("Compressor 2.6 amps, rated 3.1, 231 volts.", (231, "V"), "measured"),
    ("Compressor's drawing 5.1 against 6.4 on its plate, 236 volts.", (236, "V"), "measured"),
    ("Compressor is drawing 4.9, plate says 5.6 at 115 volts.", (115, "V"), "rated"),
    ("Nameplate: 105 grams, which is 3.7 ounces, 115 volts, 2.9 amps.", (2.9, "A"), "rated"),
    ("Condenser fan motor draws 1.9 and it's tagged at 1.1.", (1.1, "A"), "rated"),
    ("The fan capacitor is marked 3.5 microfarad plus or minus 5% and gave 1.9.", (1.9, "uF"), "measured"),
    (
        "Klixon's closed, coil is at 22 degrees. On the body it says 55, that is where it opens.",
        (55, "degF"),
        "rated",
    ),
    # a machine that did not get there, and a man who would not go there
    ("First try it wouldn't go under 900 microns, my hose was bad.", (900, "micron"), "measured"),
    ("I wouldn't go over 400 on that head.", (400, "psi"), "target"),
    # a control that was seen to act, and one that is set so
    ("Water's at 49 now. Stat cut out at 47.", (47, "degF"), "measured"),
    ("Water's at 49 now. Cold control cuts out at 46 and back in at 52.", (52, "degF"), "measured"),
    ("Thermostat cuts out at 50 it says in the book.", (50, "degF"), "target"),
    ("The low pressure control cuts out at 10 and back in at 35.", (10, "psi"), "target"),
    # nouns and verbs that only look like a setting
    ("Discharge was 1610 kPa on the wrong gauge set, it's 1520 now.", (1520, "kPa"), "measured"),
    ("Head 240. Box is setting at 14 degrees and it should be zero.", (14, "degF"), "measured"),
    # said as one: a pressure and its saturation
    (
        "Suction 121, liquid 345. High side is 105 saturated, that's 10 of subcooling.",
        (105, "degF"),
        "measured",
    ),
    ("Suction 51, which is 24, and 8 superheat.", (24, "degF"), "measured"),
    ("Suction 33. Dew point at 33 is 10, so that's 14 degrees superheat.", (10, "degF"), "measured"),
    ("Evaporating at 2.7 bar now. Condensing at 15.4.", (15.4, "bar"), "measured"),
    # wishes that end with what a probe says, and wishes of another form
    ("They want the meat at 38 or lower and the probe in the ham says 45.", (45, "degF"), "measured"),
    ("If the superheat ever comes up over 20 I'd start looking for a leak.", (20, "delta_degF"), "target"),
    ("I set it to 2 degrees, differential 2, end of defrost at 8 degrees.", (8, "degC"), "target"),
    ("Board was jumped for 90 minutes between defrosts, moved it to 60.", (90, "min"), "target"),
    ("Probe says 3 degrees and it's set for 0, 118 volts at the plug.", (118, "V"), "measured"),
    ("Display says 38 and they like it at 36, 119 volts at the outlet.", (119, "V"), "measured"),
    ("Yeah nah it's meant to run 4 degrees, she was at 11.", (11, "degC"), "measured"),
    ("I set it to 36 degrees, it was 40 before.", (40, "degF"), "earlier"),
    ("House was 84 degrees and she had it down at 74.", (74, "degF"), "target"),
    ("Suction 60. Driver had it set on minus 20 degrees, it's minus 12.", (-20, "degC"), "target"),
    # who says it, and when
    ("Head 240. Tenant says it was 31 inside last night, 26 now.", (26, "degF"), "measured"),
    ("Previous guy's tag said 128 over 350, I get 118 over 340.", (118, "psi"), "measured"),
    ("First trip Monday head was 310 and suction 40; today head 240 and suction 62.", (40, "psi"), "earlier"),
    ("At startup the suction was 12 psi, after ten minutes it was 58.", (12, "psi"), "measured"),
    ("The amps plate is 6.5 and taking 7.8 on all three phases.", (7.8, "A"), "measured"),
    (
        "Water's at 6 now. Thermostat clicked off at 2.2 and clicked back on at 5.8.",
        (5.8, "degC"),
        "measured",
    ),
    ("The stat's rated for 24 volts, 25.4 across R and C.", (25.4, "V"), "measured"),
    ("You want about 800 cfm, suction was 98 and head 310.", (310, "psi"), "measured"),
    ("Vac's got to hold under 500 microns, went to 420 and stopped there.", (500, "micron"), "target"),
    # a unit in the singular that was read
    ("Its current is 1.1 amp. Compressor red phase 7.2 amp.", (1.1, "A"), "measured"),
    ("Its current is 1.1 amp. Compressor red phase 7.2 amp.", (7.2, "A"), "measured"),
    # the unit said once
    (
        "Vacuum down to point six of a torr. Shut the valve, ten minutes, point nine.",
        (900, "micron"),
        "measured",
    ),
    ("Head one forty five. Make that one thirty five.", (145, "psi"), "retracted"),
    ("Head one forty five. Make that one thirty five.", (135, "psi"), "measured"),
]


@pytest.mark.parametrize(("said", "value", "role"), CASES, ids=[f"{c[1][0]}-{c[0][:30]}" for c in CASES])
def test_role(said: str, value: tuple[float, str], role: str) -> None:
    found = find(list(segments_of([said], "c1"))).readings
    assert (*value, role) in {(r.value, r.unit, r.role) for r in found}


def test_a_bound_that_was_not_passed_turns_around() -> None:
    found = find(
        list(segments_of(["The box wouldn't pull down below 44. Head never got past 210 psi."], "c1"))
    )
    assert [(r.value, r.relation) for r in found.readings] == [(44, ">="), (210, "<=")]


@pytest.mark.parametrize(
    "said",
    [
        "Contacts on the C leg are burnt right down to nothing.",
        "Killed the breaker and put the meter on the coil, it don't read nothing, wide open.",
    ],
)
def test_nothing_that_no_meter_said(said: str) -> None:
    assert not [r for r in find(list(segments_of([said], "c1"))).readings if r.value == 0]
