"""Bare numbers that take their unit from another amount ("600 grams out, put in 650")."""

from __future__ import annotations

from dictate.mentions.movements.bare_pairs import (
    in_lenders_way,
    moved_again,
    pounds_and_ounces,
    told_before,
    unit_taken_over,
)
from dictate.mentions.movements.correction_words import retraction_between
from dictate.mentions.movements.gone import leaked_away
from dictate.mentions.movements.mass import NEAR, Mass
from dictate.mentions.movements.no_movement import is_pressure, of_the_test, whole_without_unit
from dictate.mentions.movements.surroundings import other_visit, phrase_length
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.triggers_before import trigger_before, trigger_status
from dictate.mentions.movements.vessels import goes_on_weighing
from dictate.mentions.movements.vocabulary import numbered_names, phrases
from dictate.mentions.movements.words_behind import status_behind
from dictate.mentions.patterns import Hit
from dictate.mentions.quantities import Quantity, find_quantities
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.mentions.weighings import weights_of_vessels
from dictate.vocabulary.load import word_set

_TAKEN_BACK = 5
"""Words that take an amount back before the same verb is said again."""
_IN_GRAMS = 100.0
"""A bare number so many times the kilograms beside it is one of grams."""
_UNLIKE = 8.0
"""An amount beside a bare number lends it its unit only up to so many times its size, if another can."""


def with_unsaid_units(talk: Talk, amounts: list[Mass]) -> list[Mass]:
    """Add a bare number that takes its unit from another amount ("600 grams out, put in 650")."""
    taken = {t for q in (*find_quantities(talk.narration), *talk.quantities) for t in range(q.start, q.end)}
    taken |= {t for a in amounts for t in range(a.q.start, a.q.end)} | weights_of_vessels(talk.narration)
    named = {t for n in talk.names for t in range(n.start, n.end)}
    extra: list[Mass] = []
    by_sentence: dict[int, list[Mass]] = {}
    for a in amounts:
        by_sentence.setdefault(talk.w.sentence_of[a.start], []).append(a)
    for number in find_numbers(talk.narration):
        if count_one_more(talk, number, amounts, extra):
            continue
        if (
            number.start in taken
            or number.start in named
            or f"{number.value:g}" in numbered_names()
            or number.form in ("clock", "ordinal", "counted")
            or number.pronoun
            or _tells_one_of_many(talk, number)
        ):
            continue
        start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
        if talk.words[start - 2 : start] in phrases("whole_of_it"):
            continue  # "three pounds recovered of five"
        if whole_without_unit(talk, start) or leaked_away(talk, start, end):
            continue
        s0, s1 = talk.scopes.sentence(start)
        left = trigger_before(talk, start, s0)
        beside = by_sentence.get(talk.w.sentence_of[start], [])
        before = [a for a in beside if a.start < start and start - a.end <= 8]
        after = [a for a in beside if end <= a.start and a.start - end <= 10]
        if not before and not after and left is not None:
            before = lender_before(talk, amounts, number.value, start, end, left)
            before = before or told_in_full(talk, number, amounts, start, left)
        if (weight := weight_goes_on(talk, number, amounts, start, end)) is not None:
            extra.append(weight)
            continue
        if (headed := by_its_side(talk, number, amounts, start, end)) is not None:
            extra.append(headed)
            continue
        if (behind := by_words_behind(talk, number, amounts, start, end)) is not None:
            extra.append(behind)
            continue
        if left is not None and left.label in ("recovered", "charged") and start - left.end <= 2:
            again = moved_again(talk, number, amounts, left.label, left.start)
            if again is not None and not other_visit(talk, start):
                again.status = trigger_status(talk, left)
                extra.append(again)
                continue
        if (
            end < len(talk.words)
            and talk.words[end : end + 3] not in phrases("by_the_scale")
            and talk.words[end : end + 2] not in (("out", ","), ("out", "."))
            and talk.words[end]
            not in (
                ".",
                ",",
                "and",
                "back",
                "of",
                "in",
                "total",
                "even",
                "flat",
                "exactly",
            )
        ):
            continue
        if left is None or left.label not in ("recovered", "charged") or not (before or after):
            continue
        if before and before[-1].kind == "other" and not after:
            continue  # "drained six ounces of oil and put in seven"
        if before and before[-1].start < start and left.start < before[-1].end:
            continue
        if any(w not in word_set("between_charged_and_number") for w in talk.words[left.end + 1 : start]):
            continue
        if is_pressure(talk, start, end, s0, s1) or of_the_test(talk, number.value, start, end, s0, s1):
            continue
        lender = lender_of(amounts, number.value, start, (before or after)[-1 if before else 0])
        status = None if other_visit(talk, start) else trigger_status(talk, left)
        value, parts, why, others = in_lenders_way(talk, number, lender)
        unit = unit_for(lender, value)
        if unit != lender.unit:
            why = ["the unit was not said; g is taken, for the amount beside it is in kilograms"]
        meant = bare(number, parts)
        kind = left.label
        extra.append(Mass(meant, start, end, value, unit, kind, status, left.start, why, others))
    return sorted([*amounts, *extra], key=lambda a: a.start)


def unit_for(lender: Mass, value: float) -> str:
    """Return the unit of a bare number: grams where it is far too large for the kilograms of its lender."""
    if lender.unit == "kg" and value >= _IN_GRAMS * lender.value and float(value).is_integer():
        return "g"  # "the plate has one kilo one hundred ... put in one two five oh"
    return lender.unit


def lender_of(amounts: list[Mass], value: float, start: int, beside: Mass) -> Mass:
    """Return the amount that lends its unit: the one beside, or one of this size where that is far off.

    "1.1 kilos on the plate. Charged it 1.1 and added 120 grams."
    """
    if beside.value / _UNLIKE <= value <= beside.value * _UNLIKE:
        return beside
    alike = [
        a for a in amounts if a.end <= start and not a.q.parts and a.value / NEAR <= value <= a.value * NEAR
    ]
    return alike[-1] if alike else beside


def weight_goes_on(talk: Talk, number: Number, amounts: list[Mass], start: int, end: int) -> Mass | None:
    """Take the second weight of a cylinder without its unit: "the jug went from 24 pounds to 20"."""
    last = next((a for a in reversed(amounts) if a.end <= start), None)
    if number.pronoun or number.form in ("clock", "ordinal", "counted") or last is None:
        return None
    behind = talk.words[end] if end < len(talk.words) else "."
    if behind not in word_set("behind_a_weight") or not goes_on_weighing(
        talk, last, start, end, number.value
    ):
        return None  # "nine pounds in it now from three jobs"
    last.kind = "vessel"
    meant = bare(number)
    return Mass(meant, start, end, number.value, last.unit, "vessel", last.status, last.trigger, [])


def by_words_behind(talk: Talk, number: Number, amounts: list[Mass], start: int, end: int) -> Mass | None:
    """Take "the tag calls for fourteen ounces and fourteen went in": the unit from the amount before."""
    rest = talk.words[end : end + 5]
    n_in, n_out = phrase_length(rest, "after_in"), phrase_length(rest, "after_out")
    if max(n_in, n_out) < 2 and rest[:1] not in (("recovered",), ("charged",), ("reclaimed",)):
        return None
    s0, s1 = talk.scopes.sentence(start)
    if "it" in rest[:3] and n_in > n_out and word_set("weighing_words").isdisjoint(talk.words[s0:s1]):
        return None  # "the screw is set to 12 and it went in": only what a scale was set to is a charge
    before = [a for a in amounts if a.end <= start and start - a.end <= 12]
    told = [a for a in amounts if not a.q.parts and a.value == number.value]
    if before and not before[-1].q.parts and _next_sentence(talk, before[-1].start, start):
        last = before[-1]
    elif told and n_in > n_out:
        last = told[-1]  # the amount on the plate, or one that went out: "950 in by the scale"
    elif (pair := told_before(talk, number, amounts)) is not None and n_in > n_out:
        last = pair  # "the tag wants eight pounds two ounces ... eight two went in"
    else:
        return None
    value, parts, why, others = in_lenders_way(talk, number, last)
    if not last.value / 5 <= value <= last.value * 5:
        return None
    kind = "charged" if n_in > n_out or rest[:1] == ("charged",) else "recovered"
    meant = bare(number, parts)
    status = status_behind(talk, end, end)
    return Mass(meant, start, end, value, last.unit, kind, status, end, why, others)


def by_its_side(talk: Talk, number: Number, amounts: list[Mass], start: int, end: int) -> Mass | None:
    """Take the other side of "out 2.4, in 2.6 kilos" and of "2.4 kilos out, 2.6 in" in the same unit."""
    s0, s1 = talk.scopes.sentence(start)
    ways = {"in": "charged", "out": "recovered"}
    lead, tail = talk.words[max(s0, start - 1) : start], talk.words[end : end + 1]
    closed = talk.words[end + 1 : end + 2] in ((".",), (",",), ())
    way = (
        ways.get(lead[0])
        if lead and (start - 1 == s0 or talk.words[start - 2] in (",", ":", "and"))
        else None
    )
    if way is None and tail and closed:
        way = ways.get(tail[0])
    if way is None:
        return None
    beside = [
        a
        for a in amounts
        if s0 <= a.start < s1
        and a.kind in ("recovered", "charged")
        and a.kind != way
        and a.status == "done"
        and not a.q.parts
        and min(abs(a.start - end), abs(start - a.end)) <= 4
        and a.value / _UNLIKE <= number.value <= a.value * _UNLIKE
    ]
    if len(beside) != 1:
        return None
    other = beside[0]
    return Mass(
        bare(number),
        start,
        end,
        number.value,
        other.unit,
        way,
        "done",
        start,
        unit_taken_over(number.value, other),
    )


def _next_sentence(talk: Talk, first: int, second: int) -> bool:
    return talk.w.sentence_of[second] - talk.w.sentence_of[first] <= 1


_GRAMS = 5
"""A portion so many times the kilograms before it is one of grams."""


def count_one_more(talk: Talk, number: Number, amounts: list[Mass], extra: list[Mass]) -> bool:
    """Take "then four more", "then the last five" right behind an amount for one more of its unit."""
    start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
    if number.pronoun or number.form in ("clock", "ordinal", "counted"):
        return False
    more = talk.words[end : end + 1] == ("more",)
    behind = talk.words[end + more] if end + more < len(talk.words) else "."
    if behind not in word_set("behind_a_portion") or still_to_come(talk, end + more):
        return False
    if not more and not any(
        talk.words[start - len(p) : start] == p
        and talk.words[start - len(p) - 1] in (",", "and", "then", ".")
        for p in phrases("then_the_last")
    ):
        return False
    last = [
        a
        for a in (*amounts, *extra)
        if a.end <= start and start - a.end <= 6 and a.kind in ("recovered", "charged")
    ]
    if not last:
        return False
    last.sort(key=lambda a: a.start)
    if last[-1].status != "done" or talk.w.sentence_of[start] != talk.w.sentence_of[last[-1].start]:
        return False
    if any(last[-1].end <= h.start < start and h.verb is not None for h in talk.hits):
        return False
    meant = bare(number)
    # "one kilo five hundred fifty and then fifty more": the last unit that was counted in is grams
    unit = "g" if last[-1].unit == "kg" and number.value >= _GRAMS * last[-1].value else last[-1].unit
    why = f"the unit was not said; {unit} is taken from the amount beside it"
    extra.append(
        Mass(meant, start, end, number.value, unit, last[-1].kind, "done", last[-1].trigger, [why], [])
    )
    return True


def still_to_come(talk: Talk, k: int) -> bool:
    """Tell whether the words at k say that it has not moved yet: "six more to go"."""
    return talk.words[k : k + 1] == ("to",) and talk.words[k + 1 : k + 2] in (
        ("go",),
        ("come",),
        ("add",),
        ("put",),
    )


def lender_before(
    talk: Talk, amounts: list[Mass], value: float, start: int, end: int, left: Hit
) -> list[Mass]:
    """Return the moved amount of the last two sentences that lends its unit to "Put back fourteen."."""
    words = talk.words[left.start : left.end]
    clear = words[0] in word_set("moves_by_itself") or talk.words[end : end + 1] in (
        ("in",),
        ("back",),
        ("out",),
    )
    if (len(words) < 2 and not clear) or (left.verb is not None and not talk.reports(left.verb)):
        return []
    lends = ("recovered", "charged", "rated", "weight", "vessel") if clear else ("recovered", "charged")
    here = talk.w.sentence_of[start]
    if clear or len(words) > 1:
        # "works out at 240 grams. Put in two hundred and forty": the same number lends its unit from afar.
        same = [a for a in amounts if a.start < start and a.value == value and a.kind in ("rated", "unsaid")]
        far = 3 if same and same[-1].kind == "unsaid" else len(talk.w.sentences)
        if same and not same[-1].q.parts and here - talk.w.sentence_of[same[-1].start] <= far:
            return same[-1:]
        if words[-1] == "in" or (
            words[0] in word_set("moves_by_itself") and words[-1] in ("charged", "recharged")
        ):
            plates = [a for a in amounts if a.start < start and a.kind == "rated" and a.unit != "lb"]
            plates = plates or [a for a in amounts if a.start < start and a.kind == "rated" and not a.q.parts]
            size = value / 1000 if plates and unit_for(plates[0], value) != plates[0].unit else value
            if len(plates) == 1 and plates[0].value / NEAR <= size <= plates[0].value * NEAR:
                return plates  # "weighed in a hundred and eight" of a plate's hundred and ten grams
    near = [
        a
        for a in amounts
        if a.start < start
        and a.kind in lends
        and (a.kind != left.label or _taken_back(talk, a, left.start))
        and (a.status == "done" or a.kind in ("rated", "weight", "vessel"))
        and here - talk.w.sentence_of[a.start] <= 2
        and a.value / 4 <= value / (1000 if unit_for(a, value) != a.unit else 1) <= a.value * 4
    ]
    return near[-1:]


def told_in_full(talk: Talk, number: Number, amounts: list[Mass], start: int, left: Hit) -> list[Mass]:
    """Return pounds and ounces told in full anywhere, which lend their way to "Recovered five six."."""
    words = talk.words[left.start : left.end]
    if left.label not in ("recovered", "charged") or start - left.end > 1 or left.verb is None:
        return []
    if not talk.reports(left.verb) or (len(words) < 2 and words[0] not in word_set("moves_by_itself")):
        return []
    pair = pounds_and_ounces(talk.narration, number)
    if pair is None or number.written:
        return []
    here = talk.w.sentence_of[start]
    told = [a for a in amounts if a.unit == "lb" and len(a.q.parts) == 2]
    if any(talk.w.sentence_of[a.start] == here for a in told):
        return []  # "pulled two twelve, that's two pounds twelve"
    return [a for a in told if a.q.parts[0] / 4 <= pair[0] <= a.q.parts[0] * 4][:1]


def _tells_one_of_many(talk: Talk, number: Number) -> bool:
    """Tell whether a number only says which one of several: "circuit two recovered seven and a half"."""
    start = talk.w.word_of_token(number.start)
    return start > 0 and talk.words[start - 1] in word_set("counted_off")


def _taken_back(talk: Talk, a: Mass, begins: int) -> bool:
    """Tell whether only a word that takes an amount back stands behind it: "2.8 kilos. No. | ..."."""
    between = talk.words[a.end : begins]
    return 0 < len(between) <= _TAKEN_BACK and retraction_between(between) == "retracts"


def bare(number: Number, parts: tuple[float, ...] = ()) -> Quantity:
    """Return a number as a quantity without a unit of its own."""
    return Quantity(number.start, number.end, number.value, "", "reading", (), (number,), parts)
