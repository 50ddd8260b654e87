"""Values taken back with a tale of the meter, with a word behind the repair, or told to somebody else first."""

from __future__ import annotations

import pytest

from tests.mentions.case_files import readings

TAKEN_BACK = [
    # a word behind the repair
    ("Low side 2.3 bar, high side eleven, ach, twelve I mean. Superheat I did not take.", [11], [2.3, 12]),
    ("Outside is two, minus two I should say. Two thirty-four on the mains.", [2], [-2, 234]),
    ("Line side 118, make it 119 I mean, load side 117.", [118], [119, 117]),
    ("Box was 41, 40 I meant to say. Suction 22.", [41], [40, 22]),
    # how it came to be misread
    ("Checked the hot tank element, 92 ohms, I flipped that, 29.", [92], [29]),
    ("I had nine point four amps but the wire was round the clamp twice, so halve that, four point seven.",
     [9.4], [4.7]),
    ("Compressor came up fifty-two, wrong range on the clamp, it takes five point two.", [52], [5.2]),
    ("Compressor, 12.8 amps... hang on, I got both wires in the jaws. Compressor by itself is 11.6.",
     [12.8], [11.6]),
    ("Fan amps 1.8, both legs in the jaws, 0.9 really.", [1.8], [0.9]),
    ("Harvest took 2 minutes 10, started the watch late, 2 minutes 30.", [2.1667], [2.5]),
    ("210 parts per million on the hardness strip, no, a hundred and ten, I'm looking at the wrong color.",
     [210], [110]),
    ("A to B 207, B to C 209, A to C 201. Let me see that again. No, 211 on A to C, I had a bad bite.",
     [201], [207, 209, 211]),
    # named by its number, or told to somebody
    ("Ambient twenty-four. Head 9.3 bar. One thing, scrap that ambient of 24, I'd copied Friday's. It's 21.",
     [24, 24], [9.3, 21]),
    ("Six point four amps now. I told the cook six point six, it's six point four.", [6.6], [6.4, 6.4]),
    ("Suction 2.1 bar, so 3.4 bar. No weight, don't write 3.4, the chart is in absolute, it's 2.4 on the gauge.",
     [3.4, 3.4], [2.1, 2.4]),
    ("Box was fourteen by my probe. Head 210. Did I say fourteen at the start? It was sixteen.",
     [14, 14], [210, 16]),
    ("Did I say 38 on the suction? It's 58.", [38], [58]),
    ("Freeze time 26 minutes. 22, sorry, I started the watch late.", [26], [22]),
    ("I'd seen 24 volts at the coil, well, 26.2 to be exact about it, and nothing moving.", [24], [26.2]),
    ("Two thirty volt, no, scratch that, one fifteen volts, the two thirty was the other box on the shelf.",
     [230, 230], []),
    ("There's 117 volts on its plug. I wrote 117 on the work order and that was the lights circuit, the fan "
     "plug is 119.", [117], [119]),
    ("Vacuum came down to sixty microns. I keep doing that, this gauge reads pascal, so sixty pascal. It crept "
     "to seventy-two microns.", [60], [60, 72]),
    ("Suction 4 psi, no that should be 4 bar. Head 16 bar.", [4], [4, 16]),
    # a break in the words, with a reason to look
    ("Compressor ohms 3.1, jeez, 2.1.", [3.1], [2.1]),
]  # fmt: skip

STAYS = [
    # a name or a turn is put right, and no value
    ("79 in and 41 out at the drier I mean, so that's 38 degrees across a drier.", [79, 41, 38]),
    ("Superheat 14 to begin with, turned the TXV in an eighth, sorry out an eighth, 9 now.", [14, 9]),
    ("118 at the left heater, I mean the right heater, and 4.5 amps.", [118, 4.5]),
    # two tries, each read what it read
    ("First attempt it stopped at 800 microns, hose was loose. Second attempt it got to 350.", [800, 350]),
    ("First try it hung up at 900 microns, gauge hose was loose. Second go got to 390 microns.", [900, 390]),
    ("The fan pulls 2.1 amps, 2.3 amps. Those were old shaded pole motors.", [2.1, 2.3]),
    ("I said nine volts on that clip, well it's fifteen hundredths now. Head 380.", [9, 380]),
    ("Superheat 14, a half turn open, wait ten minutes, 11.", [14, 11]),
    ("Box 38 and still coming down, 36 by the time I left.", [38, 36]),
]


@pytest.mark.parametrize(("text", "back", "stand"), TAKEN_BACK)
def test_misread_and_mended(text: str, back: list[float], stand: list[float]) -> None:
    found = readings(text)
    assert [round(r.value, 4) for r in found if r.role == "retracted"] == back
    assert [r.value for r in found if r.role == "measured"] == stand


@pytest.mark.parametrize(("text", "stand"), STAYS)
def test_only_words_are_mended(text: str, stand: list[float]) -> None:
    assert [r.value for r in readings(text) if r.role == "measured"] == stand
