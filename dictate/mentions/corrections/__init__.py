"""What the speaker took back, with the value he took back kept as `retracted`: `corrector.correct`.

Shapes that are known, and where:

* restart: "six eight, no wait, seven eight", "208, make that 218", "eighteen, I mean twenty-eight"
  (neighbours.py; between.py tells whether the words between say so; replaced.py does it; adopted.py where
  only one of the two was taken for a value);
* the unit alone: "forty psi, I mean inches", "4.7 ohms, correction, kilohms" (units_and_places.py);
* the place alone: "208 on the line side, sorry, load side" (units_and_places.py);
* the last digits alone: "two oh eight, no, oh seven" is 207; "118, sorry, 19" may be 119 or 19, so both are
  kept (replaced.py);
* a denial: "208, not 280" (denials.py);
* a wrong instrument noticed afterwards: "..., I was reading the wrong ring", with the right value beside it
  (mistakes.py);
* the value named again with the story of its slip, often several values later: "red was me clamping two
  cables, it's 7.1" (excused.py);
* a later sentence: "correction on the head pressure, that was 230" (by_name.py), "I said nine ounces before,
  it was eight" (recalls.py, named_by_number.py), two that stand for each other (swaps.py), several at once
  (sets.py); back.py joins these, differences.py doubts what was reckoned with them.

The repair takes label, place and unit of what it repairs, unless it brings its own.
"""
