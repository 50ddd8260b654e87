"""Ways to say what the electrical checks need: what is open, what is grounded, what is lost across a pole."""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

OPEN = [
    "Ohmed the three heaters, first nineteen, second nineteen two, third is wide open.",
    "Left element is 14.4 ohms and the right hand one is wide open.",
    "Two heaters at forty ohms and the last one open.",
    "Checked the coil and it's completely open.",
    "Relay coil came up open.",
    "The hot gas valve coil is dead open.",
    "Door frame heater, no reading on the ohm scale.",
    "Contactor coil out of circuit: no continuity.",
    "That harvest valve coil read wide open.",
]
GROUNDED = [
    "Compressor, run to ground, half an ohm.",
    "Compressor, T1 to the shell I get 2.2 ohms flat.",
    "Compressor. Terminals one and two to the shell both clear, terminal three twelve K.",
    "Twenty-six ohms through the second fan motor and point eight to the case, so it is grounded.",
    "Condenser fan motor to the frame, four ohms.",
    "Any pin of the compressor to copper gives me five ohms.",
    "Compressor windings to ground read 40 ohms.",
]
LOST = [
    "Put the leads across pole 3 with it closed, 44 volts. Line is 478.",
    "Direct over the poles. Pole one, nought point one volt. Pole two, nought point two. Pole three, thirty-eight.",
    "Contactor pulled in, L1 to T1 fourteen volts, L2 to T2 point two. Line two oh eight.",
    "Across the pole with it running, twelve volts, line is 230.",
    "Across the closed contacts L1 to T1 I get nine volts. Line is 208.",
]


def _raised(text: str) -> set[str]:
    return {c.rule for c in read_text(text).checks if c.outcome in ("problem", "unsure")}


@pytest.mark.parametrize("text", OPEN)
def test_open_coils(text: str) -> None:
    assert "coil.open" in _raised(text)


@pytest.mark.parametrize("text", GROUNDED)
def test_grounds(text: str) -> None:
    assert "winding.grounded" in _raised(text)


@pytest.mark.parametrize("text", LOST)
def test_volts_lost_across_a_pole(text: str) -> None:
    assert "contactor.voltage-drop" in _raised(text)


@pytest.mark.parametrize(
    "text",
    [
        "The expansion valve is wide open and still starving.",
        "The door was wide open when I got there.",
        "The valve was stuck wide open.",
        "The solenoid valve is open when energized.",
        "Twenty five point five at the coil open and twenty four point eight pulled in.",
        "Compressor windings two point one ohms, nothing to ground.",
        "Twenty six volts across the contactor coil.",
        "Across the contacts point one, line is 230.",
    ],
)
def test_what_is_none_of_them(text: str) -> None:
    assert not _raised(text) & {"coil.open", "winding.grounded", "contactor.voltage-drop"}
