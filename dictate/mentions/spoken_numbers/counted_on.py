"""Digits that count things over clauses, each with its value behind it: heaters, motors, sensors of a row.

    counted_on(narration, runs, known) -> {token of each such digit}

"One's over two hundred meg, two a hundred and eighty, three another one eighty. Four, nought point three."
Each digit opens a clause and is the next one; its value stands behind it, parted from it by little else than
a comma or an article. Where some are known, a digit right in front of its number is one as well, if what is
left is like the values before it: "three forty-seven nine, four was forty-nine, so it isn't broken. Five |
forty-eight four".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers.atoms import Atom, number_set
from dictate.mentions.spoken_numbers.segments import best_segments

_AFTER = 4
"""Words between a digit and its value at most."""
_NEAR = 26
"""Tokens from the value of one thing to the digit of the next at most."""
_LEAST, _LIKE = 3, 1.6
"""Things that are a row at least, and how many times their values may differ where nothing parts them."""
_OPENS = frozenset((".", ",", ";", ":", "?", "!", "and", "number"))
_NO_SPLIT = frozenset("PHK&MZ")


@dataclass(frozen=True, slots=True)
class _Item:
    token: int
    digit: int
    value: float
    parted: bool
    end: int


# Not one with `_numbered` in found.py, which needs no clause that opens but bears no gap either, nor with
# `_counted_off` in cuts.py, which needs no value of the items before: see the comment at `_numbered`.
def counted_on(narration: Narration, runs: Sequence[list[Atom]], known: set[int]) -> set[int]:
    """Return the digits that count things over several clauses; `known` are those of a list without gaps."""
    found: set[int] = set()
    row: list[_Item] = []
    for k in range(len(runs)):
        item = _item(narration.lowers, runs, k)
        if item is None or (row and item.digit == row[-1].digit):
            continue
        goes_on = bool(row) and item.digit == row[-1].digit + 1 and item.token - row[-1].end <= _NEAR
        sure = item.parted or item.token in known or (len(row) >= _LEAST and _like(row, item.value))
        if goes_on and sure:
            row.append(item)
        elif item.digit == 1 and (item.parted or item.token in known):
            found |= _settled(row)
            row = [item]
    return found | _settled(row)


def _settled(row: Sequence[_Item]) -> set[int]:
    return {i.token for i in row} if len(row) >= _LEAST else set()


def _like(row: Sequence[_Item], value: float) -> bool:
    middle = median(i.value for i in row)
    return middle > 0 and value > 0 and max(middle / value, value / middle) <= _LIKE


def _item(words: Sequence[str], runs: Sequence[list[Atom]], k: int) -> _Item | None:
    """Return a digit that opens a clause with the value behind it."""
    run, first = runs[k], runs[k][0]
    at = first.token
    digit = first.kind == "D" or (first.kind == "N" and first.value in range(1, 10))
    if not digit or first.value < 1 or (at and words[at - 1] not in _OPENS):
        return None
    if len(run) > 1:
        article = run[1].kind == "A"
        hundreds = (
            len(run) > 2 and run[1].kind == "D" and run[2].kind == "H"
        )  # "two | two hundred and ninety"
        own = article or hundreds
        rest = best_segments(run[2:] if article and run[2:3] and run[2].kind not in {"H", "K"} else run[1:])
        if run[1].kind in _NO_SPLIT or len(rest) != 1:
            return None
        return _Item(at, int(first.value), rest[0][1].value, own, run[-1].token + 1)
    if k + 1 == len(runs):
        return None
    behind = runs[k + 1]
    between = words[at + 1 : behind[0].token]
    if not 1 <= len(between) <= _AFTER or not set(between) <= number_set("counted_on", "between"):
        return None
    rest = best_segments(behind)
    if len(rest) != 1 or ("," in between and first.value <= rest[0][1].value <= first.value + 1):
        return None  # "one, two, three"; "one, one and a half, two" on a scale
    return _Item(at, int(first.value), rest[0][1].value, True, behind[-1].token + 1)


__all__ = ["counted_on"]
