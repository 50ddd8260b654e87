"""Later sentences that put an earlier amount right ("I said nine ounces before, it was eight")."""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.movements.bare_pairs import pounds_and_ounces
from dictate.mentions.movements.mass import NEAR, Mass, how_far_apart, put_right
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import names_an_earlier_one
from dictate.mentions.spoken_numbers import find_numbers
from dictate.record.visit import Amount
from dictate.vocabulary.load import word_set


def restates_earlier(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Put an earlier amount right where "I said nine ounces before, it was eight" stands."""
    s0, s1 = talk.scopes.sentence(a.start)
    said = " ".join(talk.words[s0 : a.start])
    if not any(c in said for c in names_an_earlier_one()) and talk.words[a.start - 1 : a.start] != ("not",):
        return denies_earlier(talk, a, out)
    if named_by_number(talk, a, out, s0):
        return True
    if named_without_number(talk, a, out, s0):
        return True
    moved = [m for m in out if m.kind in ("recovered", "charged")]
    # "I said five nine came out" names what came out, however near what went in is
    moved = [m for m in moved if m.kind == a.kind] or moved
    named = [
        m for m in moved if a.q.numbers and pounds_and_ounces(talk.narration, a.q.numbers[0]) == m.q.parts
    ]
    meant = min(named or moved, key=lambda m: how_far_apart(m, a), default=None)
    if meant is not None and not named and how_far_apart(meant, a) > 0.05:
        wrong = any(w in ("wrong", "mistake", "error") for w in talk.words[a.end : min(s1, a.end + 9)])
        wrote = any(w in ("wrote", "noted", "put", "had", "said") for w in talk.words[a.start - 3 : a.start])
        if wrong and wrote and any(m.end <= a.start and m.trigger <= m.start for m in out[-1:]):
            return True  # "recovered three ten, well, I wrote three one and that was wrong"
        return second_of_one_breath(talk, a, s1)
    if meant is None:
        return second_of_one_breath(talk, a, s1)
    for b in talk.masses:
        if a.end <= b.start < s1:
            put_right(meant, b.value, b.unit, b)
            b.kind = "said"
            return True
    for number in find_numbers(talk.narration):
        start = talk.w.word_of_token(number.start)
        if (
            a.end <= start < min(s1, a.end + 10)
            and number.form not in ("clock", "ordinal")
            and not number.pronoun
        ):
            put_right(meant, number.value, a.unit, a)
            if a.q.parts:
                meant.review.append(f"the unit was not said with the correction; {a.unit} is taken over")
            return True
    return False


def named_by_number(talk: Talk, a: Mass, out: list[Mass], s0: int) -> bool:
    """Correct the amount named by its number: "that five even I gave you, it shows five pounds six"."""
    row = talk.words[s0 : a.start]
    ways = [
        w
        for w, said in (("recovered", ("out", "recovered")), ("charged", ("in", "charged")))
        if any(x in row for x in said)
    ]
    moved = [m for m in out if m.kind in ("recovered", "charged") and (len(ways) != 1 or m.kind in ways)]
    for number in talk.numbers_in(s0, a.start):
        k = talk.w.word_of_token(number.start)
        if not s0 <= k < a.start or any(b.start <= k < b.end for b in talk.masses):
            continue
        pair = pounds_and_ounces(talk.narration, number)
        exact = [m for m in moved if m.value == number.value or (pair is not None and m.q.parts == pair)]
        meant = exact or [m for m in moved if m.q.parts[:1] == (number.value,)]
        if meant:
            was = meant[-1].value
            put_right(meant[-1], a.value, a.unit, a)
            if len(exact) != 1 or not was / NEAR <= meant[-1].value <= was * NEAR:
                why = "corrected in a later sentence that names it by its number only"
                meant[-1].review.append(why)
            return True
    return False


def named_without_number(talk: Talk, a: Mass, out: list[Mass], s0: int) -> bool:
    """Correct what is named without its number: "the recovered weight I gave you is wrong, it was 3"."""
    row = talk.words[s0 : a.start]
    if talk.numbers_in(s0, a.start) or not {"wrong", "should", "off", "mistake"} & set(row):
        return False
    for kind, said in (
        ("recovered", ("out", "recovered", "recovery")),
        ("charged", ("in", "charged", "charge")),
    ):
        if any(w in row for w in said):
            meant = next((m for m in reversed(out) if m.kind == kind and m.end <= s0), None)
            if meant is not None and how_far_apart(meant, a) < 0.8:
                put_right(meant, a.value, a.unit, a)
                return True
    return False


def second_of_one_breath(talk: Talk, a: Mass, s1: int) -> bool:
    """Take the second amount of "I said two pounds recovered, should have been three", with a reason."""
    if a.kind not in ("recovered", "charged"):
        return False
    b = next((b for b in talk.masses if a.end <= b.start < s1 and b.start - a.end <= 8), None)
    if b is None:
        return bare_second(talk, a, s1)
    if not any(w in ("should", "was", "meant", "is") for w in talk.words[a.end : b.start]):
        return False
    a.retracted.append(Amount(value=a.value, unit=a.unit))
    a.value, a.unit, a.end, a.q = b.value, b.unit, b.end, b.q
    a.review.append("corrected in the same breath, but nothing like the first amount was said before")
    b.kind = "said"
    return False


def bare_second(talk: Talk, a: Mass, s1: int) -> bool:
    """Take the bare number of "I told you six pounds went in, it was six and a half", with a reason."""
    for number in talk.numbers_in(a.end, min(s1, a.end + 10)):
        k = talk.w.word_of_token(number.start)
        lead = talk.words[a.end : k]
        if number.pronoun or number.form in ("clock", "ordinal", "counted") or a.q.parts:
            continue
        if a.value / 2 <= number.value <= a.value * 2 and lead[-1:] in (("was",), ("'s",), ("is",), ("be",)):
            a.retracted.append(Amount(value=a.value, unit=a.unit))
            a.value, a.end = number.value, talk.w.word_of_token(number.end)
            a.review.append(f"corrected in the same breath; the unit was not said, {a.unit} is taken over")
            return False
    return False


def denies_earlier(talk: Talk, a: Mass, out: list[Mass]) -> bool:
    """Correct an earlier amount by "it was ten ounces, not nine"."""
    rest = talk.words[a.end : a.end + 5]
    k = next((i for i, w in enumerate(rest[:4]) if w == "not" or rest[i : i + 2] == ("instead", "of")), None)
    if k is None or any(w not in (",", "i", "recovered", "charged", "in", "out") for w in rest[:k]):
        return False
    at = a.end + k + (1 if rest[k] == "not" else 2)
    number = next((n for n in find_numbers(talk.narration) if talk.w.word_of_token(n.start) == at), None)
    if number is None:
        return False
    for m in reversed(out):
        if m.kind in ("recovered", "charged") and m.unit == a.unit and number.value == m.value:
            if a.kind in ("recovered", "charged") and a.kind != m.kind:
                continue
            put_right(m, a.value, a.unit, a)
            return True
    return False


def with_pairs_named_again(talk: Talk, moved: list[Mass]) -> None:
    """Put pounds and ounces right by two bare pairs later: "I told you six three out, it was six one"."""
    moved = [m for m in moved if m.kind in ("recovered", "charged") and m.q.parts and m.unit == "lb"]
    numbers = talk.numbers_in(0, len(talk.words)) if moved else []
    pairs = [(n, pair) for n in numbers if (pair := pounds_and_ounces(talk.narration, n))]
    for m in moved:
        later = (x for x in pairs if talk.w.word_of_token(x[0].start) >= m.end)
        for (named, first), (right, second) in pairwise(later):
            if first != m.q.parts:
                continue
            k = talk.w.word_of_token(right.start)
            s0, _ = talk.scopes.sentence(k)
            said = " ".join(talk.words[s0:k])
            if (
                talk.w.word_of_token(named.start) >= s0
                and talk.words[k - 1] in word_set("leads_to_the_right_one")
                and any(c in said for c in names_an_earlier_one())
            ):
                pounds, ounces = second
                m.retracted.append(Amount(value=m.value, unit=m.unit))
                m.value, m.end = pounds + ounces / 16, talk.w.word_of_token(right.end)
                m.review.append("corrected in a later sentence that names it by its number only")
                return
