"""A second look at what was taken from the words: whatever may be wrong gets a reason to look at it.

    doubt(narration, mentions)      adds reasons to `review` and values to `candidates`, in place

The readers decide what a value is; this net decides nothing and changes no value. It asks, on other evidence
than the readers used, whether a value can be what it is said to be. A value whose unit was said is looked at
more mildly than one whose unit was carried over. Every look is a small function from a `Case` to a reason or
None; looks.py lists them in the order in which they are asked. Few of them are a reason by themselves: what
the rest found is weighed together with the second opinion and with what the readers took on soft evidence,
and a person is asked only where the value is likely enough to be wrong. Of a few words there is too little
to weigh: there more of them are a reason by themselves.

    talk            what all looks share: `Talk`, the words of a visit, and `Case`, one reading under doubt
    evidence        how near the next word for its quantity is, and whether values before it bear it out
    looks           the list of the looks
    belongs         may its words belong to something else
    fit             is it usual for this part, place and refrigerant (vocabulary/plausible.toml)
    names           is the number a name, a count, a clock time, a piece of a longer number
    markings        is it what a part is made for or a control is set to
    other_words     do the words next to it speak of something else
    told_beside     do the words right beside it say what it is
    second_look     do the words around it, taken together, look like a value of that kind at all
    trust           how likely is it wrong, of all that was found (trust_evidence, trust_terms)
    judges          what each judge of the second opinion says of a number
    neighbours      do the values beside it speak of something else
    other_times     is it of now
    corrections     was a correction said near it that took nothing back
    said_anew       was it said anew at once, without a word that takes the first one back
    spoken_against  did later words speak against it
    forms           can its words mean another number, or none
    movements       amounts of refrigerant
    labour          working times
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.corrections.cue_senses import other_sense
from dictate.mentions.corrections.cues import pause_in_a_list
from dictate.mentions.corrections.mistakes import find_mistakes, words_of_correction
from dictate.mentions.doubts.labour import doubt_labour
from dictate.mentions.doubts.looks import CARRIED, CERTAIN, CERTAIN_OF_FEW_WORDS, LOOKS, OF_OTHER_ROLES
from dictate.mentions.doubts.movements import doubts_of_movement
from dictate.mentions.doubts.second_look import unlike
from dictate.mentions.doubts.talk import ELECTRIC, Case, Talk, case_value, corrections
from dictate.mentions.doubts.told_beside import named_beside, only_evidence, surely_a_state
from dictate.mentions.doubts.trust import ASKED, NAMED, share_of_doubt, why_doubted
from dictate.mentions.doubts.trust_evidence import SOFT_OF_FEW_WORDS, evidence, soft_kind
from dictate.mentions.narration import Narration
from dictate.mentions.phrases import Phrase
from dictate.mentions.second_opinion import A_VISIT
from dictate.record.mentions import Mentions


def doubt(narration: Narration, mentions: Mentions) -> None:
    """Add to the review reasons (and candidates) of what was found, in place; no value is changed."""
    if not narration.tokens:
        return
    talk = Talk(narration, mentions)
    taken_back = [s for r in mentions.readings if r.role == "retracted" and (s := talk.span(r.at))]
    taken_back += [s for m in mentions.movements if m.retracted and (s := talk.span(m.at))]
    # A cue with something taken back near it has done its work.
    narration.found["doubt cues"] = [
        p
        for p in corrections().find(narration)
        if not pause_in_a_list(narration.lowers, p.start, p.end)
        and not other_sense(narration, p.start, p.end)
        and not any(a < p.end and p.start < b for a, b in narration.found.get("corrections done", ()))
        and not any(a - 14 <= p.start and p.end <= b + 14 for a, b in taken_back)
    ]
    narration.found["doubt cues"] += [
        Phrase(m.start, m.end, "misread")
        for m in find_mistakes(narration)
        if m.cue
        and m.read
        and not other_sense(narration, m.start, m.end)
        and not any(a < m.end and m.start < b for a, b in narration.found.get("corrections done", ()))
        and not any(a - 14 <= m.start and m.end <= b + 14 for a, b in taken_back)
    ]
    cases: list[Case] = []
    for r in mentions.readings:
        span = talk.span(r.at)
        if span is None:
            continue
        low, high = narration.sentences[talk.sentence_of[span[0]]]
        value = case_value(talk, r, *span)
        # A mark glued to the last word ("38,") is no part of the value.
        end = value.end if value is not None and span[0] < value.end < span[1] else span[1]
        case = Case(talk, r, span[0], end, low, high, value, cases[-1] if cases else None)
        if cases:
            cases[-1].following = case
        cases.append(case)
    _take_over(cases)
    moved = [s for m in mentions.movements if m.value is not None and (s := talk.span(m.at))]
    for case in cases:
        r = case.reading
        if r.role == "retracted":
            _add(case, unlike(case))
            continue
        said = bool(r.review)
        if r.role == "measured" and any(
            a < case.end and case.start < b and _same_words(case, a, b) for a, b in moved
        ):
            _add(case, "the same words are an amount of refrigerant")
        if r.role == "measured":
            _ask(case)
        else:
            _add(case, next((w for look in OF_OTHER_ROLES if (w := look(case)) is not None), None))
        case.doubted = case.doubted or (said and bool(r.review) and r.quantity in ELECTRIC)
    _doubt_whole_ranges(cases)
    for m in mentions.movements:
        for why in doubts_of_movement(talk, m):
            if why not in m.review:
                m.review.append(why)
                m.confidence = min(m.confidence, 0.5)
    doubt_labour(mentions)


def _doubt_whole_ranges(cases: Sequence[Case]) -> None:
    """Doubt both ends of a range where one is doubted: "between twelve and fourteen" is of one thing."""
    for low, high in pairwise(cases):
        if low.value is None or high.value is None or (low.value.range, high.value.range) != ("low", "high"):
            continue
        a, b = low.reading, high.reading
        if a.quantity == b.quantity and a.role == b.role == "measured" and bool(a.review) != bool(b.review):
            _add(high if a.review else low, "the other end of the range is in doubt")


def _take_over(cases: Sequence[Case]) -> None:
    """Give what puts a value right the doubts about what that value was of: it is of the same."""
    for i, case in enumerate(cases):
        r = case.reading
        if r.retracts is None or not r.unit_assumed or r.role != "measured":
            continue
        for other in reversed(cases[:i]):
            o = other.reading
            if o.role == "retracted" and o.heard == r.retracts and o.quantity == r.quantity:
                r.review += [why for why in o.review if soft_kind(why) and why not in r.review]
                break


def _ask(case: Case) -> None:
    """Give a measured value a reason where one is certain, or where all evidence speaks against it."""
    r = case.reading
    few = len(case.talk.tokens) < A_VISIT
    soft = {why: soft_kind(why) or "untaken" for why in r.review if only_evidence(case, why)}
    if few:
        soft = {why: kind for why, kind in soft.items() if kind in SOFT_OF_FEW_WORDS}
    certain_looks = CERTAIN | CERTAIN_OF_FEW_WORDS if few else CERTAIN
    found = [(look, why) for look in LOOKS if (why := look(case)) is not None and not _told(case, why)]
    certain = len(r.review) > len(soft) or any(look in certain_looks for look, _ in found)
    if not certain:
        seen = evidence(case, soft.values(), (look.__name__ for look, _ in found))
        nothing = few and not soft and not found and "no opinion" in seen  # no evidence either way
        sure = surely_a_state(case) and not ("untaken" in soft.values() and found)
        share = share_of_doubt(seen)
        named = ASKED <= share < NAMED and not few and not soft and not found and named_beside(case)
        if nothing or sure or share < ASKED or named:
            if soft:
                heard = case.talk.n.probability(case.start, case.end)
                r.review, r.confidence = [], 1.0 if heard is None else heard
            return
    if found:
        look, why = next(((k, w) for k, w in found if k in certain_looks), found[0])
        _add(case, why)
        case.doubted = look in CARRIED
    elif not r.review:
        _add(case, why_doubted(case))


def _told(case: Case, why: str) -> bool:
    """Tell whether the words of a reason tell of the correction: "looking again it was 72"."""
    if not case.reading.retracts or not why.startswith("'"):
        return False
    said_of_it = words_of_correction(case.talk.n, case.start, case.end)
    return why[1:].split("'")[0].lower() in said_of_it


def _add(case: Case, why: str | None) -> None:
    if why is not None and why not in case.reading.review:
        case.reading.review.append(why)
        case.reading.confidence = min(case.reading.confidence, 0.5)


_LONG_AMOUNT = 14
"""Tokens; an amount told over more of them was said in two places, at its ends."""


def _same_words(case: Case, a: int, b: int) -> bool:
    """Tell whether a reading stands in the words [a, b) of an amount of refrigerant."""
    if b - a <= _LONG_AMOUNT:
        return a < case.end and case.start < b and a < b
    return (a < case.end and case.start < a + 6) or (b - 6 < case.end and case.start < b)


__all__ = ["doubt"]
