"""Amounts that a plate, a sticker or a book tells of the whole charge: what a weighing has to come to.

"Plate is four point eight. Two kilograms. Three. Four... four point eight."     the last one is the plate's
"Nine pounds, by the plate. Four, liquid. Seven. Eight and a half. Nine."        so it went in, in pounds
"""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.narration import Narration
from dictate.mentions.quantities import find_quantities, mass_of
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.word_lists import word_list

_BEFORE = 5
"""Tokens between a plate and its number."""
_BEHIND = 3
"""Tokens between a number and the plate that it is of: "nine pounds, by the plate"."""
_HEADS = (["says"], ["said"], ["is"], ["'s"], ["reads"], ["wants"], ["calls"], ["shows"], ["has"])
"""Words behind a plate whose number only follows: "four thirty, plate says two point three"."""
_ENDS = frozenset((".", "?", "!", "…", "..."))


@dataclass(frozen=True, slots=True)
class PlateTold:
    """One number of a plate, by its tokens; `end` is behind the words that name the plate."""

    start: int
    end: int
    value: float
    unit: str | None


def plates_told(narration: Narration) -> tuple[PlateTold, ...]:
    """Return the numbers of plates that can be amounts of refrigerant, in order; computed once."""
    done: tuple[PlateTold, ...] | None = narration.found.get("plates told")
    if done is None:
        done = narration.found["plates told"] = tuple(_find(narration))
    return done


def _find(narration: Narration) -> list[PlateTold]:
    words, plates = narration.lowers, word_list("scale_plates")
    if plates.isdisjoint(words):
        return []
    by_start = {q.start: q for q in find_quantities(narration)}
    out: list[PlateTold] = []
    last = 0
    for number in find_numbers(narration):
        if number.start < last or number.pronoun or number.value <= 0:
            continue
        quantity = by_start.get(number.start)
        mass = mass_of(quantity) if quantity is not None else None
        end = quantity.end if quantity is not None else number.end
        before = words[max(last, number.start - _BEFORE) : number.start]
        last = end
        if quantity is not None and mass is None:
            continue
        cut = max((i + 1 for i, w in enumerate(before) if w in _ENDS), default=0)
        told = not plates.isdisjoint(before[cut:])
        behind = words[end : end + _BEHIND + 1]
        for i, word in enumerate(behind):
            if word in _ENDS or i > _BEHIND:
                break
            if word in plates and words[end + i + 1 : end + i + 2] not in _HEADS:
                told, end = True, end + i + 1
                break
        if told:
            value, unit = mass if mass is not None else (number.value, None)
            out.append(PlateTold(number.start, end, value, unit))
    return out


__all__ = ["PlateTold", "plates_told"]
