"""US or metric: what speaks for which. Mains voltages after IEC 60038; temperatures are common practice."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.units_system import unit_system


@pytest.mark.parametrize(
    ("text", "system"),
    [
        ("Suction is twenty two psi, box thirty eight.", "us"),
        ("Suction four bar, box at three.", "metric"),
        # No unit of one system at all: mains and temperatures tell.
        ("One eighteen volts at the plug. Box is thirty seven.", "us"),
        ("Three ninety eight volts on all three, cabinet minus nineteen.", "metric"),
        ("Front four point two, bottle three point six, plug to earth good.", "metric"),
        ("Outside it's ninety one, return seventy six, supply fifty five.", "us"),
        # A letter behind a serial number is no scale, and one misheard unit turns nothing.
        ("Serial 7720 C. Air in 74, air out 53, 118 volts.", "us"),
        ("Suction 68 psi, head 2 bar hundred ten, 12 ounces, box 38.", "us"),
        ("Two of them, then.", "us"),
    ],
)
def test_system(text: str, system: str) -> None:
    assert unit_system(Narration.from_text(text)).name == system


def test_only_a_named_scale_is_no_assumption() -> None:
    assert not unit_system(Narration.from_text("It's four Celsius in there.")).assumed
    assert unit_system(Narration.from_text("Head is fourteen bar.")).assumed


@pytest.mark.parametrize(
    ("text", "degrees", "gauges", "below_zero"),
    [
        (
            "Suction 30 psi, head 210 psi. Box is at 3.4, set point is 3. Mains 238 volts.",
            "metric",
            "us",
            None,
        ),
        ("Return air 74, supply 55. Suction 118, head 340.", "us", "us", None),
        (
            "Discharge air? Thirty-four. Return? Forty-eight. Suction at the case? Thirty-one.",
            "us",
            "us",
            None,
        ),
        (
            "The display's in Celsius. It shows minus 62, room is 74, discharge line 190.",
            "us",
            "us",
            "metric",
        ),
        (
            "Chiller water in at 12, out at 7. Suction 68 psi, discharge 250 psi. Ambient is 34. Supply 412 volts.",
            "metric",
            "us",
            None,
        ),
        ("Air on 24, air off 13. Suction 820 kPa, head 2650 kPa.", "metric", "metric", None),
        ("Freezer at minus 21 C. Suction one bar, head fourteen bar.", "metric", "metric", None),
        (
            "Ultra-low. Readout says minus 70 Celsius, set for minus 80 Celsius. Outlet one eighteen. Room 76.",
            "us",
            "us",
            "metric",
        ),
        (
            "Fridge is at 9, should be 4. 231 volts at the socket, compressor 1.1 amps. Gassed it with 90 grams.",
            "metric",
            "metric",
            None,
        ),
        ("Walk-in 47. Head 235, suction 18. Added two pounds of 404A.", "us", "us", None),
        ("What's the box at? Fifty-two. Head? Three ten. Compressor amps? Seven.", "us", "us", None),
        (
            "Room 23, cabinet 7.5. Low side 12 psi, high side 160 psi. Charged 140 grams.",
            "metric",
            "us",
            None,
        ),
        ("Supply air 53, return air 72, superheat 12, subcooling 9.", "us", "us", None),
        ("Discharge pressure 14, suction 1.8, liquid line 38.", "metric", "metric", None),
        ("Low side sat at 2.1 bar. Room thirty. Box eleven.", "metric", "metric", None),
    ],
)
def test_degrees_and_gauges_apart(text: str, degrees: str, gauges: str, below_zero: str | None) -> None:
    """Psi stands beside Celsius in half the world, and an ultra-low cabinet shows Celsius everywhere."""
    system = unit_system(Narration.from_text(text))
    assert (system.name, system.pressure, system.below_zero) == (degrees, gauges, below_zero)


def _scales(text: str) -> list[tuple[str, bool]]:
    """Return the unit of each temperature, and whether it was given a reason that names the other scale."""
    return [
        (str(r.unit), any(c.unit in {"degF", "degC"} and c.unit != r.unit for c in r.candidates))
        for r in find(segments_of([text], "c1")).readings
        if r.quantity == "temperature"
    ]


CELSIUS = (
    "Walk in at the butcher's. Fourteen inside when I got there. Fan motor seized, fitted a new one.",
    "Split AC at the bank. R32. Back pressure 128 psi, current 5.2 amps, room 28. Outside 38.",
    "Cold room, minus twelve when I arrived, meant to be minus twenty. Minus eighteen now.",
    "Discharge line 82, liquid line 38. Suction line 9. Superheat 8.",
    "Heat pump on heating. Outdoor 3 degrees, return 20. Defrost every 50 minutes.",
    "Freezer was at minus six. Thawed it, terminated at twelve degrees. Minus nineteen after two hours.",
    "Fridge is at 11, thermostat set to 4. Compressor hot, 76 degrees on the dome.",
    "Cool room 10 degrees. Suction 30 psi, head 250 psi, R134a. Cool room down to 3.",
    "Product core 63 at start. Blast chiller at minus two.",
    "Wine room. It was nineteen in there, should be thirteen.",
    "Split system. Room thirty one before, twenty four after. Gas not touched.",
    "Pulled down to four degrees in an hour. Cabinet fan and door seal done.",
    "Outside it's minus twenty two. Three forty seven volts on all legs. Suction 110 psi.",
    "Milk's at 3.8, it was 11 when the farmer rang. Compressor 9 amps.",
    "Glycol at minus two, set point minus three. Plant room twenty seven.",
    "Heat pump water heater set for fifty five. Air in nineteen.",
)
FAHRENHEIT = (
    "Walk in at the butcher's. Fifty four inside when I got there. Fan motor seized, put in a new one.",
    "Split AC at the bank. R32. Suction 128 psi, 5.2 amps, supply 54, room 78. Outside 97.",
    "Walk in freezer, eighteen when I got here, supposed to be minus five. Heater open, replaced.",
    "Discharge line 182, liquid line 98. Suction line 48. Superheat 12.",
    "Heat pump on heating. Outdoor 33 degrees, return 70. Defrost every 50 minutes.",
    "Freezer was at twenty. Thawed it, terminated at fifty five degrees. Minus three after two hours.",
    "Fridge is at 51, thermostat set to 38. Compressor hot, 176 degrees on the dome.",
    "Brine chiller. Brine going out 16, coming back 18.5.",
    "Product core 145 at start. Blast chiller at 28.",
    "Beer cooler. Thirty six on the display. Defrost stat closed at thirty, opened at fifty five.",
    "Frozen food case. Discharge air minus eleven, return minus four, product minus two.",
    "Slush machine, both barrels at 27. Room 74. 116 at the plug.",
    "Freezer at four. Set for minus ten. Product is ten.",
    "Ice cream cabinet reading nine degrees. Two hours later minus six.",
)


@pytest.mark.parametrize("text", CELSIUS)
def test_no_celsius_is_read_as_fahrenheit_without_a_reason(text: str) -> None:
    found = _scales(text)
    assert found
    assert all(unit == "degC" or doubted for unit, doubted in found), found


@pytest.mark.parametrize("text", FAHRENHEIT)
def test_no_fahrenheit_is_read_as_celsius_without_a_reason(text: str) -> None:
    found = _scales(text)
    assert found
    assert all(unit == "degF" or doubted for unit, doubted in found), found


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("Return twenty six, supply twelve. Room was twenty nine. Isolator back on.", "degC"),
        ("Room at two, air off minus four, superheat seven. Isolator on.", "degC"),
        ("Return seventy six, supply fifty five. Room was eighty one.", "degF"),
        ("Box was at 22, set for 0. Suction 12 pounds, head 240. Added 2 pounds 4 ounces.", "degF"),
        ("Cooler 50 degrees. Suction 30 psi, head 150 psi. Cooler down to 37.", "degF"),
    ],
)
def test_a_plain_visit_gets_no_reasons(text: str, unit: str) -> None:
    assert {*_scales(text)} == {(unit, False)}


def test_a_display_in_celsius_in_a_visit_in_fahrenheit() -> None:
    """9 °C is 48.2 °F: the two tell of the same box."""
    text = "Prep fridge. Display says 9, my thermometer reads 48. 117 volts at the receptacle."
    assert _scales(text) == [("degC", True), ("degF", False)]


def test_a_letter_in_a_name_is_no_scale_for_what_follows() -> None:
    text = "The outdoor is H P 3 6 C. 243 volts at the disconnect. Vapor line 53 degrees. Return and supply, 75 and 56."
    assert {u for u, _ in _scales(text)[-3:]} == {"degF"}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Middle one 47.6 ohms. Bottom one 48.3 and 0.2 meg to earth, so that's leaking.", [47.6, 48.3, 2e5]),
        (
            "Heaters: first one 24 ohms, third one 23.8, 5 meg to ground. Second one 24.1.",
            [24, 23.8, 5e6, 24.1],
        ),
        ("Megger to earth: 200 and 190 megohms.", [2e8, 1.9e8]),
        ("Legs to ground, 2 meg, 1.8 and 1.9 meg.", [2e6, 1.8e6, 1.9e6]),
    ],
)
def test_megohms_to_earth_are_not_shared_with_the_ohms_before_them(text: str, wanted: list[float]) -> None:
    found = find(segments_of([text], "c1")).readings
    assert [r.value for r in found if r.quantity == "resistance"] == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Suction 118, liquid 3 hundred 10.", [118, 310]),
        ("Head is 4 hundred 10, suction 1 hundred 25.", [410, 125]),
        ("Vacuum down to 4 hundred 80 microns.", [480]),
        ("Evaporator fans, both eight hundred and fifteen rpm.", [815, 815]),
        ("Heater elements, both two hundred and two fifty ohms.", [200, 250]),
        ("Held between two hundred and two fifty microns.", [200, 250]),
    ],
)
def test_hundreds_in_two_pieces_are_one_number(text: str, wanted: list[float]) -> None:
    assert [r.value for r in find(segments_of([text], "c1")).readings] == wanted


def test_where_a_visit_may_be_spoken_in_either_system_every_temperature_is_asked_about() -> None:
    """Each value alone leans one way, and all of them would be wrong together."""
    text = "Core probe says forty one. Mine in the same tray says nine. Air minus four."
    either = [r for r in find(list(segments_of([text], "c1"))).readings if r.quantity == "temperature"]
    assert len(either) == 3
    assert all(any("may be °C" in why or "may be °F" in why for why in r.review) for r in either)
    told = f"{text} Nought point four amps, two hundred and thirty volts."
    sure = [r for r in find(list(segments_of([told], "c1"))).readings if r.quantity == "temperature"]
    assert {r.unit for r in sure} == {"degC"}
