"""A total of amounts told in parts: it is the amount that moved, and the parts are not counted again.

    "Put the eleven ounces back in, then three of new, fourteen total."     charged 14 oz
    "Forty-six grams in, then two, forty-eight altogether."                 charged 48 g

A total that the parts do not give is no amount of its own ("three ounces more, so nine total" counts what was
in there before): of several parts the last one then carries a reason to look.
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.units import convert
from dictate.vocabulary.load import word_set

_REACH = 45
"""Words between the first part and its total."""
_OFF = 0.02
"""A total may be rounded by this part of itself."""


def with_totals(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Put a total in the place of the parts that give it."""
    out = list(moved)
    for start, end in _totals(talk):
        own = next((m for m in out if m.start < end and start < m.end), None)
        parts = [m for m in out if m.end <= start and start - m.start <= _REACH]
        kind = own.kind if own is not None else parts[-1].kind if parts else ""
        parts = [m for m in parts if m.kind == kind]
        if not parts:
            continue
        said = (own.value, own.unit) if own is not None else _said(talk, start, end, parts[-1])
        if said is None:
            continue
        value, unit = said
        if own is None and (joined := _pounds_and_ounces(talk, parts, value, start)) is not None:
            value, unit = joined, "lb"
        giving = _that_give(talk, parts, convert(value, unit, "g"), start)
        if giving and own is not None:
            out = [m for m in out if all(m is not p for p in giving)]
        elif giving:
            whole = giving[-1]
            whole.value, whole.unit, whole.start, whole.end = value, unit, giving[0].start, end
            whole.review, whole.candidates = list(giving[0].review), []
            out = [m for m in out if m is whole or all(m is not p for p in giving)]
        elif own is not None or len(parts) > 1:
            why = f"a total of {value:g} {unit} was said, which the amounts before it do not give"
            (own or parts[-1]).review.append(why)
    return out


def _totals(talk: Talk) -> list[tuple[int, int]]:
    """Return the words of the numbers that are called a total."""
    numbers = {talk.w.word_of_token(n.start): n for n in find_numbers(talk.narration) if not n.pronoun}
    spans = [(m.start, m.end) for m in talk.masses]
    spans += [(k, talk.w.word_of_token(n.end)) for k, n in numbers.items()]
    out: list[tuple[int, int]] = []
    for start, end in sorted(spans, key=lambda s: (s[0], -s[1])):
        if out and start < out[-1][1]:
            continue
        behind, before = talk.words[end : end + 3], talk.words[max(0, start - 3) : start]
        if (
            (behind[:1] and behind[0] in word_set("totals_behind"))
            or behind[:2] in (("all", "told"), ("in", "all"), ("in", "total"), ("all", "in"), ("all", "up"))
            or (
                any(w in word_set("totals_before") for w in before[-2:])
                and behind[:1] not in (("more",), ("each",))
            )
        ):
            out.append((start, end))
    return out


def _said(talk: Talk, start: int, end: int, last: Mass) -> tuple[float, str] | None:
    """Return the value and unit of a total; a bare number has the unit of the part before it."""
    for m in talk.masses:
        if m.start == start and m.end == end:
            return m.value, m.unit
    number = _number_at(talk, start)
    return None if number is None else (number.value, last.unit)


def _pounds_and_ounces(talk: Talk, parts: list[Mass], value: float, start: int) -> float | None:
    """Return the pounds that "seven six in all" is behind pounds and ounces, where the parts give them."""
    if not any(p.unit == "lb" for p in parts):
        return None
    pounds, ounces = int(value), round((value - int(value)) * 10)
    if not ounces and 10 < value < 100:
        pounds, ounces = int(value) // 10, int(value) % 10
    whole = pounds + ounces / 16
    if not ounces or not _that_give(talk, parts, convert(whole, "lb", "g"), start):
        return None
    return whole


def _number_at(talk: Talk, start: int) -> Number | None:
    return next((n for n in find_numbers(talk.narration) if talk.w.word_of_token(n.start) == start), None)


def _that_give(talk: Talk, parts: list[Mass], total: float, start: int) -> list[Mass]:
    """Return the last parts that give the total, with a bare number between them and it if need be."""
    grams = 0.0
    for k in range(len(parts) - 1, -1, -1):
        grams += convert(parts[k].value, parts[k].unit, "g")
        rest = total - grams
        if k < len(parts) - 1 and abs(rest) <= _OFF * total:
            return parts[k:]
        lost = [
            number.value
            for number in find_numbers(talk.narration)
            if parts[k].end <= talk.w.word_of_token(number.start) < start
        ]
        if any(abs(rest - convert(v, parts[-1].unit, "g")) <= _OFF * total for v in lost if v > 0):
            return parts[k:]
    return []
