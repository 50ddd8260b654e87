"""What came out of one machine into several bottles, or went in out of several: parts and their total.

    "Took the whole charge out. First cylinder 11.8 kilos, second 11.6, third 5.1. 28.5 altogether."
    "Took the gas out. Big bottle was nearly full so a pound went in there and five ounces in the little one."

The first way is proved by its sum; which way it went says the work that was told just before.
"""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.no_readings import keep_number
from dictate.mentions.movements.surroundings import other_visit, vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.totals import called_totals
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity
from dictate.units import convert
from dictate.vocabulary.load import word_set

_REACH = 45
"""Words between the first part and the total."""
_LED = 4
"""Words before a part that tell which bottle it is of."""
_MOST = 6
"""Parts of one total."""
_EXACT = 1e-3
_MOVED = ("recovered", "charged")


@dataclass(frozen=True, slots=True)
class _Part:
    start: int
    end: int
    value: float
    unit: str | None
    mass: Mass | None = None


def with_bottles(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Turn what "went in there", into a bottle, and put a total of bottles in the place of its parts."""
    _turn_what_bottles_took(talk, amounts)
    out = list(amounts)
    for start, end, called in called_totals(talk):
        parts = _parts(talk, out, start - _REACH, start)
        whole = next(iter(_parts(talk, out, start, end)), None)
        if not called or whole is None:
            continue
        giving = _giving(talk, parts, whole)
        if giving is None or any(p.mass is not None and p.mass.kind in _MOVED for p in (*giving, whole)):
            continue
        work = _work_before(talk, giving[0].start)
        unit = whole.unit or next((p.unit for p in giving if p.unit), None)
        if work is None or unit is None or other_visit(talk, start):
            continue
        for part in (*giving, whole):
            keep_number(talk, part.start, part.end)
            if part.mass is not None:
                part.mass.kind = "said"
        tokens = talk.w.tokens
        q = Quantity(tokens[start], tokens[end - 1] + 1, whole.value, "", "reading", ((unit, 1.0),), ())
        out.append(Mass(q, giving[0].start, end, whole.value, unit, work.label, "done", giving[0].start))
    return sorted(out, key=lambda a: a.start)


def _parts(talk: Talk, amounts: list[Mass], first: int, last: int) -> list[_Part]:
    """Return the numbers between two words that can be amounts, in order."""
    out = [_Part(a.start, a.end, a.value, a.unit, a) for a in amounts if first <= a.start < last]
    taken = {k for part in out for k in range(part.start, part.end)}
    for number in talk.numbers_in(max(0, first), last):
        k = talk.w.word_of_token(number.start)
        bare = k in talk.counted and k not in taken and number.form not in ("ordinal", "clock", "counted")
        if bare and number.value > 0:
            out.append(_Part(k, talk.counted[k], number.value, None))
    return sorted(out, key=lambda part: part.start)


def _giving(talk: Talk, parts: list[_Part], whole: _Part) -> list[_Part] | None:
    """Return the last parts before a total that add up to it, each of its own bottle."""
    for n in range(2, min(_MOST, len(parts)) + 1):
        some = parts[-n:]
        unit = whole.unit or next((p.unit for p in some if p.unit), None)
        if unit is None:
            continue
        lent = next((p.unit for p in some if p.unit), unit)
        total = sum(convert(p.value, p.unit or lent, unit) for p in some)
        led = [
            bool(word_set("which_bottle") & set(talk.words[max(0, p.start - _LED) : p.start]))
            or bool(word_set("which_bottle") & set(talk.words[p.end : p.end + _LED]))
            for p in some
        ]
        if abs(total - whole.value) <= _EXACT * total and all(led):
            return some
    return None


def _work_before(talk: Talk, k: int) -> Hit | None:
    """Return the work told last in the sentence of a word or the two before it."""
    first = talk.w.sentences[max(0, talk.w.sentence_of[k] - 2)][0]
    told = [
        h
        for h in talk.hits_in(first, k)
        if h.label in _MOVED and h.verb is not None and trigger_status(talk, h) == "done"
    ]
    longest = [h for h in told if not any(o.start == h.start and o.end > h.end for o in told)]
    return longest[-1] if longest else None


def _turn_what_bottles_took(talk: Talk, amounts: list[Mass]) -> None:
    """Call recovered what "went in there", where "there" is a bottle and gas was drawn out just before."""
    turned: set[tuple[int, int]] = set()
    for a in amounts:
        if a.kind != "charged" or a.status != "done":
            continue
        s0, s1 = talk.scopes.sentence(a.start)
        lead = talk.words[s0 : min(a.start, a.trigger)]
        there = talk.words[a.trigger : a.trigger + 4]
        in_it = there[1:3] == ("in", "there") or there[1:4] in (
            ("in", "that", "one"),
            ("into", "that", "one"),
        )
        fresh = word_set("bottles_of_new_gas") | word_set("charging_vessels")
        if not (in_it and vessel_in(lead) and fresh.isdisjoint(lead)) and (s0, s1) not in turned:
            continue
        work = _work_before(talk, s0)
        if work is not None and work.label == "recovered":
            a.kind = "recovered"
            turned.add((s0, s1))


__all__ = ["with_bottles"]
