"""Which quantity a number without a unit has, by the frame of the words around it and by its size.

Supply voltages of North America: ANSI C84.1 (120, 208, 240, 480 V), elsewhere IEC 60038 (230, 400 V); that a motor
of this trade draws less than 100 A and a control transformer gives 24 V is common practice.
"""

from __future__ import annotations

import pytest

from dictate.pipeline import read_text

VALUES = [
    ("Transformer: one eighteen going in, twenty six on the other side.", "118 V primary, 26 V secondary"),
    ("One eighteen into the transformer, twenty six on the other side.", "118 V primary, 26 V secondary"),
    ("Transformer has 121 in, 27 out the other end.", "121 V primary, 27 V secondary"),
    ("Four cords at the terminal board. One nineteen going in, one nineteen coming out.", "119 V line, 119 V load"),
    ("Compressor 71 amps for four seconds, then off. Two thirty six before, two eleven during.",
     "71 A -, 236 V -, 211 V -"),
    ("Compressor locks at sixty amps. Two forty one before it starts, two nineteen while it tries.",
     "60 A -, 241 V -, 219 V -"),
    ("Fan motor drew 0.8 amps. Supply was one nineteen at rest and one oh four under load.",
     "0.8 A -, 119 V -, 104 V -"),
    ("Reversing valve coil is 15 ohms. With the plug on it had twenty seven on it.", "15 ohm -, 27 V -"),
    ("Heater is forty ohms. It has two oh eight on it.", "40 ohm -, 208 V -"),
    ("Chiller. Discharge 240, glycol in 34, out 28.", "240 psi discharge, 34 degF return, 28 degF supply"),
    ("Compressor starts, peaks at twenty six, settles to seven point one.", "26 A -, 7.1 A -"),
    ("Compressor pulls thirty for a second and drops back to six point one.", "30 A -, 6.1 A -"),
    ("Compressor amps: L1 fourteen flat, L2 fourteen two, L3 fourteen even.", "14 A L1, 14.2 A L2, 14 A L3"),
    ("Opened the valve one flat and superheat came to eight.", "8 delta_degF -"),
    ("Interstage suction eighteen. Box minus forty Celsius, shelf minus forty two Celsius. Cord two oh five.",
     "18 psi suction, -40 degC box, -42 degC box, 205 V line"),
    ("Box is at forty. Here two fifteen till a quarter past three.", "40 degF box"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "wanted"), VALUES)
def test_quantity_of_a_bare_number(text: str, wanted: str) -> None:
    """Each value with its unit and point, in order."""
    found = [f"{r.value:g} {r.unit} {r.point or '-'}" for r in read_text(text).readings]
    assert ", ".join(found) == wanted


@pytest.mark.parametrize(
    ("text", "volts"),
    [
        ("Two oh eight three phase unit, compressor trips.", 208),
        ("It's a four eighty three phase job.", 480),
        ("Two thirty single phase, cord connected.", 230),
        ("Condensing unit, 460 three phase, R four oh four A.", 460),
    ],
)
def test_volts_with_their_phases_are_what_the_machine_is_made_for(text: str, volts: int) -> None:
    """No reading of a meter: the role is rated, and the digit of the phases is no digit of the volts."""
    (reading,) = read_text(text).readings
    assert (reading.value, reading.unit, reading.role) == (volts, "V", "rated")


def test_no_ohms_are_read_on_a_live_circuit() -> None:
    """Common practice: windings are measured dead; a bare value after the power came back is asked about."""
    last = read_text("Fan winding eleven ohms. Power back on, one point one now.").readings[-1]
    assert (last.value, last.unit) == (1.1, "A")
    assert last.review
