"""Amounts with which their sum is told: "Eight ounces. Eleven more, nineteen. Six, twenty-five".

The second number of each pair is the sum so far, which the first one proves: the last sum is what moved. Of
parts that are told on the way nothing is counted twice.
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.spoken_numbers import Number
from dictate.vocabulary.load import word_set

_REACH = 40
"""Words behind an amount in which its sums are told."""
_OFF = 1e-6


def with_running_sums(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Put the last sum in the place of the amounts that lead to it."""
    out: list[Mass] = []
    for mass in moved:
        last = out[-1] if out else None
        if last is not None and mass.start < last.end and mass.kind == last.kind:
            continue  # a part of the sum before it
        found = _last_sum(talk, mass)
        if found is not None:
            mass.value, mass.end = found
        out.append(mass)
    return out


def _last_sum(talk: Talk, mass: Mass) -> tuple[float, int] | None:
    """Return the last of the sums behind an amount, in its unit, and where it ends."""
    so_far, end, links = mass.value, mass.end, 0
    numbers = [n for n in talk.numbers_in(end, end + _REACH) if not n.pronoun]
    for part, whole in zip(numbers[::2], numbers[1::2], strict=False):
        told = _leads(talk, end, part) and _leads(talk, _behind(talk, part), whole)
        if not told or part.value <= 0 or abs(so_far + part.value - whole.value) > _OFF * whole.value:
            break
        so_far, end, links = whole.value, _behind(talk, whole), links + 1
    return (so_far, end) if links else None


def _behind(talk: Talk, number: Number) -> int:
    return talk.w.word_of_token(number.end)


def _leads(talk: Talk, end: int, number: Number) -> bool:
    """Tell whether only small words stand between two numbers of a sum: "more,", ". And"."""
    return set(talk.words[end : talk.w.word_of_token(number.start)]) <= word_set("between_sums")


__all__ = ["with_running_sums"]
