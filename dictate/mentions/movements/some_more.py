"""Another portion of what was just moved: "Gave it eight more", "Another pound after that".

The portion before it tells which way it went and what its unit is, where no unit was said.

    "Gave it twelve ounces, let it settle. Gave it eight more."      charged 12 oz, charged 8 oz
    "Two pounds of gas in, still flashing. Another pound, clear."    charged 2 lb, charged 1 lb
"""

from __future__ import annotations

from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.surroundings import other_visit
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_before, trigger_status
from dictate.mentions.movements.unsaid_units import bare, still_to_come
from dictate.mentions.quantities import find_quantities
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.weighings import weights_of_vessels
from dictate.record.visit import Candidate
from dictate.vocabulary.load import word_set

_MOVED = ("recovered", "charged")
_SENTENCES = 3
"""Sentences between a portion and the next one that a verb of moving tells."""
_ALONE = 2
"""The same where no verb tells it."""
_TIMES = 4.0
"""A portion is at most so many times the one before it."""
_PART = 10.0
"""It is no smaller than this part of the one before it, where its unit was not said."""
_GRAMS = 5
"""A bare portion so many times the kilograms before it is one of grams."""
_OUNCES = 16


def with_some_more(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Add the further portions that only their number and the portion before them tell."""
    out = list(amounts)
    for mass in amounts:
        if mass.kind == "unsaid" and _says_more(talk, mass.start, mass.end):
            last = _portion_before(out, mass.start)
            if last is not None and _goes_on(talk, last, mass.start):
                mass.kind, mass.status, mass.trigger = last.kind, "done", mass.start
    taken = {t for q in (*find_quantities(talk.narration), *talk.quantities) for t in range(q.start, q.end)}
    taken |= {t for a in amounts for t in range(a.q.start, a.q.end)} | weights_of_vessels(talk.narration)
    for number in find_numbers(talk.narration):
        if number.start not in taken and (more := _one_more(talk, number, out)) is not None:
            out = sorted([*out, more], key=lambda a: a.start)
    return out


def _one_more(talk: Talk, number: Number, amounts: list[Mass]) -> Mass | None:
    """Return a bare number as one more portion in the unit of the one before it, or None."""
    start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
    if number.pronoun or number.form in ("clock", "ordinal", "counted") or number.value <= 0:
        return None
    if talk.in_name(start) or not _says_more(talk, start, end):
        return None
    last = _portion_before(amounts, start)
    if last is None or not _goes_on(talk, last, start):
        return None
    verb = trigger_before(talk, start, max(talk.scopes.sentence(start)[0], last.end))
    trigger = verb.start if verb is not None and verb.label in _MOVED else start
    unit, others = last.unit, list[Candidate]()
    if unit == "kg" and number.value >= _GRAMS * last.value:
        unit = "g"  # "one kilo five hundred, then fifty more"
    elif unit == "lb" and last.q.parts and number.value < _OUNCES:
        # "two pounds four, then six more" are ounces, and may be pounds
        unit, heard = "oz", talk.narration.heard(number.start, number.end)
        others = [Candidate(value=number.value, unit="lb", heard=heard, why="pounds as before it")]
    elif not last.value / _PART <= number.value <= last.value * _TIMES:
        return None
    why = f"the unit was not said; {unit} is taken from the amount before it"
    return Mass(bare(number), start, end, number.value, unit, last.kind, "done", trigger, [why], others)


def _says_more(talk: Talk, start: int, end: int) -> bool:
    """Tell whether an amount is called one more: "eight more", "another eight", "another pound"."""
    said = (
        "more" in talk.words[start:end]
        or talk.words[start] == "another"
        or talk.words[max(0, start - 1) : start] == ("another",)
    )
    more = talk.words[end : end + 1] == ("more",)
    if not said and not more:
        return False
    k = end + more
    if k >= len(talk.words):
        return True
    return talk.words[k] in word_set("behind_a_portion") and not still_to_come(talk, k)


def _portion_before(amounts: list[Mass], start: int) -> Mass | None:
    """Return the last amount before a word that was moved."""
    before = [a for a in amounts if a.end <= start and a.kind in _MOVED]
    return before[-1] if before and before[-1].status == "done" else None


def _goes_on(talk: Talk, last: Mass, start: int) -> bool:
    """Tell whether a portion goes on with the one before it: the same verb again, or nothing but a pause."""
    s0, s1 = talk.scopes.sentence(start)
    apart = talk.w.sentence_of[start] - talk.w.sentence_of[last.start]
    if (
        apart > _SENTENCES
        or other_visit(talk, start)
        or not word_set("only_thought_of").isdisjoint(talk.words[s0:s1])
    ):
        return False
    first = max(s0, last.end)
    verb = trigger_before(talk, start, first)
    if verb is not None and verb.label in _MOVED and verb.start >= first:
        close = set(talk.words[verb.end : start]) <= word_set("between_charged_and_number")
        same = verb.label == last.kind or talk.words[verb.start] == "took"  # which goes both ways
        return close and same and trigger_status(talk, verb) == "done"
    if apart > _ALONE or any(h.verb is not None and h.label in _MOVED for h in talk.hits_in(first, start)):
        return False
    if apart:
        return set(talk.words[s0:start]) <= word_set("between_portions")
    begins = max((k + 1 for k in range(first, start) if talk.words[k] == ","), default=first)
    return set(talk.words[begins:start]) <= word_set("between_portions")


__all__ = ["with_some_more"]
