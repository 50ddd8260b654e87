"""Steps that the words only seem to tell of: symptoms, other pumps, other gases, denials that end."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

NOT_TOLD = [
    ("Reach-in freezer came in on not pulling down. Unplugged it.", "run_checked", "not_done"),
    ("Product cores weren't coming down, the operator says. Killed the breaker.", "run_checked", "not_done"),
    ("No torch till the detector said clear. Brazed the stub in.", "leak_checked", "not_done"),
    ("Nitrogen at two hundred, and no bubbles at the joints.", "leak_checked", "not_done"),
    ("The needle never moved, and soap on the flares was clean.", "leak_checked", "not_done"),
    ("Isolated 15 minutes, 340. The manual wants under 500 after 10 minutes.", "vacuum_held", "planned"),
    ("It came up to 20 pounds. It ought to be sitting at 70 standing.", "vacuum_held", "planned"),
    ("Took the water pump off, it was locked up tight. New pump on the old motor.", "vacuum_held", "done"),
    ("Bin switch shut it off with a scoop of ice held against it.", "vacuum_held", "done"),
    ("Nitrogen in, 292, I could hear it. Bled it off, did that joint again.", "capacitor_discharged", "done"),
    ("I'd been told the thermostat was changed in the winter.", "customer_informed", "done"),
    ("Put a fan and a wet rag on the shell to cool it.", "brazed", "done"),
    ("Sight glass full, no bubbles, liquid line at 96.", "leak_checked", "done"),
    ("Nobody lit a torch, so no nitrogen flowing through it.", "nitrogen_purged", "done"),
    ("I never put a recovery machine on it.", "refrigerant_recovered", "done"),
    ("I never put a recovery machine on it.", "power_restored", "not_done"),
    ("Remade the flare, soaped it, put it back to 38 and it stayed there.", "adjusted", "done"),
    ("I didn't get to the caps, no wait, yes I did, caps are on.", "ports_capped", "not_done"),
    ("Load side tested zero, zero and zero to ground.", "absence_of_voltage_verified", "not_done"),
    ("Caps on with new gaskets.", "part_replaced", "done"),
    ("It comes charged, circuit one is four pounds ten ounces.", "charged", "done"),
    ("New ductless, 12,000 BTU single zone.", "part_replaced", "done"),
    ("New roll-in blast chiller, hospital kitchen.", "part_replaced", "done"),
]


@pytest.mark.parametrize(("text", "step", "status"), NOT_TOLD, ids=lambda v: str(v)[:40])
def test_is_not_taken(text: str, step: str, status: str) -> None:
    """What the words do not say is no step."""
    assert (step, status) not in {(s.step, s.status) for s in read_text(text).steps}


TOLD = [
    ("No hold, ran out of time.", "vacuum_held", "not_done"),
    ("Nitrogen at two hundred, and no bubbles at the joints.", "leak_checked", "done"),
    ("I didn't get to the caps, no wait, yes I did, caps are on.", "ports_capped", "done"),
    ("Didn't braze and didn't pull a vacuum.", "brazed", "not_done"),
    ("Put it back together with a new gasket.", "part_replaced", "done"),
    ("Never braced the line, and no brazing today.", "brazed", "not_done"),
]


@pytest.mark.parametrize(("text", "step", "status"), TOLD, ids=lambda v: str(v)[:40])
def test_is_still_taken(text: str, step: str, status: str) -> None:
    """What the words do say stays."""
    assert (step, status) in {(s.step, s.status) for s in read_text(text).steps}


def test_each_machine_has_its_own_isolation() -> None:
    """A second machine that is unplugged is isolated for itself."""
    record = read_text(
        "Two machines. The first is the undercounter fridge, it was flat. Unplugged it, moved it to the back "
        "and put a tag on it for the owner to see.\nThe second is the display case, 44 inside. Condenser fan "
        "0.7 amps, evaporator fan dead with 121 volts on it. Pulled the plug, swapped the fan motor, it draws 0.4."
    )
    assert {s.equipment for s in record.steps if s.step == "power_isolated"} == {"e1", "e2"}


def test_a_filter_told_by_its_size_is_of_the_air() -> None:
    """A filter of twenty by twenty is no water filter, whatever else drips."""
    parts = read_text("Office split. It was iced, water on the floor. New filter, a 20 by 20 by 1.").parts
    assert [p.name for p in parts] == ["air filter"]
