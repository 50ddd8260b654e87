"""What somebody else gave, what the weather people say, and what only sounds like a plate or a wish.

The sentences are our own; that a complaint is told with the number the owner saw, and that a number breaks off
and is said again, is common practice.
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading

ROLES = [
    # a number that somebody else gave
    ("Line cook told me 51 in the top rail. Mine says 44 in the rail.", (51, "degF"), "earlier"),
    ("Waitress reckoned about 46 degrees. I get 43.", (46, "degF"), "earlier"),
    ("Room is 78. The janitor had 83 on his at noon.", (83, "degF"), "earlier"),
    ("The lady upstairs says it's blowing 21 degrees. I get 14.8 off the coil.", (21, "degC"), "earlier"),
    ("The lady upstairs says it's blowing 21 degrees. I get 14.8 off the coil.", (14.8, "degC"), "measured"),
    ("Suction 60. Walt was out at Easter and had supply at 94.", (94, "degF"), "earlier"),
    ("At the Christmas market the box is 37.", (37, "degF"), "measured"),
    ("Room's 78. The driver had 4 doors open at noon.", (78, "degF"), "measured"),
    # the weather people
    ("Forecast says 103 degrees for today. Outside air 91.", (103, "degF"), "expected"),
    ("Forecast says 103 degrees for today. Outside air 91.", (91, "degF"), "measured"),
    ("The radio promised 97 degrees, I've got 92 at the condenser.", (97, "degF"), "expected"),
    ("It's a hot day, 95 degrees on the phone and 88 at the coil.", (95, "degF"), "expected"),
    ("Suction line is 41 degrees on my phone, head 240.", (41, "degF"), "measured"),
    # what was wanted, and what was reckoned
    ("Suction line 46 degrees. I was after 7 or 8 superheat, and there's 9.", (9, "delta_degF"), "measured"),
    ("Freeze protection 36 degrees. Leaving water 45 degrees.", (36, "degF"), "target"),
    ("Remote's on 19 degrees, return air 25.", (19, "degC"), "target"),
    ("Heater 600 watts, 96 ohms by my sums, 97 on the meter.", (97, "ohm"), "measured"),
    ("New valve has a 900 ohm coil going by the packet, and mine measures 912 ohms.", (900, "ohm"), "rated"),
    # only sounds like a wish, a plate or a sheet
    ("Everything is normal: suction 2.6 bar, receiver 13 bar.", (2.6, "bar"), "measured"),
    ("Normal: 40 psi. Found 28 psi suction.", (40, "psi"), "target"),
    ("Nine bar nitrogen, no, the plate allows more, nineteen bar.", (19, "bar"), "measured"),
    ("The plate allows 20 bar, so I put 18 bar of nitrogen in.", (20, "bar"), "rated"),
    ("The plate allows 20 bar, so I put 18 bar of nitrogen in.", (18, "bar"), "measured"),
    ("Board's good. Read a 23.7 volt supply on it.", (23.7, "V"), "measured"),
    ("Control board has a 24 volt supply.", (24, "V"), "rated"),
    ("At 26 degrees mine reads 9100 ohms, book says 10400.", (9100, "ohm"), "measured"),
    ("At 26 degrees mine reads 9100 ohms, book says 10400.", (10400, "ohm"), "target"),
    ("For 404 at 20 degrees the chart gives 56.", (20, "degF"), "target"),
    ("Suction 26 psi, which would be 30 degrees.", (30, "degF"), "measured"),
    ("Suction 19 psi, it should be 30, which would be 32 degrees.", (32, "degF"), "target"),
    ("The refractometer says good to 14 degrees.", (14, "degC"), "measured"),
    ("Glycol's good to 12 degrees it says on the drum.", (12, "degC"), "target"),
    ("Head's at 18 bar, climbing, 21, and there it cuts out, 23 bar.", (23, "bar"), "measured"),
    ("High pressure switch, it cuts out at 22 bar.", (22, "bar"), "target"),
]


@pytest.mark.parametrize(("said", "value", "role"), ROLES, ids=[f"{c[1][0]}-{c[0][:30]}" for c in ROLES])
def test_role(said: str, value: tuple[float, str], role: str) -> None:
    assert (*value, role) in {(r.value, r.unit, r.role) for r in _find(said)}


BACK: list[tuple[str, list[float], list[float]]] = [
    # a name that waits for its number takes nothing back
    ("Suction was 34 and the head, hang on, 236.", [], [34, 236]),
    ("Suction was 34 and the head, hang on, 256, no that's my other gauge, 236.", [256], [34, 236]),
    ("Supply 55, return, hold on, 72.", [], [55, 72]),
    ("Suction 36, hang on, 41.", [36], [41]),
    ("Head 240. Suction 36 on the low side, hang on, 41.", [36], [240, 41]),
    # a number that breaks off
    ("Evaporator fan takes nought point two... nought point two five amps.", [0.2], [0.25]),
    ("Compressor draws three... three point six amps.", [], [3.6]),  # a word begun, no value
    ("Suction is 4... 4.2 bar.", [4], [4.2]),
    ("L1 11... 11.5... 11.4 amps.", [], [11, 11.5, 11.4]),
    ("Left fan is 2.1 amps... right fan 2.14 amps.", [], [2.1, 2.14]),
    # one of a row
    (
        "Left heater pulls 5.2 amps. Middle one zero. Right one zero also. No wait, the right one I had the "
        "clamp on the wrong lead, it pulls 5.1.",
        [0],
        [5.2, 0, 5.1],
    ),
]  # fmt: skip


@pytest.mark.parametrize(("said", "back", "stand"), BACK, ids=[c[0][:40] for c in BACK])
def test_taken_back(said: str, back: list[float], stand: list[float]) -> None:
    found = _find(said)
    assert [r.value for r in found if r.role == "retracted"] == back
    assert [r.value for r in found if r.role != "retracted"] == stand


@pytest.mark.parametrize(
    ("said", "value", "other"),
    [
        ("On the manometer I see seven bar and four. The pipe is at six degrees.", 7, 7.4),
        ("Vacuum down to 0 3 millibar.", 3, 0.3),
        ("Compressor 5.8 amps, plate 6 4.", 6, 6.4),
    ],
)
def test_two_pieces_of_one_number(said: str, value: float, other: float) -> None:
    """What was said may be longer than what was taken: a reason to look, and the other number to choose."""
    found = next(r for r in _find(said) if r.value == value)
    assert found.review and other in {c.value for c in found.candidates}


@pytest.mark.parametrize("said", ["Suction seven bar and nine on the head.", "Fan 2 0 amps, fan 1 1.2 amps."])
def test_two_numbers_are_two(said: str) -> None:
    assert not [c for r in _find(said) for c in r.candidates if c.why.startswith("may be")]


def test_the_hour_and_more() -> None:
    times = [(r.value, r.unit) for r in _find("Milk went from 9 to 4.1 degrees in the hour and forty.")]
    assert (100, "min") in times
    assert (40, "degC") not in times


@pytest.mark.parametrize(
    "said",
    ["Ol' boy says it quit Saturday. Suction 60.", "That poor ol fan motor draws 2 amps, good ol' one."],
)
def test_old_is_no_open_circuit(said: str) -> None:
    assert not [r for r in _find(said) if r.state == "open"]


def test_a_meter_that_shows_ol() -> None:
    assert [r for r in _find("Motor windings, meter reads ol. Poor thing.") if r.state == "open"]


MISSED: list[tuple[str, float | None, str, str]] = [
    ("Vent air at minus six, and the box dropped to minus one in fifty minutes.", -1, "degF", "box"),
    ("Motor ohms 11.5. No leak to earth.", None, "ohm", "ground"),
    ("Compressor windings 2.4 ohms. Isn't showing any continuity to body.", None, "ohm", "common-ground"),
    ("R to Y 412 volts, Y to B 408, B to R 410.", 410, "V", "L1-L3"),
]


@pytest.mark.parametrize(("said", "value", "unit", "point"), MISSED, ids=[c[0][:30] for c in MISSED])
def test_what_was_missed(said: str, value: float | None, unit: str, point: str) -> None:
    assert (value, unit, point) in {(r.value, r.unit, r.point) for r in _find(said)}


@pytest.mark.parametrize(
    "said", ["Soaped the flare, no leak. Fan draws 2.4 amps.", "Swapped the bad one in fifty minutes."]
)
def test_no_value_at_all(said: str) -> None:
    assert {r.unit for r in _find(said)} <= {"A", "min"}


def _find(said: str) -> list[Reading]:
    return find(list(segments_of([said], "c1"))).readings


@pytest.mark.parametrize("word", ["going down nicely", "coming up slowly", "dropping down now"])
def test_a_probe_whose_value_moves_takes_nothing_back(word: str) -> None:
    """A probe that "is going down" has not slipped: what was read before it stands."""
    said = f"Suction sixty psi. Probe in a side of fish {word}, was four degrees, now one degree."
    readings = find(list(segments_of([said], "c1"))).readings
    assert (readings[0].value, readings[0].unit, readings[0].role) == (60.0, "psi", "measured")
    assert all(r.role != "retracted" for r in readings)
