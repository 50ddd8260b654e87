"""Amounts that correct one another, or say it again in another unit."""

from __future__ import annotations

from dictate.mentions.movements.correction_words import (
    is_negated,
    opens_with_correction,
    read_again,
    retraction_between,
    said_better,
)
from dictate.mentions.movements.corrections_by_number import (
    correct_by_bare_number,
    correct_unit,
    settle_on_last,
    unit_doubted,
    with_denied_numbers,
)
from dictate.mentions.movements.earlier_amounts import restates_earlier, with_pairs_named_again
from dictate.mentions.movements.mass import (
    OUNCES_UNSAID,
    Direction,
    Mass,
    how_far_apart,
    put_right,
    same_weight,
)
from dictate.mentions.movements.surroundings import vessel_in
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_status
from dictate.mentions.movements.vocabulary import phrases
from dictate.record.visit import Amount, Candidate
from dictate.vocabulary.load import word_set

_MOVED = ("recovered", "charged")
_NO = 6
"""Words between two amounts among which a sentence of its own only takes the first back."""
_LONG_ASIDE = 9
"""Words of an aside between an amount that was broken off and the whole of it."""
_DENIALS = (("no",), ("nope",), ("wait",), ("nah",))
_SAME = 0.003
"""An amount settled on that is this near to the one before says it again: 1.1 kg and 1,080 g are two."""


def with_corrections(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Join an amount with the one that corrects it or says it again in another unit."""
    out: list[Mass] = []
    for a in amounts:
        if a.kind == "said":
            continue
        if a.kind == "vessel":
            out.append(a)  # it never takes the place of an amount that was moved
            continue
        settle_on_last(talk, a)
        correct_by_bare_number(talk, a)
        correct_unit(talk, a)
        if a.kind in _MOVED:
            unit_doubted(talk, a)
        if called_anew(talk, a, out):
            continue
        if restates_earlier(talk, a, out) or repeats_inside(talk, a, out):
            continue
        previous = next((m for m in reversed(out) if m.kind != "vessel"), None)
        if a.kind in ("recovered", "charged") and opens_with_correction(talk, a.start):
            # "Actually the recovered amount was ...": the last one of this direction is meant.
            previous = next((m for m in reversed(out) if m.kind == a.kind), previous)
        if previous is not None and previous.kind in ("recovered", "charged"):
            between = talk.words[previous.end : a.start]
            cue = retraction_between(between)
            opened = opens_with_correction(talk, a.start)
            if (
                opened
                and talk.w.sentence_of[a.start] - talk.w.sentence_of[previous.end - 1] <= 4
                and a.kind in (previous.kind, "unsaid", "weight")
            ):
                if not same_weight(previous, a):
                    previous.retracted.append(Amount(value=previous.value, unit=previous.unit))
                previous.value, previous.unit, previous.q, previous.end = a.value, a.unit, a.q, a.end
                previous.review, previous.candidates = (
                    [r for r in a.review if r != OUNCES_UNSAID],
                    a.candidates,
                )
                continue
            if (
                (between == (",",) or (_aside(talk, previous, a) and a.q.parts))
                and a.kind in (previous.kind, "unsaid")
                and not previous.q.parts
                and begins_anew(previous, a)
            ):
                previous.value, previous.unit, previous.q, previous.end = a.value, a.unit, a.q, a.end
                previous.review, previous.candidates = a.review, a.candidates
                continue
            first, _ = talk.scopes.sentence(a.start)
            denied = opened or (talk.words[first] in ("no", "nope") and previous.end <= first)
            if denied and a.kind != previous.kind and a.kind in _MOVED and same_weight(previous, a):
                previous.kind = a.kind
                previous.review.append("which way it went was corrected in a later sentence")
                continue
            apart = talk.w.sentence_of[a.start] - talk.w.sentence_of[previous.end - 1]
            # "2.8 kilos. No. Took out 2.4"; "three pounds. Nope, the hose lay on the scale. Two eleven"
            near = len(between) <= 18 and apart <= (3 if _misread(between) else 1 + (len(between) <= _NO))
            if near and is_negated(talk, a.start) and cue != "retracts":
                continue  # "nine grams, not nineteen"
            behind = talk.words[a.end : a.end + 3]
            late = any(w in ("sorry", "correction", "rather", "mean") for w in behind) and len(between) <= 3
            if near and not cue and (late or ("actually" in behind[:1] and len(between) <= 12)):
                cue = "retracts"
            if near and not cue and (read_again(talk, previous, a) or said_better(talk, previous, a)):
                cue = "retracts"
            if near and cue == "retracts":
                if is_negated(talk, a.start):
                    continue
                pounds_kept(talk, previous, a)
                same = same_weight(previous, a)
                if not same:
                    previous.retracted.append(Amount(value=previous.value, unit=previous.unit))
                previous.value, previous.unit = a.value, a.unit
                previous.q, previous.end = a.q, a.end
                previous.review, previous.candidates = a.review, a.candidates
                if OUNCES_UNSAID in previous.review:
                    previous.review.remove(OUNCES_UNSAID)
                out = [m for m in out if not taken_back_too(talk, previous, m)]
                continue
            if (
                near
                and len(between) <= 8
                and a.unit != previous.unit
                and same_weight(previous, a)
                and a.kind in (previous.kind, "unsaid", "rated", "weight")
            ):
                previous.also.append(Amount(value=a.value, unit=a.unit))
                previous.end = a.end
                continue
        out.append(a)
    with_denied_numbers(talk, out)
    with_pairs_named_again(talk, out)
    return out


def taken_back_too(talk: Talk, corrected: Mass, m: Mass) -> bool:
    """Tell whether an amount is the one that was corrected, said once more in the same sentence."""
    return (
        m is not corrected
        and m.kind == corrected.kind
        and bool(corrected.retracted)
        and m.value == corrected.retracted[-1].value
        and m.unit == corrected.retracted[-1].unit
        and talk.w.sentence_of[m.start] == talk.w.sentence_of[corrected.start]
    )


def _misread(between: tuple[str, ...]) -> bool:
    """Tell whether a sentence of its own says why the amount before it was read wrong."""
    return (
        between[:1] == (".",)
        and between[1:2] in _DENIALS
        and any(w in word_set("scale_slips") for w in between)
    )


def _aside(talk: Talk, previous: Mass, a: Mass) -> bool:
    """Tell whether only an aside stands between: "five pounds and, where's my pad, five pounds three"."""
    between = talk.words[previous.end : a.start]
    opened = between[:1] == (",",) or between[:2] == ("and", ",")
    closed = between[-1:] == (",",) and len(between) <= _LONG_ASIDE
    if retraction_between(between) is not None or talk.numbers_in(previous.end, a.start):
        return False
    return opened and closed


def begins_anew(previous: Mass, a: Mass) -> bool:
    """Tell whether a broken-off amount is begun anew: "four pounds, four pounds and three ounces"."""
    return previous.value == a.value or (previous.unit == a.unit and a.q.parts[:1] == (previous.value,))


def called_anew(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Put the last moved amount right by "..., so call it five pounds two"."""
    if talk.words[a.start - 2 : a.start] not in phrases("calls_it"):
        return False
    if a.kind not in ("unsaid", "rated", "weight", "recovered", "charged") or a.status == "planned":
        return False
    moved = [m for m in out if m.kind in ("recovered", "charged") and m.status == "done"]
    if a.kind in ("unsaid", "weight") and "so" in talk.words[a.start - 4 : a.start - 2]:
        way = worked_out_of(talk, a, moved)
        if way is not None:
            a.kind, a.status, a.trigger = way, "done", a.start
            return False
    if not moved or talk.w.sentence_of[a.start] - talk.w.sentence_of[moved[-1].end - 1] > 2:
        return False
    if how_far_apart(moved[-1], a) > 0.5 or (
        a.kind in ("recovered", "charged") and a.kind != moved[-1].kind and a.trigger != a.start
    ):
        return False
    if how_far_apart(moved[-1], a) < _SAME:
        return True
    if moved[-1].unit != a.unit and same_weight(moved[-1], a):
        moved[-1].also.append(Amount(value=a.value, unit=a.unit))
        return True  # "1.7 kilos. Call it three and three quarter pounds": rounded, for who thinks in pounds
    put_right(moved[-1], a.value, a.unit, a)
    return True


def worked_out_of(talk: Talk, a: Mass, moved: list[Mass]) -> Direction | None:
    """Return which way "..., so call it 25 pounds" went, where the sentence before told of moving gas.

    "Then I put gas in. Started the jug at 124.6 and finished at 99.6, so call it twenty-five pounds."
    """
    number = talk.w.sentence_of[a.start]
    first = talk.w.sentences[max(0, number - 1)][0]
    if any(m.start >= first for m in moved):
        return None
    verbs = [
        h
        for h in talk.hits_in(first, a.start)
        if h.verb is not None and h.label in _MOVED and trigger_status(talk, h) == "done"
    ]
    ways = {h.label for h in verbs}
    if len(ways) != 1 or not vessel_in(talk.words[first : a.start]):
        return None
    return "charged" if ways == {"charged"} else "recovered"


def pounds_kept(talk: Talk, previous: Mass, a: Mass) -> None:
    """Correct only the ounces of "two pounds six, sorry, seven ounces", with a reason to look."""
    whole = ("total", "all", "altogether", "that", "it", "only", "just")
    around = (*talk.words[previous.end : a.start], *talk.words[a.end : a.end + 2])
    if any(w in whole for w in around):
        return
    if previous.unit == "lb" and previous.q.parts and a.unit == "oz" and a.value < 16:
        heard = " ".join(talk.words[a.start : a.end])
        a.candidates = [
            *a.candidates,
            Candidate(value=a.value, unit="oz", heard=heard, why="ounces alone"),
        ]
        a.review = [*a.review, f"{previous.q.parts[0]:g} pounds are kept from what was said before"]
        a.value, a.unit = previous.q.parts[0] + a.value / 16, "lb"


def repeats_inside(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Tell whether "put back eight ounces, the six ounces and a little" only breaks an amount down."""
    if talk.words[a.start - 1 : a.start] != ("the",) or not out or a.kind not in ("recovered", "charged"):
        return False
    same_sentence = talk.w.sentence_of[out[-1].start] == talk.w.sentence_of[a.start]
    return (
        same_sentence and out[-1].kind == a.kind and any(m.kind != a.kind and same_weight(m, a) for m in out)
    )
