"""A scale that is read aloud while gas moves ("Weighing in now. Two pounds. Four. Six, and closed.").

Only the last reading is the amount; the ones before it were said on the way. What is read number by number
after a word that opens the weighing is found by `scale_runs`; two amounts of one verb are joined here.
"""

from __future__ import annotations

from dictate.mentions.movements.gone import leaked_away
from dictate.mentions.movements.mass import Mass, put_right
from dictate.mentions.movements.talk import Talk
from dictate.mentions.not_values.scale_runs import scale_runs
from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.units import convert
from dictate.vocabulary.load import word_set

_APART = 7  # words between two readings of the scale
_MOST = 4.0  # one reading is at most so many times the one before


_READ_ALOUD = "the scale was read aloud several times; the last reading is taken"


def with_scale_runs(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Return the amounts, those of a weighing read aloud number by number replaced by its last one."""
    for run in scale_runs(talk.narration):
        first, start, end = (talk.w.word_of_token(t) for t in (run.first, run.start, run.end))
        if any(_leaked(talk, n) for n in find_numbers(talk.narration) if n.start in run.numbers):
            # "forty-five out, the other forty-five had leaked away. Ninety in": one weighing at most
            if leaked_away(talk, start, end) or any(a.start < end and start < a.end for a in amounts):
                continue
            first = start
        amounts = [a for a in amounts if a.end <= first or a.start >= end]
        q = Quantity(run.start, run.end, run.value, run.unit, "reading", ((run.unit, 1.0),), ())
        why = [*([] if run.proven else [_READ_ALOUD]), *run.reasons]
        head = talk.w.word_of_token(run.head)
        amounts.append(Mass(q, start, end, run.value, run.unit, run.direction, "done", head, why))
    return sorted(amounts, key=lambda a: a.start)


def _leaked(talk: Talk, number: Number) -> bool:
    return leaked_away(talk, talk.w.word_of_token(number.start), talk.w.word_of_token(number.end))


def with_last_reading(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Return the amounts, those read aloud one after the other joined, with a reason to look."""
    out: list[Mass] = []
    for a in amounts:
        last = out[-1] if out else None
        if last is not None and goes_on(talk, last, a):
            put_right(last, a.value, a.unit, a)
            last.review = [*a.review, _READ_ALOUD]
            continue
        out.append(a)
    return out


def goes_on(talk: Talk, last: Mass, a: Mass) -> bool:
    """Tell whether an amount is the next reading of a scale while gas moves."""
    if (
        last.kind not in ("recovered", "charged")
        or a.kind not in ("unsaid", last.kind)
        or a.start <= last.end
    ):
        return False
    if last.trigger >= last.start or talk.scopes.kind(last.trigger) != "ing":
        return False
    first, second = convert(last.value, last.unit, "g"), convert(a.value, a.unit, "g")
    between = talk.words[last.end : a.start]
    return (
        first < second <= _MOST * first
        and sum(w not in (",", ".") for w in between) <= _APART
        and not any(w in word_set("one_portion_more") or w == "then" for w in (*between, talk.words[a.start]))
        and not any(last.end <= h.start < a.start and h.verb is not None for h in talk.hits)
        and not any(w in word_set("plate_words") for w in between)
    )
