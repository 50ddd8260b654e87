"""The spoken-number grammar: number words and digits of a narration, as numbers with token spans.

    find_numbers(narration) -> list[Number]

Every number is found here once, whatever it will turn out to be (a reading, a size, a part of a name); units
are joined in `quantities/`. What the trade says beyond a general number grammar:

* hundreds as pairs: "two fifty" 250, "one eighteen" 118, "two oh eight" 208, "twenty-four hundred" 2400,
  "eleven fifty" 1150 (integers.py);
* decimals digit by digit: "point eight" 0.8, "four point two five" 4.25, "one point oh five" 1.05
  (segments.py);
* fractions: "two and a half" 2.5, "one and an eighth" 1.125, "three eighths" 0.375, "2 1/2", "7/8", "2½"
  (segments.py);
* single digits: "four oh four" 404; two digits alone ("six eight") can mean 6.8 or 68, so both are kept
  (integers.py);
* a recogniser's writing: "200 and 8" is 208, "2 50" may be 250 (integers.py);
* "leg two one eighteen" is leg two, then 118; "that one two oh eight" is 208 (cuts.py).

A form with more than one reading keeps the others in `alternatives`, each with a plain reason. Words that
only sound like numbers ("to", "for", "ate") are never numbers here; `quantities/` knows the few places in
which they may be, and flags them.
"""

from dictate.mentions.spoken_numbers.found import (
    find_numbers,
    names_with_a_digit,
    numbers_by_end,
    numbers_by_start,
    parse,
)
from dictate.mentions.spoken_numbers.number import Number, Other

__all__ = [
    "Number",
    "Other",
    "find_numbers",
    "names_with_a_digit",
    "numbers_by_end",
    "numbers_by_start",
    "parse",
]
