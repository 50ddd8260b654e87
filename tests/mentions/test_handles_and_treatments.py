"""Handles thrown, parts that are none, and parts told by what they were given: steps and parts of invented talk."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

DONE = [
    # a handle and a breaker, both ways
    ("Breaker for the case I made off, then I opened the panel.", {"power_isolated"}, set()),
    ("Isolator we put off and my tag on it.", {"power_isolated"}, {"power_restored"}),
    (
        "Handle down, tester says it's dead. New contactor in. Threw the handle and away she went.",
        {"power_isolated", "absence_of_voltage_verified", "power_restored"},
        set(),
    ),
    ("Threw the handle and locked it out.", {"power_isolated"}, {"power_restored"}),
    ("Flipped the breaker off and hung my lock on it.", {"power_isolated"}, {"power_restored"}),
    ("I made sure it was off before I touched a wire.", {"absence_of_voltage_verified"}, set()),
    ("Put it back on at the wall and it hummed.", {"power_restored"}, set()),
    ("Strapped the bulb back on at the three o'clock.", set(), {"power_restored"}),
    ("The two caps I put back on and snugged.", set(), {"power_restored"}),
    ("Opened the valves back up and let it equalise.", set(), {"power_restored"}),
    # a valve that is told something is no customer
    ("The valve is being told to open but it sits there.", set(), {"customer_informed"}),
    ("The controller told it to shut and it shut.", set(), {"customer_informed"}),
    ("Told the chef to keep the door shut.", {"customer_informed"}, set()),
    # a filter that is brazed in is none of air
    ("Blocked, this filter. I cut it out, I solder new one in.", {"filter_drier_replaced"}, set()),
    ("Air filter was black, fitted a new one.", {"part_replaced"}, {"filter_drier_replaced"}),
    # parts of pipes
    ("Vibrasorber was wet with oil, changed it.", {"part_replaced"}, set()),
    ("New valve body in, stainless, brazed.", {"part_replaced", "brazed"}, set()),
    # settings
    ("Nipped the old flare off and made another.", set(), {"adjusted"}),
    ("The stat is set for three. Put the caps on and tightened them.", {"ports_capped"}, {"adjusted"}),
    ("Expansion valve was starved. Took the cap off and opened it half a turn.", {"adjusted"}, set()),
    ("Nipped up the flare nut a touch.", {"adjusted"}, set()),
    ("Bumped the fail-safe from twenty minutes to thirty.", {"adjusted"}, set()),
    # a machine that was run with a cleaner
    ("Ran the descaler through it twice, then sanitizer, rinse.", {"cleaned"}, set()),
    ("The sanitizer bottle was empty on the shelf.", set(), {"cleaned"}),
]

PARTS = [
    ("The door latch was broken, put a new handle on it.", {("door handle", "replaced")}),
    ("Throwed the handle and the contactor slapped right in.", set()),
    ("Contactor was pitted, popped a new contactor in.", {("contactor", "replaced")}),
    ("I put soap on both flare nuts, not a bubble.", set()),
    ("Slid the old blade on the shaft.", set()),
    ("Put it in lead and watched it a while.", set()),
    ("Cut the dead pump out and brazed the new one in.", {("compressor", "replaced")}),
    (
        "The water pump was seized. Took the old pump out and fitted a new one.",
        {("water pump", "replaced")},
    ),
    ("Low control was sticking, new control fitted.", {("low pressure switch", "replaced")}),
    ("The stat was dead. New control fitted.", {("thermostat", "replaced")}),
    (
        "Recovered the gas and brazed the new compressor in. New filter too.",
        {("compressor", "replaced"), ("filter drier", "replaced")},
    ),
    ("Swapped the blower belt. New filter too.", {("belt", "replaced"), ("air filter", "replaced")}),
    (
        "The fan speed controller put out 60 volts. Set the controller for 18 bar.",
        {("fan speed controller", "adjusted")},
    ),
    ("The controller shows 4 degrees. Set the controller to 2.", {("temperature controller", "adjusted")}),
    ("The drain heater is open. New heater cable in.", {("drain heater", "replaced")}),
    ("Pulled the strainer. The basket was full of swarf, washed it out.", {("strainer", "cleaned")}),
    (
        "The spray nozzles were limed up, so I put them all in descaler for an hour.",
        {("spray nozzle", "cleaned")},
    ),
    ("I put the probe in the acid to see what it reads.", set()),
    ("The evaporator got a rinse and a brush.", {("evaporator coil", "cleaned")}),
    ("The evaporator got a rinse valve last year.", set()),
]


@pytest.mark.parametrize(("text", "wanted", "unwanted"), DONE)
def test_what_was_done(text: str, wanted: set[str], unwanted: set[str]) -> None:
    done = {s.step for s in read_text(text).steps if s.status == "done"}
    assert wanted <= done
    assert not unwanted & done


@pytest.mark.parametrize(("text", "wanted"), PARTS)
def test_which_parts(text: str, wanted: set[tuple[str, str]]) -> None:
    handled = {(p.name, p.action) for p in read_text(text).parts if p.action != "removed"}
    assert handled == wanted


def test_a_valve_that_was_only_shut_is_not_cut_out() -> None:
    said = "The drier is choked. Shut the ball valve, cut it out, new drier sweated in."
    assert [(p.name, p.action) for p in read_text(said).parts if p.name == "ball valve"] == []


def test_an_evening_that_is_now_is_the_visits_own() -> None:
    now = read_text(
        "This is Monday evening now, the milk tank. Quarter past seven to half past eight."
    ).labour
    then = read_text("Off since Monday evening, the milk tank. Quarter past seven to half past eight.").labour
    assert now is not None and (now.start, now.end) == ("19:15", "20:30")
    assert then is not None and (then.start, then.end) == ("07:15", "08:30")


MACHINES = [
    (
        "The milk tank, two condensing units outside, 404 in the both of them. Milk at nine.",
        "milk tank",
        "R-404A",
    ),
    ("Second is the coolroom. Four-oh-four in that one. Suction at three bar.", "walk-in cooler", "R-404A"),
    ("The step-in freezer behind the filling station. Box at minus ten.", "walk-in freezer", None),
    ("Ducted split, R410A. Static across the fan coil is 120 pascals.", "split system", "R-410A"),
]


@pytest.mark.parametrize(("text", "kind", "gas"), MACHINES)
def test_one_machine_and_its_refrigerant(text: str, kind: str, gas: str | None) -> None:
    assert [(e.type, e.refrigerant) for e in read_text(text).equipment][:1] == [(kind, gas)]


def test_a_number_in_words_of_place_is_no_refrigerant() -> None:
    said = "Walk-in cooler. Line voltage, 404 in the panel and 402 at the contactor."
    assert [e.refrigerant for e in read_text(said).equipment] == [None]
