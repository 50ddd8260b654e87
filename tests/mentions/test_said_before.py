"""Values whose quantity was said before them: announced in a sentence, by the battery, the pump, the row.

A row is the narration and its readings, "value unit | quantity, component, point or role", in any order.
What each thing is measured in is common practice.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings, short

ROWS = [
    ("Load side of the disconnect. A to B two eleven. B to C, ninety-four. A to C, one oh nine.", ["211 V|L1-L2", "94 V|L2-L3", "109 V|L1-L3"]),
    ("At the contactor, A to B four eighty, B to C four seventy-eight, A to C four eighty-one.", ["480 V", "478 V", "481 V"]),
    ("Voltage at the unit, A to B 208, B to C 0, C to A 110.", ["208 V", "0 V", "110 V"]),
    ("Fuses: A is point one ohms, B point one, C is open.", ["0.1 ohm", "0.1 ohm", "open ohm"]),
    ("Leg A two ohms.", ["2 ohm"]),
    ("Took the leads off the compressor. One point four, one point four, one point four as well.", ["1.4 ohm", "1.4 ohm", "1.4 ohm"]),
    ("Pulled the wires at the compressor. 0.9, 0.9, 1.0. All three to the shell open.", ["0.9 ohm", "0.9 ohm", "1 ohm", "open ohm", "open ohm", "open ohm"]),
    ("Compressor ohms next, leads off. Two point one, two point one, two point two.", ["2.1 ohm", "2.1 ohm", "2.2 ohm"]),
    ("Compressor amps. Sixty-four, sixty-four, sixty-six.", ["64 A", "64 A", "66 A"]),
    ("Supply brine seventeen, return nineteen and a half. Discharge one eighty-eight degrees. Compressor one motor, all three legs. Sixty-four, sixty-four, sixty-six.", ["17 degF", "19.5 degF", "188 degF", "64 A", "64 A", "66 A"]),
    ("Pump on the brine, twenty-six pounds in, fifty-one out, so twenty-five across it.", ["26 psi", "51 psi", "25 psi"]),
    ("Glycol pump is 18 pounds in and 44 out.", ["18 psi", "44 psi"]),
    ("Stood it at one fifty of nitrogen for thirty minutes and it came back one fifty.", ["150 psi", "30 min", "150 psi"]),
    ("Put two hundred of nitrogen on it at ten, came back after lunch to two hundred.", ["200 psi", "200 psi"]),
    ("Salmon was at 45 when I got here.", ["45 degF"]),
    ("Soup's fine, pasta is at 39, the tuna is 44.", ["39 degF", "44 degF"]),
    ("Gelato: lemon's at thirty, chocolate is at eight.", ["30 degF", "8 degF"]),
    ("Milk's at forty-four, juice is at forty.", ["44 degF", "40 degF"]),
    ("Box is at 38 but the chicken is at 47.", ["38 degF", "47 degF"]),
    ("Went round with the detector first, 0.", ["0 ppm"]),
    ("Leak detector on every joint, zero.", ["0 ppm"]),
    ("The room's hung up at fifty-one.", ["51 degF"]),
    ("Box has been stuck at 45 since Sunday.", ["45 degF"]),
    ("Casing is at forty-one degrees C. Suction 0.4 bar. Compressor casing is at fifty-eight.", ["41 degC", "0.4 bar", "58 degC"]),
    ("Battery with the motor off was twelve point six. Running it goes to fourteen point one.", ["12.6 V", "14.1 V"]),
    ("Battery twelve four, engine on thirteen nine.", ["12.4 V", "13.9 V"]),
    ("Battery's at twelve two at rest, fourteen point two with her running.", ["12.2 V", "14.2 V"]),
    ("Sensor reads fifty, make it fifteen K at room temperature.", ["15000 ohm"]),
    ("Loop in 84, out 94.", ["84 degF", "94 degF"]),
    ("Head 256, suction 71. Loop in 84, out 94.", ["256 psi", "71 psi", "84 degF", "94 degF"]),
    ("Condenser water in 85, out 95.", ["85 degF", "95 degF"]),
    ("Box was 50, after an hour forty one, two hours thirty seven.", ["50 degF", "41 degF", "37 degF"]),
    ("Fan amps: one is one point two, two is one point three, three is nothing.", ["1.2 A", "1.3 A", "0 A"]),
    ("Heaters, ohms. One is one seventy two, two one seventy four, three open, four one seventy one.", ["172 ohm", "174 ohm", "open ohm", "171 ohm"]),
    ("Supply: L1 three ninety-nine, L2 four hundred and one, L3 three ninety-eight volts.", ["399 V", "401 V", "398 V"]),
    ("Volts on L1, L2, L3: L3 three ninety-eight.", ["398 V|L3"]),
]  # fmt: skip


@pytest.mark.parametrize(("text", "wanted"), ROWS, ids=lambda x: x[:60] if isinstance(x, str) else "")
def test_row(text: str, wanted: list[str]) -> None:
    """The readings of a row, and no other."""
    left = readings(text)
    said = "\n".join(short(r) for r in left)
    for want in wanted:
        amount, *more = want.split("|")
        value, unit = amount.split()
        hit = next(
            (
                r
                for r in left
                if r.unit == unit
                and (r.state == "open" if value == "open" else r.value == pytest.approx(float(value)))
                and set(more) <= {r.quantity, r.component, r.point, r.role}
            ),
            None,
        )
        assert hit is not None, f"{want}\n{said}"
        left.remove(hit)
    assert not left, said
