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
    ("Banana room three, it's stuck at sixty-four.", ["64 degF"]),
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
    ("Checked the supply at the isolator. A to B four sixty, B to C two thirty, A to C two twenty-eight.", ["460 V", "230 V", "228 V"]),
    ("Contactor load side, A to B 239, B to C 241, A to C 240.", ["239 V", "241 V", "240 V"]),
    ("At the fuses, A to B two oh eight, B to C one oh four, C to A one oh five.", ["208 V", "104 V", "105 V"]),
    ("Fuse A point one ohms, fuse B point one, fuse C is open.", ["0.1 ohm", "0.1 ohm", "open ohm"]),
    ("Fuse B point three ohms.", ["0.3 ohm"]),
    ("Lifted the wires off the pump motor. Six point one, six point two, six point one.", ["6.1 ohm", "6.2 ohm", "6.1 ohm"]),
    ("Heater ohms. Twenty-four, twenty-five, twenty-four.", ["24 ohm", "25 ohm", "24 ohm"]),
    ("Amperage on the condenser fans. One point two, one point one.", ["1.2 A", "1.1 A"]),
    ("Fan amps now. Point six, point six, zero.", ["0.6 A", "0.6 A", "0 A"]),
    ("Voltage at the panel. Two thirty-nine, two forty, two forty-one.", ["239 V", "240 V", "241 V"]),
    ("Compressor one legs: thirty-one, thirty-two, thirty-one amps. Compressor two. Thirty-three, thirty-two, thirty-three.", ["31 A", "32 A", "31 A", "33 A", "32 A", "33 A"]),
    ("Box 36. Compressor amps. Eleven two, eleven four, eleven three.", ["36 degF", "11.2 A", "11.4 A", "11.3 A"]),
    ("Condenser water pump has nineteen pounds in and forty-two out.", ["19 psi", "42 psi"]),
    ("Chilled water pump, 12 psi in, 38 out, 26 across.", ["12 psi", "38 psi", "26 psi"]),
    ("Glycol pump, fifteen pounds in, thirty-six out, twenty-one across it.", ["15 psi", "36 psi", "21 psi"]),
    ("Hydronic loop on the heat pump: suction 8.2 bar, flow thirty-five, return thirty.", ["8.2 bar", "35 degC|supply", "30 degC|return"]),
    ("Suction six bar. Flow was forty-two, return thirty-six.", ["6 bar", "42 degC", "36 degC"]),
    ("Pork was at 44 and the beef at 46.", ["44 degF", "46 degF"]),
    ("Prep table, mozzarella's at 47, sauce is 45, lettuce 43.", ["47 degF", "45 degF", "43 degF"]),
    ("Ice cream shop, mango's at six, pistachio is at four.", ["6 degF", "4 degF"]),
    ("Potato salad at 41, coleslaw at 40.", ["41 degF", "40 degF"]),
    ("Lobster tank is at 52.", ["52 degF"]),
    ("Sniffed the coil with the detector, 0.", ["0 ppm"]),
    ("Detector shows zero in the room.", ["0 ppm"]),
    ("Detector was quiet, suction 22.", ["22 psi"]),
    ("The walk-in's been stuck at fifty-two since noon.", ["52 degF"]),
    ("Room four, they've been sitting at forty-seven.", ["47 degF"]),
    ("Battery was at twelve point three, running thirteen point eight.", ["12.3 V", "13.8 V"]),
    ("Truck battery reads twelve point four with the engine off, fourteen point three running.", ["12.4 V", "14.3 V"]),
    ("Battery eleven point nine at rest. Clutch pulls three point eight amps.", ["11.9 V", "3.8 A"]),
    ("Battery twelve five. Blower motor eleven amps.", ["12.5 V", "11 A"]),
    ("Standby battery twenty-five point two, charging twenty-seven point six.", ["25.2 V", "27.6 V"]),
    ("Loop in 62, loop out 54.", ["62 degF", "54 degF"]),
    ("Water source unit, loop in seventy-one, out seventy-nine.", ["71 degF", "79 degF"]),
    ("Tower in 95, tower out 85.", ["95 degF", "85 degF"]),
    ("Box was 48, after an hour thirty-nine.", ["48 degF", "39 degF"]),
    ("Box was 55, after two hours forty-two.", ["55 degF", "42 degF"]),
    ("Defrost heaters. One is eighteen ohms, two eighteen point two, three open.", ["18 ohm", "18.2 ohm", "open ohm"]),
    ("Sensors in ohms. One is 5020, two is 4980, three is 5100.", ["5020 ohm", "4980 ohm", "5100 ohm"]),
    ("Fans, amps. One is point five, two point five, three zero.", ["0.5 A", "0.5 A", "0 A"]),
    ("All three to ground, over five hundred megohms.", ["500000000 ohm", "500000000 ohm", "500000000 ohm"]),
    ("Compressor casing's at ninety-five.", ["95 degF"]),
    ("Dipping cabinet, left holes at minus six, right holes at minus four.", ["-6 degF", "-4 degF"]),
    ("Kimchi fridge, left chamber at minus one, right chamber at plus one. Suction 0.2 bar.", ["-1 degC", "1 degC", "0.2 bar"]),
    ("Their alarm logged fifty-one overnight.", ["51 degF"]),
    ("Compressor runs at sixty amps. Sixty-one, sixty, sixty-two on the legs.", ["60 A", "61 A", "60 A", "62 A"]),
    ("Took the plug off the solenoid. Three ninety.", ["390 ohm"]),
    ("Pulled the leads off the defrost heater. Thirty-one point five.", ["31.5 ohm"]),
    ("Unhooked the compressor. Windings: one point one, one point one, one point two.", ["1.1 ohm", "1.1 ohm", "1.2 ohm"]),
    ("Pulled the gauges off. Box was thirty-six, coil twenty-eight.", ["36 degF", "28 degF"]),
    ("Pulled the cover off. Thirty-six in the box.", ["36 degF"]),
    ("Leg A six point one amps, B six point two, C six point one.", ["6.1 A", "6.2 A", "6.1 A"]),
    ("Set point is thirty-four, it's hung up at forty-three.", ["34 degF", "43 degF"]),
    ("Amps on the compressors. Number one forty-one, number two forty, number three forty-two.", ["41 A", "40 A", "42 A"]),
    ("All three to earth, more than 200 megohms.", ["200000000 ohm", "200000000 ohm", "200000000 ohm"]),
    ("Pulled the plug on the freezer. Box was 12.", ["12 degF"]),
    ("Pulled the plug on the compressor. Forty minutes later, box 20.", ["20 degF"]),
    ("Suction 68 psi. Room three, 38. Room four, 41.", ["68 psi", "38 degF", "41 degF"]),
    ("Fan amps. One is point eight, two point nine, three point eight, four zero.", ["0.8 A", "0.9 A", "0.8 A", "0 A"]),
    ("Fan one two point five amps, fan two two point six.", ["2.5 A", "2.6 A"]),
    ("One is 1.2 amps, two 1.3, three 1.2.", ["1.2 A", "1.3 A", "1.2 A"]),
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
