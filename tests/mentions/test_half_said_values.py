"""Values said by halves: units left out of the smaller part, rows that begin with a count, rates, meters named.

Every row is a narration and its readings, and no other; common practice, from memory.
"""

from __future__ import annotations

import pytest

from tests.mentions.case_files import assert_row

ROWS: list[tuple[str, ...]] = [
    ("Heaters running: six, six point two, six on the three legs.", "6 A|L1", "6.2 A|L2", "6 A|L3"),
    ("Defrost on: eight, eight point one, eight on the legs.", "8 A|L1", "8.1 A|L2", "8 A|L3"),
    # a value said again, with its point
    ("Compressor at point eight of an amp, make that point nine.", "0.8 A|retracted", "0.9 A"),
    ("Fan draws point five amps, call that point six.", "0.5 A", "0.6 A"),
    # what a part may draw
    ("Blower is drawing three point six of its four point one amps.", "3.6 A|measured", "4.1 A|rated"),
    ("Condenser fan one point one out of one point five amps.", "1.1 A|measured", "1.5 A|rated"),
    ("Two of its fans pull two amps.", "2 A|measured"),
    # so much in each stretch of time is a change; an hour later is a level
    ("Minus eleven Celsius at the probe, falling three degrees every ten minutes.", "-11 degC", "3 delta_degC"),
    ("Box at forty and dropping two degrees every five minutes.", "40 degF", "2 delta_degF"),
    # times of the machine
    ("It was quitting after nine minutes when it's set up for thirty.", "9 min"),
    ("Compressor was cutting out after four minutes.", "4 min"),
    ("Short cycling. She ran a bit, off for about three minutes, ran forty again.", "3 min"),
    ("Blast chiller, a real batch, core probe 72 Celsius at the start, 3 degrees after 81 minutes.", "72 degC", "3 degC", "81 min"),
    ("Box 38 degrees after twenty minutes.", "38 degF"),
    # the smaller unit left out
    ("Plate one kilo eight hundred.", "1.8 kg|rated"),
    ("Nameplate says one kilo fifty.", "1.05 kg|rated"),
    ("Bridge was an eighth.", "0.125 in"),
    ("Ice bridge is three sixteenths now.", "0.1875 in"),
    ("Fans are two tenths of amp.", "0.2 A"),
    # pounds and inches of a gauge
    ("It pumps down to five pounds and shuts off.", "5 psi"),
    ("Drew it to ten inches with the recovery machine.", "10 inHg"),
    ("Suction side 60, high side 210, and 118 volts at the outlet.", "60 psi", "210 psi", "118 V"),
    ("In August the log had two oh two and two ten for the discharges.", "202 psi|earlier", "210 psi|earlier"),
    (
        "Gauges had 71 on the suction and 238 on the liquid. Running on it now: 91 and 308. Subcooling 9.",
        "71 psi|suction", "238 psi|liquid", "91 psi|suction", "308 psi|liquid", "9 delta_degF",
    ),
    # ends of a filter, speeds, a level met in a time
    (
        "58 psi in front of the filter and 21 behind. Changed the cartridge. 57 before it, 52 after.",
        "58 psi", "21 psi", "57 psi", "52 psi",
    ),
    (
        "Water was 2.8 bar ahead of the strainer, 0.6 behind it. Cleaned it. 2.8 before the strainer, 2.6 after.",
        "2.8 bar", "0.6 bar", "2.8 bar", "2.6 bar",
    ),
    ("Blower made 900 RPM where the tag has 1075. Fixed it, it's turning ten sixty.", "900 rpm", "1075 rpm|rated", "1060 rpm"),
    ("Fan should do better, it's turning 840.", "840 rpm"),
    ("Left barrel hit 27 degrees in 35 minutes and the right one 28.", "27 degF", "35 min", "28 degF"),
    ("First freeze left 9 minutes, right one took 8 and a half.", "9 min", "8.5 min"),
    # legs of a supply that is off are dead, whatever "nothing to ground" is of windings
    ("Killed the breaker, put the meter on the board, both legs to ground and to each other, and had nothing.", "0 V|L1", "0 V|L2", "0 V|L1-L2"),
    ("Disconnect pulled. Meter leg to leg and each leg to ground, nothing.", "0 V", "0 V|L1-L2"),
    ("Breaker off. Checked leg to ground on all three legs, nothing.", "0 V|L1", "0 V|L2", "0 V|L3"),
    # so much less than the plate is no plate
    ("Recovered five pounds, that's two pounds short of the plate.",),
    # volts lost across contacts, read again once these were changed; a pause while a pressure stands
    (
        "Voltage drop was 0.3 on pole one and 5 on pole two. Changed the contactor, now 0.1 and 0.2.",
        "0.3 V|L1", "5 V|L2", "0.1 V|voltage|L1", "0.2 V|voltage|L2",
    ),
    (
        "Drop across the contacts 0.2 volts and 3 volts. Changed it, now 0.5 and 0.6 amps on the fans.",
        "0.2 V", "3 V", "0.5 A", "0.6 A",
    ),
    ("Pressurized to 250, shut the bottle, came back from lunch 45 minutes later, 250.", "250 psi", "45 min", "250 psi"),
    ("Drove 45 minutes, 250 psi on arrival.", "250 psi"),
    # a meter named with the state; without one it is the step alone
    ("I locked the fan disconnect out, proved it dead with my meter.", "0 V"),
    ("Breaker off, checked the fan leads dead with the meter, and swapped the motor.", "0 V"),
    ("Isolator off, padlocked, proved dead with the tester, nought across the lot.", "0 V"),
    ("Isolated and proved dead.",),
    (
        "Compressor: C to R 1.1, C to S 3.2, nothing to ground, OL on all three.",
        "1.1 ohm|common-run", "3.2 ohm|common-start", "open ohm|common-ground", "open ohm|run-ground",
        "open ohm|start-ground",
    ),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r[0])
def test_readings(row: tuple[str, ...]) -> None:
    """The readings of a row, and no other."""
    assert_row(row)
