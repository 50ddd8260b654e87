"""Pins of a motor for what was read from all of them to the shell: common, run and start, in this order.

    settle_grounds(found, words)

"All three terminals to the shell, OL" behind the windings of a compressor is one reading a pin.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import MOTORS, Found
from dictate.mentions.word_lists import word_list

_PAIRS = frozenset({"common-run", "common-start", "run-start"})
_PINS = ("common-ground", "run-ground", "start-ground")


def settle_grounds(found: Found, words: Sequence[str]) -> None:
    """Give three readings to the shell in a row their pins, in place."""
    ohms = [t for t in found.readings if t.reading.quantity == "resistance"]
    wound = False
    for i, t in enumerate(ohms):
        wound = wound or t.reading.point in _PAIRS
        row = ohms[i : i + 3]
        if not wound or len(row) < 3:
            continue
        if any(
            x.reading.point not in {None, "ground"}
            or x.reading.component not in MOTORS
            or x.sentence != t.sentence
            or (x.reading.state != "open" and (x.reading.value or 0) < 20_000)
            for x in row
        ):
            continue
        if i and ohms[i - 1].sentence == t.sentence and ohms[i - 1].reading.point == t.reading.point:
            continue
        near = set(words[max(0, t.start - 9) : row[-1].end + 6])
        pins = word_list("new_one_pins") | word_list("new_one_every")
        if pins & near and (word_list("values_ground") | word_list("new_one_shell")) & near:
            for x, pin in zip(row, _PINS, strict=True):
                x.reading.point = pin


__all__ = ["settle_grounds"]
