"""Amounts that moved and were told by pointing at another number.

"Plate charge is 4.2 kilos and that is exactly what went in."     charged 4.2 kg
"... 780 grams on the plate. ... Charged by weight. 500 in as liquid, and 280 more, 780 all told."
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from dictate.mentions.movements.mass import NEAR, Mass
from dictate.mentions.movements.no_movement import on_paper
from dictate.mentions.movements.no_readings import keep_number
from dictate.mentions.movements.surroundings import other_visit, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.totals import called_totals
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.quantities import Quantity
from dictate.mentions.told_outright import tell_moved_outright
from dictate.vocabulary.load import word_set

_WORK = 40
"""Words between the work and the total of what it moved."""
_FULL = 1.1
"""What went into a machine that tells its charge is at most so many times that charge."""
_OFF = 1e-6
_NEXT = 12
_EXACTLY = frozenset(("exactly", "just", "precisely", "all", "the", "same", "right", "on", "all of"))
_GOT = frozenset((who, did) for who in ("she", "it", "he") for did in ("got", "gets"))
"""Words between an amount on a plate and "that is what went in"."""


def with_plates_put_in(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Add the charge on a plate of which the same or the next sentence says that it went in."""
    out: list[Mass] = []
    for a in amounts:
        out.append(a)
        by_plate = a.kind == "unsaid" and not word_set("plate_words").isdisjoint(
            talk.words[a.end : a.end + 4]
        )
        if a.kind != "rated" and not by_plate:
            continue
        got = next((m for m in amounts if _same_got(talk, a, m)), None)
        if got is not None and not other_visit(talk, got.start):
            out.append(_charged(talk, got))
            continue
        ends = [a.end, *_plates_again(talk, a)]
        k = next((k for end in ends if (k := _that_is_what(talk, end)) is not None), None)
        again = [m for m in amounts if a.end <= m.start <= (k or a.end) + _NEXT and m.kind == "charged"]
        if k is not None and not again and not other_visit(talk, k):
            out.append(_charged(talk, a))
    return out


@cache
def _first_words() -> frozenset[str]:
    return frozenset({"and", "so", *(p[0] for p in phrases("is_what_went_in"))})


def _charged(talk: Talk, a: Mass) -> Mass:
    """Return an amount as one that went in, of which the words say it outright."""
    tell_moved_outright(talk.narration, a.q.start)
    return replace(a, kind="charged", status="done", trigger=a.start, review=[], candidates=[])


def _same_got(talk: Talk, a: Mass, m: Mass) -> bool:
    """Tell whether a machine got what its plate says: "plate says 28 ounces, she got 28 ounces"."""
    if not a.end <= m.start <= a.end + _NEXT or m.kind in ("charged", "recovered"):
        return False
    if (m.value, m.unit) != (a.value, a.unit):
        return False
    led = tuple(w for w in talk.words[max(a.end, m.start - 4) : m.start] if w not in _EXACTLY)
    behind = tuple(talk.words[m.end : m.end + 3])
    return led[-2:] in _GOT or (behind[:2] in _GOT and behind[2:] in ((), (".",), (",",)))


def _plates_again(talk: Talk, a: Mass) -> list[int]:
    """Return where the same number ends that a plate says: "charge is 4.1 ounces ... plate says 4.1"."""
    until = min(len(talk.words), a.end + _WORK)
    return [
        talk.w.word_of_token(n.end)
        for n in talk.numbers_in(a.end, until)
        if abs(n.value - a.value) < _OFF
        and not n.pronoun
        and not word_set("plate_words").isdisjoint(
            talk.words[max(a.end, talk.w.word_of_token(n.start) - 3) : talk.w.word_of_token(n.start)]
        )
    ]


def _that_is_what(talk: Talk, end: int) -> int | None:
    """Return the word at which "that is exactly what went in" begins behind an amount."""
    row = talk.words[end : end + _NEXT]
    for k, word in enumerate(row):
        if word not in _first_words() or any(
            talk.number_at(j) for j in range(end, end + k) if talk.words[j].isdigit()
        ):
            continue
        rest = tuple(
            w for w in row[k:] if w not in ("exactly", "just", "precisely", "also", "and", ",", "so")
        )
        if any(rest[: len(p)] == p for p in phrases("is_what_went_in")):
            return end + k
    return None


def with_lone_totals(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Add a bare total of parts without units, in the unit of the plate's charge that it is near to."""
    out = list(amounts)
    for start, end, called in called_totals(talk):
        number = next(iter(talk.numbers_in(start, start + 1)), None)
        if not called or number is None or any(m.start < end and start < m.end for m in amounts):
            continue
        if (
            on_paper(talk, start, talk.scopes.sentence(start)[0])
            or number.pronoun
            or number.form in ("clock", "ordinal", "counted")
        ):
            continue
        if any(
            m.kind in ("recovered", "charged", "other") and start - _WORK <= m.start < start for m in amounts
        ):
            continue
        work = [
            h
            for h in talk.hits_in(max(0, start - _WORK), start)
            if h.label in ("recovered", "charged")
            and h.verb is not None
            and trigger_status(talk, h) == "done"
        ]
        lend = [
            m
            for m in amounts
            if m.end <= start and not m.q.parts and m.value / NEAR <= number.value <= m.value * NEAR
            and m.kind in ("rated", "unsaid")
        ]  # fmt: skip
        why = []
        if work and not lend and (parts := _bare_parts(talk, work[-1].end, start, number.value)):
            plates = [m for m in amounts if m.end <= start and m.kind == "rated"]
            lend = [m for m in plates if m.unit in ("lb", "kg") and number.value <= _FULL * m.value]
            for part in parts if lend else ():
                keep_number(talk, *part)
            why = [f"the unit was not said; {m.unit} is taken from the plate" for m in lend[-1:]]
        if not work or not lend or other_visit(talk, start):
            continue
        if why:
            keep_number(talk, start, end)
        q = Quantity(number.start, number.end, number.value, "", "reading", (), (number,))
        unit, by = lend[-1].unit, work[-1]
        out.append(Mass(q, start, end, number.value, unit, by.label, "done", by.start, why))
    return sorted(out, key=lambda m: m.start)


def _bare_parts(talk: Talk, first: int, last: int, total: float) -> list[tuple[int, int]]:
    """Return where the bare numbers of bottles stand that give a total: "eleven off the first jug, ..."."""
    if not vessel_in(talk.words[first:last]):
        return []
    numbers = [
        n for n in talk.numbers_in(first, last) if not n.pronoun and n.form not in ("ordinal", "clock")
    ]
    for k in range(len(numbers) - 1):
        if abs(sum(n.value for n in numbers[k:]) - total) < _OFF:
            return [(talk.w.word_of_token(n.start), talk.w.word_of_token(n.end)) for n in numbers[k:]]
    return []
