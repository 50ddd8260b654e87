"""What is printed on a capacitor, told as a size with the voltage that it is made for.

    "a new run cap, thirty-five at three seventy"      35 microfarad, made for 370 volts
    "dual cap, forty-five plus five, four forty"       both sizes and the voltage
    "it's a 7.5 on a 3 70", "10 microfarads, 450 volts"

Capacitors are made for a few voltages only, so a size in front of one of them was read off the can, whatever
else is said around it. The words are in plausible.toml, [capacitor_print].
"""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.unit_words import unit_phrases
from dictate.vocabulary.load import table

_NEAR = 14
"""Words between a capacitor that was named and its size, when no farads are said."""


_PAIR = re.compile(r"\d{2}(?:\.\d)?/\d{1,2}(?:\.\d)?")


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("plausible")["capacitor_print"][name])


@cache
def _volts() -> frozenset[float]:
    return frozenset(float(v) for v in table("plausible")["capacitor_print"]["volts"])


def capacitor_sizes(narration: Narration) -> dict[int, str]:
    """Return where a printed size or its voltage begins: {token: "size" or "volts"}.

    >>> capacitor_sizes(Narration.from_text("New run cap, thirty-five at three seventy."))
    {4: 'size', 6: 'volts'}
    """
    done: dict[int, str] | None = narration.found.get("capacitor sizes")
    if done is None:
        done = narration.found["capacitor sizes"] = _find(narration)
    return done


def _find(narration: Narration) -> dict[int, str]:
    numbers = [n for n in find_numbers(narration) if not n.pronoun and n.form != "ordinal"]
    out = {n.start: "volts" for n in numbers if _behind_a_pair(narration, n)}
    for size, other in pairwise(numbers):
        if _two_sizes_and_a_value(narration, size, other):
            out[size.start] = out[other.start] = "size"
    for k in range(1, len(numbers)):
        volts, size = numbers[k], numbers[k - 1]
        if volts.value not in _volts() or volts.start - size.end > 5 or not 1 <= size.value <= 1500:
            continue
        units = unit_phrases(narration)
        said = units.get(volts.end)
        if said is not None and said.key != "volt" and not _letter(narration, said.start, said.end):
            continue
        farads = units.get(size.end)
        if farads is not None and farads.key not in {"microfarad", "mike", "micro"}:
            continue
        gap = narration.lowers[farads.end if farads is not None else size.end : volts.start]
        if not set(gap) <= _words("between"):
            continue
        first = size
        before = numbers[k - 2] if k > 1 else None
        if (
            before is not None
            and 2 * size.value <= before.value
            and set(narration.lowers[before.end : size.start]) <= _words("over")
            and size.start - before.end == 1
        ):
            first = before
        if not gap and first is size and farads is None:
            continue  # two bare numbers side by side need not be a size and its voltage: "45/5 440" is
        if farads is None and not _of_a_capacitor(narration, first, said is not None):
            continue
        if _words("reads") & set(narration.lowers[max(0, first.start - 2) : first.start]):
            continue
        out[first.start] = out[size.start] = "size"
        out[volts.start] = "volts"
    return out


def _two_sizes_and_a_value(narration: Narration, large: Number, small: Number) -> bool:
    """Tell whether two numbers are the sizes of a dual capacitor: "thirty five and five, got thirty four"."""
    if not 15 <= large.value <= 100 or large.value % 2.5 or small.value not in SMALL_SIDE:
        return False
    words = narration.lowers
    gap = words[large.end : small.start]
    if small.value > large.value / 2 or len(gap) != 1 or gap[0] not in _words("over"):
        return False
    named = [c for c in find_components(narration) if 0 <= large.start - c.end <= _NEAR]
    if not named or "capacitor" not in named[-1].name:
        return False
    if _words("reads") & set(words[named[-1].end : large.start]):
        return False
    if gap[0] != "and":
        return True
    behind = words[small.end : small.end + 5]
    value = next((n for n in find_numbers(narration) if small.end < n.start <= small.end + 5), None)
    return value is not None and bool((_words("reads") | {"get", "i", "had", "have"}) & set(behind))


SMALL_SIDE = frozenset((2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.5, 10.0, 12.5, 15.0))
"""Microfarads that the side of a fan is made with."""


def _behind_a_pair(narration: Narration, volts: Number) -> bool:
    """Tell whether a number is the voltage behind two sizes in one word: "45/5 440"."""
    if volts.value not in _volts():
        return False
    at = volts.start - 1
    while at > 0 and volts.start - at < 4 and narration.lowers[at] in _words("between"):
        at -= 1
    return at > 0 and _PAIR.fullmatch(narration.lowers[at]) is not None


def _letter(narration: Narration, start: int, end: int) -> bool:
    """Tell whether a unit is a lone letter, which may be a word: "450 a motor"."""
    return end - start == 1 and len(narration.lowers[start]) == 1


def _of_a_capacitor(narration: Narration, size: Number, volts: bool) -> bool:
    """Tell whether the part that was named last is a capacitor, and close in front."""
    named = [c for c in find_components(narration) if 0 <= size.start - c.end <= _NEAR]
    if not named or "capacitor" not in named[-1].name or size.value > 1200:
        return False
    return volts or size.start - named[-1].end <= 8 or size.places == 0


__all__ = ["SMALL_SIDE", "capacitor_sizes"]
