"""Names of a letter and a digit in front of a value: "A one twenty-two amps, A two twenty-one and a half".

    lettered_names(narration, runs) -> {first token of the digit}

The compressors of two circuits are called so, and a value right behind such a name reads as hundreds. It is
a name where its brothers show it: another digit with the same letter, or the same digit with another one,
that has no number behind it ("A one pulls twenty-two") or a value that is alike without the digit only.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers.atoms import Atom, number_set
from dictate.mentions.spoken_numbers.segments import best_segments

_MOST = 4
"""Digits up to which the things of a letter are counted."""
_NEAR = 60
"""Tokens within which a row of such names has its first two."""
_ALIKE = 1.5


@dataclass(frozen=True, slots=True)
class _Name:
    """A letter and a digit, and what the number behind is without the digit.

    `of_amps` when the value can hardly be volts: phase B's hundred volts are told so too, but no tenths.
    """

    letter: str
    digit: int
    at: int
    value: float = 0.0
    of_amps: bool = False


def lettered_names(narration: Narration, runs: Sequence[list[Atom]]) -> set[int]:
    """Return the digits of names of a letter and a digit that stand in front of a value."""
    found = [n for run in runs if (n := _name(narration, run)) is not None]
    if len(found) < 2:
        return set()
    plain = any(not n.value for n in found)  # one of the row is said without a number behind it
    return {n.at for n in found if n.value and ((plain and n.of_amps) or _in_turn(n, found))}


def _in_turn(name: _Name, found: list[_Name]) -> bool:
    """Tell whether the value is alike the one of the name before or behind it, and only without the digit."""
    for other in found:
        if other.letter != name.letter or abs(other.digit - name.digit) != 1 or not other.value:
            continue
        if abs(other.at - name.at) > _NEAR or (other.at > name.at) != (other.digit > name.digit):
            continue
        low, high = sorted((other.value, name.value))
        if high <= _ALIKE * low and (other.of_amps or name.of_amps):
            return True
    return False


def _name(narration: Narration, run: list[Atom]) -> _Name | None:
    words = narration.lowers
    own = (
        run[1:] if run[0].kind == "A" and len(run) > 1 else run
    )  # "A two twenty" begins with what may be an article
    first = own[0]
    letter = words[first.token - 1] if first.token else ""
    if (
        first.kind != "D"
        or first.value > _MOST
        or len(letter) != 1
        or letter not in number_set("designator", "letters")
    ):
        return None
    rest = own[1:]
    behind = words[first.token + 1] if first.token + 1 < len(words) else "."
    if not rest:
        named = behind in number_set("counted_off", "presents") or behind in number_set(
            "designator", "lettered_does"
        )
        return _Name(letter, int(first.value), first.token) if named else None
    if rest[0].kind not in {"Y", "T", "D"} or words[first.token - 2 : first.token - 1] == ["to"]:
        return None
    parts = best_segments(rest)
    if rest[0].kind == "D" and not any(a.kind == "P" for a in rest):
        return None
    if not parts or len(parts) > 2:
        return None
    value = parts[0][1].value
    if len(parts) == 2 and parts[1][1].value >= 10:
        return None
    unit = words[own[-1].token + 1 : own[-1].token + 2]
    amps = not value.is_integer() or (bool(unit) and unit[0] in number_set("designator", "lettered_units"))
    return _Name(letter, int(first.value), first.token, value, amps)


__all__ = ["lettered_names"]
