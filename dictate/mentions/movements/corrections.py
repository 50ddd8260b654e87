"""Amounts that correct one another, or say it again in another unit."""

from __future__ import annotations

from dictate.mentions.movements.correction_words import (
    is_negated,
    opens_with_correction,
    read_again,
    retraction_between,
    takes_first_back,
)
from dictate.mentions.movements.earlier_amounts import restates_earlier
from dictate.mentions.movements.mass import OUNCES_UNSAID, Mass, how_far_apart, put_right, same_weight
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import phrases
from dictate.record.visit import Amount, Candidate
from dictate.vocabulary.load import word_set

_MOVED = ("recovered", "charged")


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
                between == (",",)
                and a.kind == previous.kind
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
            near = (
                len(between) <= 18 and talk.w.sentence_of[a.start] - talk.w.sentence_of[previous.end - 1] <= 1
            )
            if near and is_negated(talk, a.start) and cue != "retracts":
                continue  # "nine grams, not nineteen"
            behind = talk.words[a.end : a.end + 3]
            late = any(w in ("sorry", "correction", "rather", "mean") for w in behind) and len(between) <= 3
            if near and not cue and (late or ("actually" in behind[:1] and len(between) <= 12)):
                cue = "retracts"
            if near and not cue and read_again(talk, previous, a):
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
    if not moved or talk.w.sentence_of[a.start] - talk.w.sentence_of[moved[-1].end - 1] > 2:
        return False
    if how_far_apart(moved[-1], a) > 0.5 or (
        a.kind in ("recovered", "charged") and a.kind != moved[-1].kind and a.trigger != a.start
    ):
        return False
    if same_weight(moved[-1], a):
        return True
    put_right(moved[-1], a.value, a.unit, a)
    return True


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


def correct_by_bare_number(talk: Talk, a: Mass) -> None:
    """Take the bare number of "eight ounces. No, nine." for the amount; the first is retracted."""
    if a.kind not in ("recovered", "charged"):
        return
    numbers = talk.numbers_in(a.end, a.end + 30)
    ends = [n for n in numbers if concludes(talk, a, talk.w.word_of_token(n.start), n.value)]
    for number in ends[:1] or numbers:
        k = talk.w.word_of_token(number.start)
        if not a.end <= k < a.end + 30 or number.form in ("clock", "ordinal", "counted") or number.pronoun:
            continue
        if any(0 <= start - k <= 4 for start, _ in talk.mass_spans):
            return  # "fifty-six, no, eight, fifty-eight grams": the whole follows
        gap = [w for w in talk.words[a.end : k] if w not in (",", ".", ";", "-")]
        if gap[1:] == ["well"]:
            del gap[0]  # "Got nine ounces out, well, ..."
        elif gap[-1:] == ["well"] and talk.words[k - 2 : k] == ("well", ",") and len(gap) <= 6:
            gap = ["well"]
        lead = [
            w for w in gap if w not in ("it", "'s", "was", "that", "is", "make", "to", "be", "should", "say")
        ]
        if k >= a.end + 20 and not ends:
            return
        told = takes_first_back(talk, a.end, k) and tuple(gap) not in phrases("corrections")
        cue = (
            told
            or tuple(gap) in phrases("corrections")
            or (lead != ["not"] and tuple(lead) in phrases("corrections"))
        )
        told = told or bool(ends)
        cue = cue or told
        well = (
            [w for w in gap if w != "no"] == ["well"]
            and a.value * 0.75 <= number.value <= a.value * 1.25
            and not a.q.parts
        )  # "nine ounces out, well, nine and a quarter on the second look"
        cue = cue or well
        told = told or well
        end = talk.w.word_of_token(number.end)
        behind = talk.words[end] if end < len(talk.words) else "."
        taken = any(q.start <= number.start < q.end for q in talk.quantities)
        if not cue and behind in word_set("differs_by"):
            continue  # "sorry, the hose was on it, forty less, so two hundred and seventy"
        if (
            tuple(gap) in ((), ("not",))
            or not cue
            or taken
            or behind not in (".", ",", "actually", "instead", "sorry", "then", "and", "it", "in", "by", "on")
        ):
            return
        if not a.value / 10 <= number.value <= a.value * 10 and not a.q.parts:
            return
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        if a.q.parts and a.unit == "lb" and number.value < 16:
            heard = " ".join(talk.words[k:end])
            a.candidates = [Candidate(value=number.value, unit="lb", heard=heard, why="pounds")]
            a.review = ["the unit was not said with the correction; it was taken for the ounces"]
            a.value = a.q.parts[0] + number.value / 16
        else:
            a.value = number.value
            more = "then" in talk.words[end : end + 3]
            if more or not a.value / 2 <= a.retracted[-1].value <= a.value * 2:
                a.review.append(f"the unit was not said with the correction; {a.unit} is taken over")
        a.end = end
        return


def concludes(talk: Talk, a: Mass, k: int, value: float) -> bool:
    """Tell whether a number ends a correction: "Sorry, the hose was on it, so two hundred."."""
    if talk.words[k - 1 : k] not in (("so",), ("'s",), ("is",), ("makes",), ("to",)) or a.q.parts:
        return False
    first = talk.w.sentence_of[a.start]
    here = talk.w.sentence_of[k]
    last = talk.w.sentences[first][1]
    if here > first + 1 or not a.value / 2 <= value <= a.value * 2:
        return False
    low = max(a.end, last) if here == first + 1 else a.end
    for i in range(low, k):
        if talk.words[i] in word_set("opens_a_correction") and (
            i == low or talk.words[i - 1] in (",", ".", "-", ";")
        ):
            return True
    return False


def settle_on_last(talk: Talk, a: Mass) -> None:
    """Take the number that the speaker settles on ("eight ounces, ... let's write eight and a half")."""
    if a.kind not in ("recovered", "charged"):
        return
    _, s1 = talk.scopes.sentence(a.start)
    for number in talk.numbers_in(a.end, min(s1, a.end + 26)):
        k = talk.w.word_of_token(number.start)
        if (
            not a.end <= k < min(s1, a.end + 26)
            or number.pronoun
            or number.form in ("clock", "ordinal", "counted")
        ):
            continue
        cue = talk.words[k - 2 : k]
        if cue not in phrases("settles"):
            continue
        if any(a.end < b.start <= k < b.end for b in talk.masses) or number.value == a.value:
            continue
        a.retracted.append(Amount(value=a.value, unit=a.unit))
        a.value, a.end = number.value, talk.w.word_of_token(number.end)
        if a.q.parts:
            a.review.append(f"the unit was not said with the last number; {a.unit} is taken over")


def repeats_inside(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Tell whether "put back eight ounces, the six ounces and a little" only breaks an amount down."""
    if talk.words[a.start - 1 : a.start] != ("the",) or not out or a.kind not in ("recovered", "charged"):
        return False
    same_sentence = talk.w.sentence_of[out[-1].start] == talk.w.sentence_of[a.start]
    return (
        same_sentence and out[-1].kind == a.kind and any(m.kind != a.kind and same_weight(m, a) for m in out)
    )
