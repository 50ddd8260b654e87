"""Amounts by all the words around them: what no verb told is taken, what sounds like none is asked about.

The text encoder (`second_opinion.told`) judges for each number whether it tells an amount that went in or
came out. An amount that it is nearly certain of is added where nothing else was taken, and one that surely
went the other way is turned, both with a reason; an amount that it does not take for one gets a reason.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from dictate.mentions.movements.bare_pairs import pounds_and_ounces
from dictate.mentions.movements.gone import leaked_away
from dictate.mentions.movements.mass import Mass, how_far_apart
from dictate.mentions.movements.talk import Talk
from dictate.mentions.not_values.scale_runs import numbers_of_scales
from dictate.mentions.quantities import Quantity, mass_of
from dictate.mentions.second_opinion import Told, told
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.weighings import weighed_numbers
from dictate.record.visit import Amount
from dictate.units import convert
from dictate.vocabulary.load import word_set

BY_WORDS = "no plain phrase told this amount: taken because of all the words around it"
_TAKEN = 0.8
"""The share from which an amount is taken that nothing told."""
_ASKED = 0.02
"""The share below which an amount that was told is asked about.

Both were chosen on narrations that the weights were not trained on."""
_TAKEN_BACK = 0.1
"""The share below which an amount right before one that is added was taken back by it."""
_ALIKE = 0.03
"""Two amounts this near to one another, the second told by no phrase, are one."""
_EXACT = 0.003
"""What is missing is the plate's charge less what came out, to this part of itself."""
_WEIGHTS = frozenset(("lb", "oz", "g", "kg"))
_OUNCES = 16
_MOVED = ("recovered", "charged")


def with_what_sounds_moved(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Return the amounts with those that only the words around them tell, each going the way they tell."""
    # What a cylinder weighed moved nothing; what it gained or lost was taken unless it is part of a sum.
    weighed = weighed_numbers(talk.narration)
    left = [a for a in talk.masses if _is_free(a, moved) and a.q.start not in weighed]
    weighed |= numbers_of_scales(talk.narration)
    bare = [n for n in _bare_numbers(talk, moved) if n.start not in weighed] if moved or left else []
    if not left and not bare and not moved:
        return moved
    shares = told(talk.narration, "way")
    for a in moved:
        other = next(way for way in _MOVED if way != a.kind)
        if not _says_its_number(talk, a):
            continue  # "put back what I took out": its number was said where it came out
        if _share(shares, a, other) >= _TAKEN and _share(shares, a, a.kind) < _ASKED:
            a.review.append(f"the words around it sound like an amount that was {other}, not {a.kind}")
            a.kind = other
    out = list(moved)
    for a in left:
        own = {way: _share(shares, a, way) for way in _MOVED}
        way = max(own, key=own.__getitem__)
        if own[way] < _TAKEN or _says_no_more(talk, out, a, way) or _lost(talk, a):
            continue
        if _still_to_come(talk, a):
            continue
        a.kind, a.status, a.trigger = way, "done", a.start
        a.review.append(BY_WORDS)
        _add(talk, shares, out, a)
    for number in bare:
        read = shares.get(number.start)
        if read is None or read.best not in _MOVED or read.share < _TAKEN:
            continue
        b = _in_unit_of_the_visit(talk, number, read.best, out)
        if (
            b is not None
            and not _says_no_more(talk, out, b, b.kind)
            and not leaked_away(talk, b.start, b.end)
        ):
            _add(talk, shares, out, b)
    return sorted(_without_parts(talk, out), key=lambda a: a.start)


def _lost(talk: Talk, a: Mass) -> bool:
    """Tell whether an amount went into the air: "vented what there was outside, maybe forty grams"."""
    if leaked_away(talk, a.start, a.end):
        return True
    start, end = talk.w.sentences[talk.w.sentence_of[a.start]]
    return not word_set("vents_gas").isdisjoint(talk.words[start:end])


def _still_to_come(talk: Talk, a: Mass) -> bool:
    """Tell whether it has to be moved yet: "15 kilos of gas will have to be recovered"."""
    start, end = talk.w.sentences[talk.w.sentence_of[a.start]]
    row = talk.words[start:end]
    return any(
        row[k] in word_set("moves_yet")
        and not word_set("yet_to_move").isdisjoint(row[max(0, k - 4) : k])
        and "be" in row[max(0, k - 3) : k]
        for k in range(a.start - start, len(row))
    )


def _says_no_more(talk: Talk, out: Sequence[Mass], a: Mass, way: str) -> bool:
    """Tell whether an amount only says again what moved, in another unit or rounded, or what was missing."""
    if any(m.unit != a.unit and how_far_apart(m, a) <= _ALIKE for m in out):
        return True  # "sixty grams in. ... Would be two point one ounces"
    for m in out:
        if m.kind != way or how_far_apart(m, a) > _ALIKE:
            continue
        if m.value != a.value:
            m.review.append(f"{a.value:g} {a.unit} was said of it as well")
        return True  # "fifty-nine point eight ... call it sixty"
    out_of_it = sum(convert(m.value, m.unit, "g") for m in out if m.kind == "recovered")
    plates = [m for m in talk.masses if m.kind == "rated" and m.value > 0]
    short = [convert(p.value, p.unit, "g") - out_of_it for p in plates] if out_of_it else []
    grams = convert(a.value, a.unit, "g")
    return any(abs(s - grams) <= _EXACT * grams for s in short)  # "sixteen grams, so forty-four had gone"


def _without_parts(talk: Talk, out: list[Mass]) -> list[Mass]:
    """Leave out the parts of a total in its sentence: "another 150, so five fifty altogether"."""
    totals = [
        m
        for m in out
        if BY_WORDS in m.review
        and {"altogether", "total", "told"} & set(talk.words[max(0, m.start - 2) : m.end + 3])
    ]
    return [
        a
        for a in out
        if not any(
            t.kind == a.kind
            and a.end <= t.start <= a.end + 6
            and t.value > a.value
            and talk.w.sentence_of[t.start] == talk.w.sentence_of[a.start]
            for t in totals
        )
    ]


def _add(talk: Talk, shares: Mapping[int, Told], out: list[Mass], a: Mass) -> None:
    """Add an amount; one right before it that sounds taken back goes with it as what was retracted."""
    here = talk.w.sentence_of[a.start]
    for m in out:
        apart = here - talk.w.sentence_of[m.start]
        if m.kind != a.kind or m.end > a.start or apart > 1 or not _says_its_number(talk, m):
            continue
        if not {"another", "plus", "more"}.isdisjoint(talk.words[m.end : a.start + 1]):
            continue  # "the three twenty back and another six fifty": both went in
        if _share(shares, m, m.kind) < _TAKEN_BACK:
            a.retracted.append(Amount(value=m.value, unit=m.unit))
            out.remove(m)
            break
    out.append(a)


def _says_its_number(talk: Talk, a: Mass) -> bool:
    """Tell whether the number of an amount stands where it moved, and not where it came out before."""
    return a.start <= talk.w.word_of_token(a.q.start) < a.end


def _bare_numbers(talk: Talk, moved: Sequence[Mass]) -> list[Number]:
    """Return the numbers without a unit in no amount, which are no first piece of one: "10 50 grams"."""
    taken = {t for q in talk.quantities for t in range(q.start, q.end)}
    pieces = {q.start for q in talk.quantities}
    taken |= {talk.w.tokens[k] for m in moved for k in range(m.start, m.end)}
    return [
        x
        for x in find_numbers(talk.narration)
        if x.start not in taken
        and x.end not in pieces
        and not x.pronoun
        and x.value > 0
        and not talk.in_name(talk.w.word_of_token(x.start))
    ]


def _in_unit_of_the_visit(talk: Talk, number: Number, way: str, moved: Sequence[Mass]) -> Mass | None:
    """Return a bare number as an amount in the unit of the nearest one; None where no amount has a unit."""
    start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
    units = [a for a in (*moved, *talk.masses) if a.unit in _WEIGHTS and mass_of(a.q) is not None]
    if not units:
        return None
    summed = _sum_before(talk, number, start)
    if summed is not None:
        q = Quantity(number.start, number.end, number.value, "", "reading", ((summed, 1.0),), (number,))
        return Mass(q, start, end, number.value, summed, way, "done", start, [BY_WORDS])
    pair = _pounds_and_ounces(talk, number, units)
    if pair is not None:
        q = Quantity(number.start, number.end, pair, "", "reading", (("lb", 1.0),), (number,))
        why = "pounds and ounces are taken from the amounts told in both; no unit was said"
        return Mass(q, start, end, pair, "lb", way, "done", start, [BY_WORDS, why])
    # the plate's own figure has the plate's unit; "stood at 200 pounds" lends none while gas was weighed
    same = [a for a in units if a.value == number.value and a.kind in ("rated", "unsaid")]
    of_gas = same or [a for a in units if a.kind != "unsaid"] or units
    near = min(of_gas, key=lambda a: abs(a.start - start))
    if near.unit == "g" and number.places:
        # "one point eight in" are no grams: nobody says tenths of them
        near = min((a for a in units if a.unit == "kg"), key=lambda a: abs(a.start - start), default=near)
        if near.unit == "g":
            near = replace(near, unit="kg")
    q = Quantity(number.start, number.end, number.value, "", "reading", ((near.unit, 1.0),), (number,))
    why = f"the unit was not said; {near.unit} is taken from the amount beside it"
    return Mass(q, start, end, number.value, near.unit, way, "done", start, [BY_WORDS, why])


def _pounds_and_ounces(talk: Talk, number: Number, units: Sequence[Mass]) -> float | None:
    """Return the pounds of "seven eight" where amounts were told in pounds and ounces near that size."""
    pair = pounds_and_ounces(talk.narration, number)
    if pair is None or number.written or number.form == "decimal":
        return None
    told = [a.q.parts[0] for a in units if a.unit == "lb" and len(a.q.parts) == 2]
    near = any(0.5 * pounds <= pair[0] <= 2 * pounds for pounds in told)
    return pair[0] + pair[1] / _OUNCES if near else None


def _sum_before(talk: Talk, number: Number, start: int) -> str | None:
    """Return the unit in which a bare number is the sum of the amounts of its sentence before it.

    "Eleven pounds and then another eight ounces, so eleven and a half": pounds, though ounces stand nearer.
    """
    here = talk.w.sentence_of[start]
    parts = [
        a
        for a in talk.masses
        if a.end <= start and talk.w.sentence_of[a.start] == here and a.unit in _WEIGHTS
    ]
    grams = sum(convert(a.value, a.unit, "g") for a in parts)
    if len(parts) < 2 or grams <= 0:
        return None
    for unit in dict.fromkeys(a.unit for a in parts):
        if abs(convert(number.value, unit, "g") - grams) <= _EXACT * grams:
            return unit
    return None


def doubted(shares: Mapping[int, Told], starts: Sequence[int], way: str) -> str | None:
    """Return why an amount is asked about whose numbers begin at `starts`; None when it is not."""
    seen = [shares[t] for t in starts if t in shares]
    if not seen or max(s.of(way) for s in seen) >= _ASKED:
        return None
    other = next(w for w in _MOVED if w != way)
    if max(s.of(other) for s in seen) > 0.5:
        return f"the words around it sound more like an amount that was {other}"
    return "the words around it do not sound like an amount that was moved"


def _is_free(a: Mass, moved: Sequence[Mass]) -> bool:
    """Tell whether an amount is a weight that nothing else has taken, and no cylinder's."""
    if a.kind == "vessel" or mass_of(a.q) is None or not a.value > 0:
        return False
    if a.unit not in _WEIGHTS or (a.kind in _MOVED and a.status == "done"):
        return False  # that one only says again what another does
    return not any(m is a or (m.start < a.end and a.start < m.end) for m in moved)


def _share(shares: Mapping[int, Told], a: Mass, way: str) -> float:
    return max((shares[t].of(way) for t in range(a.q.start, a.q.end) if t in shares), default=0.0)


__all__ = ["BY_WORDS", "doubted", "with_what_sounds_moved"]
