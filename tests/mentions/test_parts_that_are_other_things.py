"""Heaters that are no defrost heaters, power supplies that are parts, and words of the technician's own tools."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from tests.mentions.case_files import readings

OF = [
    ("Retarder. Two evaporator fans 0.5 amps each. Proof heaters 7.9 amps.", 7.9, "proof heater"),
    ("Proofer heaters on, 9.1 amps. Breaker off. Heater banks are 26 ohms.", 26, "proof heater"),
    ("Evaporator fan 0.4 amps. Reheat elements 9.8 amps. Locked off. Elements 21 ohms.", 21, "reheat heater"),
    ("Steam tray element 58 ohms.", 58, "humidifier"),
    # where a machine defrosts, it is still that
    ("Walk-in freezer. Defrost heaters 12 amps. Heaters 19 ohms.", 19, "defrost heater"),
    ("Third pole of the starter 1800 ohms.", 1800, "contactor"),
    ("Milk pump 2.4 amps.", 2.4, "dosing pump"),
    ("Agitator is 24 volts DC. Power supply has 229 volts going in.", 229, "power supply"),
    ("Power supply to the unit is 229 volts.", 229, None),
    ("Timer motor runs at 50 hertz.", 50, "defrost timer"),
]


@pytest.mark.parametrize(("text", "value", "component"), OF)
def test_what_a_value_is_of(text: str, value: float, component: str | None) -> None:
    """The part that was named, and not the one that such a word mostly means."""
    assert [r.component for r in readings(text) if r.value == value] == [component]


ONCE = [
    ("Termination switch, open. OL and the coil is at 12.", "open. OL"),
    ("Drain heater open, infinity. Door heater 210 ohms.", "open, infinity"),
]


@pytest.mark.parametrize(("text", "heard"), ONCE)
def test_an_open_circuit_and_its_meter_are_one(text: str, heard: str) -> None:
    """What the meter showed is no circuit of its own."""
    assert [r.heard for r in readings(text) if r.state == "open"] == [heard]


def test_nothing_said_twice_in_words() -> None:
    """A second word for nothing right behind the first is the same look at the meter."""
    found = readings("Fuse out, tested at the contactor, nothing, not a volt. Windings 1.3 ohms.")
    assert [r.value for r in found] == [0, 1.3]


HANDLED = [
    ("Termination klixon reads open. Fitted a new klixon.", ["defrost termination switch"]),
    ("Compressor cuts on the klixon. Changed the klixon.", ["overload"]),
    ("Plate heat exchanger is fine. The stairs are a crime, put that in your report.", []),
]


@pytest.mark.parametrize(("text", "names"), HANDLED)
def test_which_part_was_handled(text: str, names: list[str]) -> None:
    """A klixon is the one under talk; what was written down is no part."""
    assert [p.name for p in find(list(segments_of([text], "c1"))).parts] == names


@pytest.mark.parametrize(
    "text", ["Gas I did not open.", "Didn't go near the gas.", "Never went near the refrigerant side."]
)
def test_gas_that_was_left_alone_is_no_charge(text: str) -> None:
    """Nothing was to be charged, so nothing was left undone."""
    assert not [s for s in find(list(segments_of([text], "c1"))).steps if s.step == "charged"]


BY_A_WORD = [
    ("Condenser fan motor does not turn. DC bus after five minutes, eleven volts.", 11, None),
    (
        "Reheat elements. Blower motor 5.1 amps. Ohmed the three banks, 21, 21 and 64 ohms.",
        64,
        "reheat heater",
    ),
    (
        "Compressor was fine. Dasher motor draws 9.1 amps, 9.3 and 9.2. Ran it again. 6 amps, 6.1, 6.",
        6.1,
        "beater motor",
    ),
    ("Dasher motor draws 9.1 amps, 9.3 and 9.2. Compressor 6 amps, 6.1, 6.", 6.1, "compressor"),
    (
        "Condenser fan motor drew 1.2 amps. Bus bar is tight, fan motor gets 231 volts.",
        231,
        "condenser fan motor",
    ),
]


@pytest.mark.parametrize(("text", "value", "component"), BY_A_WORD)
def test_what_a_word_of_it_tells(text: str, value: float, component: str | None) -> None:
    """Banks are those of the heaters, a bus is of no motor, three legs are those of the motor before."""
    assert [r.component for r in readings(text) if r.value == value] == [component]


def test_a_meter_over_the_top_is_open() -> None:
    """Said of what a meter shows, and not of a thing that goes over the top."""
    assert [r.state for r in readings("Winding to frame, meter shows over the top.")] == ["open"]
    assert not readings("The hose goes over the top of the cabinet.")
