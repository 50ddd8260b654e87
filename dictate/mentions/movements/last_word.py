"""The last word on an amount: the scale read again, or what the speaker decides to write down.

"Filled in 38 grams, scale says 38.1."                              38.1 g
"Put back two hundred grams. One ninety, the scale's just updated." 190 g
"1.6 kilos in. 1.62 by the scale actually, write 1.62."             1.62 kg
"Recovered twenty-six ounces. ... it finished at twenty-nine. So twenty-nine."  29 oz

Only an amount of nearly the same size is taken, with words of the scale or of a decision right beside it.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.movements.bare_pairs import pounds_and_ounces
from dictate.mentions.movements.mass import Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.mentions.quantities import mass_of
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Amount, Candidate
from dictate.units import convert
from dictate.vocabulary.load import word_set

_REACH = 34
"""Words behind the amount within which the last word on it is looked for."""
_ALIKE = 1.4
"""The last word is at most so many times the first, or so many times less."""
_ROUNDED = 0.03
"""An amount in another unit this near to the one before only says it again."""
_STOPS = (".", ",", ":", ";", "-")
_OF_THE_HOSES = 14
"""Words behind what the scale read in which the hoses are named that hold some of it."""


def with_the_last_word(talk: Talk, moved: list[Mass]) -> list[Mass]:
    """Return the amounts with what was decided on in their place; what was said first is retracted."""
    out = list(moved)
    for m in moved:
        if m not in out or m.status != "done":
            continue
        rest = [x for x in out if x.start >= m.end]
        limit = _limit(talk, m, rest)
        if not set(talk.words[m.end : limit]) & _cues():
            continue
        for start, end, value, own in _amounts_behind(talk, m, limit):
            if own and value > m.value and _total_of(talk, m, start, end, moved):
                return _with_total(m, value, end, out, start)
            if not _like(m, value):
                continue
            decided = _decides(talk, m, start, end)
            if not (decided or _scale_says(talk, m, start, end)):
                continue
            if abs(value / m.value - 1) < 1e-6:
                break
            if not decided and _partly_in_the_hoses(talk, end):
                why = f"the scale read {value:g} {m.unit}, and part of that stayed in the hoses"
                m.review.append(why)
                heard = " ".join(talk.words[start:end])
                m.candidates.append(Candidate(value=value, unit=m.unit, heard=heard, why=why))
                break
            if not decided and abs(value / m.value - 1) > _ROUNDED:
                m.review.append(f"{m.value:g} {m.unit} was said first; the scale read behind it is taken")
            m.retracted.append(Amount(value=m.value, unit=m.unit))
            m.value = value
            m.end = end
            if own is not None:
                out = [x for x in out if x is m or not (x.start <= start < x.end)]
            m.review = [r for r in m.review if "said beside it" not in r]
    return out


def _partly_in_the_hoses(talk: Talk, end: int) -> bool:
    """Tell whether part of what the scale read went nowhere: "it read 64, but two are in the hose"."""
    behind = talk.words[end : end + _OF_THE_HOSES]
    return not word_set("hold_some_gas").isdisjoint(behind)


def _total_of(talk: Talk, m: Mass, start: int, end: int, moved: list[Mass]) -> bool:
    """Tell whether an amount is the total of what went in of which only a part was told as moved.

    As in "... so 8 ounces more went in. 7 pounds 8 altogether."
    """
    if len([x for x in moved if x.kind == m.kind]) != 1 or start - m.end > 12:
        return False
    more = set(talk.words[max(0, m.trigger - 8) : m.end + 6]) & word_set("one_portion_more")
    told = any(talk.words[end : end + len(p)] == p for p in phrases("totals_behind"))
    told = told or talk.words[end : end + 1] in (("altogether",), ("total",))
    return bool(more) and told


def _with_total(m: Mass, value: float, end: int, out: list[Mass], start: int) -> list[Mass]:
    """Return the amounts with a total in the place of its last part."""
    m.value, m.end = value, end
    return [x for x in out if x is m or not (x.start <= start < x.end)]


@cache
def _cues() -> frozenset[str]:
    """Return the words of which one stands behind every amount that has a last word."""
    told = [*phrases("decides"), *phrases("decided_behind"), *phrases("scale_behind")]
    small = {"it", "'s", "is", "the", "that", "no", ",", "what", "i", "by", "to", "and", "be"}
    return frozenset(
        (
            "so",
            "altogether",
            "total",
            "scale",
            "scales",
            "readout",
            *(w for p in told for w in p if w not in small),
        )
    )


def _limit(talk: Talk, m: Mass, rest: list[Mass]) -> int:
    """Return the word up to which the last word on an amount can stand: the next work ends it."""
    limit = min(len(talk.words), m.end + _REACH)
    for x in rest:
        if x.kind != m.kind:
            limit = min(limit, x.trigger if x.trigger < x.start else x.start)
    for k in range(m.end, limit):
        if talk.words[k] in word_set("other_value_words"):
            limit = k
            break
    for h in talk.hits_in(m.end, limit):
        if talk.words[h.start] in ("put", "take") and talk.number_at(h.start + 1):
            continue  # "put 980" is of the ticket
        if h.label in ("recovered", "charged") and h.label != m.kind and h.verb is not None:
            limit = min(limit, h.start)
    return limit


def _amounts_behind(talk: Talk, m: Mass, limit: int) -> list[tuple[int, int, float, bool | None]]:
    """Return the amounts and bare numbers behind: first word, end, value in its unit, own unit."""
    found: list[tuple[int, int, float, bool | None]] = []
    taken: set[int] = set()
    for start, q in zip(talk.quantity_starts, talk.quantities, strict=True):
        if not m.end <= start < limit:
            continue
        end = talk.w.word_of_token(q.end)
        taken.update(range(q.start, q.end))
        weight = mass_of(q)
        if weight is not None:
            value = convert(weight[0], weight[1], m.unit)
            if weight[1] != m.unit and abs(value / m.value - 1) <= _ROUNDED:
                continue  # "1.7 kilos. Call it three and three quarter pounds": said again, and rounded
            found.append((start, end, value, True))
    for n in talk.numbers_in(m.end, limit):
        if n.start in taken or n.pronoun or n.form in ("clock", "ordinal", "counted"):
            continue
        start, end = talk.w.word_of_token(n.start), talk.w.word_of_token(n.end)
        bare = _bare_value(talk, m, n)
        behind = talk.words[end : end + 1]
        goes_on = not behind or behind[0] in _STOPS or behind[0] in word_set("behind_the_last_word")
        if bare is None or not (goes_on or _scale_behind(talk, end) or _behind(talk, end)):
            continue
        found.append((start, end, bare, None))
    return sorted(found)


def _bare_value(talk: Talk, m: Mass, n: Number) -> float | None:
    """Return a bare number in the unit of the amount, pounds and ounces said without their units as one."""
    if m.q.parts or (m.unit == "lb" and not float(n.value).is_integer()):
        pair = pounds_and_ounces(talk.narration, n) if m.unit == "lb" else None
        if pair is not None:
            return pair[0] + pair[1] / 16
        return None if m.q.parts else float(n.value)
    return float(n.value)


def _like(m: Mass, value: float) -> bool:
    return m.value > 0 and 1 / _ALIKE <= value / m.value <= _ALIKE


def _lead(talk: Talk, start: int) -> tuple[str, ...]:
    """Return the words right before a number, without what may stand between."""
    k = start
    while k > 0 and talk.words[k - 1] in word_set("before_the_last_word"):
        k -= 1
    return talk.words[max(0, k - 4) : k]


def _decides(talk: Talk, m: Mass, start: int, end: int) -> bool:
    """Tell whether a decision stands before the number ("write 980") or behind it ("190, is what I get")."""
    lead = _lead(talk, start)
    closed = talk.words[end : end + 1] in ((".",), (",",), (), ("flat",), ("even",), ("on",), ("down",))
    if any(lead[-len(p) :] == p for p in phrases("decides")) and closed:
        k = start - 1
        while k > 0 and talk.words[k] not in _STOPS:
            k -= 1
        return not any(w in word_set("no_last_word") for w in talk.words[k:start])
    if lead[-1:] == ("so",) and lead[-2:-1] in (*((s,) for s in _STOPS), ()) and closed:
        return talk.w.sentence_of[start] - talk.w.sentence_of[m.start] <= 3
    exact = talk.words[end : end + 1] in (("flat",), ("even",)) and lead[-1:] in (("'s",), ("is",), ("was",))
    return exact or _behind(talk, end)


def _behind(talk: Talk, end: int) -> bool:
    return any(talk.words[end : end + len(p)] == p for p in phrases("decided_behind"))


def _scale_says(talk: Talk, m: Mass, start: int, end: int) -> bool:
    """Tell whether the number was read on the scale: "scale says 38.1", "1.62 by the scale"."""
    lead = _lead(talk, start)
    if lead[-1:] and lead[-1] in word_set("scale_verbs") and set(lead[:-1]) & word_set("weighing_words"):
        return not set(talk.words[max(m.end, start - 9) : start]) & word_set("no_last_word")
    if lead[-1:] == (",",) and lead[-2:-1] and lead[-2] in word_set("weighing_words"):
        return True  # "950 grams back, by scale, 952"
    return _scale_behind(talk, end) or (talk.words[end : end + 1] == (",",) and _scale_behind(talk, end + 1))


def _scale_behind(talk: Talk, end: int) -> bool:
    return any(talk.words[end : end + len(p)] == p for p in phrases("scale_behind"))


__all__ = ["with_the_last_word"]
