"""Pins of a motor for what was read from them to the shell.

    settle_grounds(found, words)

"All three terminals to the shell, OL" behind the windings of a compressor is one reading a pin: common,
run and start, in this order. "Start winding reads ninety ohms to ground" was read from start to the shell,
not along the winding.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.whose.taken import MOTORS, Found
from dictate.mentions.word_lists import word_list

_PAIRS = frozenset({"common-run", "common-start", "run-start"})
_PINS = ("common-ground", "run-ground", "start-ground")
_OF_A_WINDING = {"common-run": "run-ground", "common-start": "start-ground"}
"""The pin that a winding named by one word has at its own end."""
_NEAR = 8
"""Tokens before a value in which its winding is named."""


def settle_grounds(found: Found, words: Sequence[str]) -> None:
    """Give readings to the shell the pins that they were read from, in place."""
    ohms = [t for t in found.readings if t.reading.quantity == "resistance"]
    for t in ohms:
        pin = _OF_A_WINDING.get(t.reading.point or "")
        if pin is not None and _behind_it_the_shell(words, t.end) and not _of_two(words, t.start):
            t.reading.point = pin
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


def _behind_it_the_shell(words: Sequence[str], end: int) -> bool:
    """Tell whether "to ground", "to the shell" stands right behind a value."""
    behind = [w for w in words[end : end + 4] if w not in word_list("values_ground_articles")]
    return behind[:1] == ["to"] and behind[1:2] != [] and behind[1] in word_list("values_ground")


def _of_two(words: Sequence[str], start: int) -> bool:
    """Tell whether both ends of a winding are named before a value: "common to run forty ohms to earth"."""
    named = {w for w in words[max(0, start - _NEAR) : start] if w in ("c", "common", "to")}
    return "to" in named and len(named) > 1


__all__ = ["settle_grounds"]
