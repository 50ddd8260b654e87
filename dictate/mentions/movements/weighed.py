"""Amounts that the weights of a cylinder prove, and their sum where it is said without a word for it.

"Bottle at 27.6 ... at 46.2, so 18.6, ... number two from 28 to 31.1, another 3.1. 21.7 then."
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Direction, Mass
from dictate.mentions.movements.surroundings import other_visit
from dictate.mentions.movements.talk import Talk
from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.weighings import weighings, weights_of_vessels
from dictate.units import convert
from dictate.vocabulary.load import word_set

_REACH = 45
"""Words between the last of several differences and their sum."""
_AROUND = 8
"""Tokens around the weights in which oil, water or ice is named where it was weighed."""
_EXACT = 0.003
_MOVED: tuple[Direction, ...] = ("recovered", "charged")


def with_what_was_weighed(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Give each difference that two weights prove its way, and leave the weights out of what was moved."""
    proven = weighings(talk.narration)
    if not proven:
        return amounts
    weights = weights_of_vessels(talk.narration)
    out = list(amounts)
    for a in amounts:
        if a.q.start in weights:
            a.kind, a.status = "vessel", None
    numbers = numbers_by_start(talk.narration)
    differences: list[Mass] = []
    for w in proven:
        way: Direction = "recovered" if w.gained else "charged"
        found = _amount_at(out, w.difference)
        if (found is not None and found.kind == "other") or _of_other_stuff(talk, w.first, w.difference):
            continue  # "the oil can from 4.2 kilos to 3.1, so 1.1 of oil"
        if found is None:
            number = numbers.get(w.difference)
            if number is None or _on_a_plate(talk, number):
                continue
            a = _bare(talk, number, w.value, w.unit, way)
            out.append(a)
        elif found.kind in _MOVED and found.kind != way and not _told_by_stage_alone(found):
            how = "rose" if w.gained else "fell"
            found.review.append(f"the cylinder's weight {how}, which does not fit")
            continue
        else:
            a = found
            planned = a.status in ("planned", "not_done")
            a.kind, a.status, a.review = way, a.status if planned else "done", _without_guess(a)
        if other_visit(talk, a.start):
            a.status = None
        differences.append(a)
    for way in _MOVED:
        _sum_up(talk, out, [a for a in differences if a.kind == way and a.status == "done"], way)
    return sorted(out, key=lambda a: a.start)


_GUESSED = "nothing beside it says which way it went"


def _of_other_stuff(talk: Talk, first: int, last: int) -> bool:
    """Tell whether oil, water or ice is what was weighed."""
    low, high = min(first, last), max(first, last) + _AROUND
    row = talk.narration.lowers[max(0, low - _AROUND) : high]
    return not word_set("other_stuff").isdisjoint(row)


def _told_by_stage_alone(a: Mass) -> bool:
    """Tell whether only the stage of the work told the way of an amount."""
    return any(r.startswith(_GUESSED) for r in a.review)


def _without_guess(a: Mass) -> list[str]:
    return [r for r in a.review if not r.startswith(_GUESSED)]


def _amount_at(amounts: list[Mass], token: int) -> Mass | None:
    return next((a for a in amounts if a.q.start <= token < a.q.end), None)


def _bare(talk: Talk, number: Number, value: float, unit: str, way: str) -> Mass:
    start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
    q = Quantity(number.start, number.end, value, "", "reading", ((unit, 1.0),), (number,))
    return Mass(q, start, end, value, unit, way, "done", start)


def _on_a_plate(talk: Talk, number: Number) -> bool:
    """Tell whether a bare number is what a plate says: "4.3 amps, it's five point two on the plate"."""
    end = talk.w.word_of_token(number.end)
    plates = word_set("plate_words")
    return talk.words[end : end + 1] == ("on",) and not plates.isdisjoint(talk.words[end + 1 : end + 3])


def _sum_up(talk: Talk, out: list[Mass], parts: list[Mass], way: str) -> None:
    """Put the sum of several differences in their place where it is said within reach."""
    if len(parts) < 2:
        return
    grams = sum(convert(a.value, a.unit, "g") for a in parts)
    last = max(a.end for a in parts)
    unit = parts[-1].unit
    own = [a for a in out if last <= a.start <= last + _REACH]
    total = next((a for a in own if _same(convert(a.value, a.unit, "g"), grams)), None)
    if total is None:
        number = next(
            (
                n
                for n in talk.numbers_in(last, last + _REACH)
                if _amount_at(out, n.start) is None and _same(convert(n.value, unit, "g"), grams)
            ),
            None,
        )
        if number is None:
            return
        total = _bare(talk, number, number.value, unit, way)
        out.append(total)
    total.kind, total.status, total.review = way, "done", _without_guess(total)
    for a in parts:
        a.kind = "said"


def _same(first: float, second: float) -> bool:
    return abs(first - second) <= _EXACT * max(first, second)


__all__ = ["with_what_was_weighed"]
