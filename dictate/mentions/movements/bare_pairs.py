"""Pounds and ounces told by their two numbers alone: "seven six in all", "weighed in the six ten"."""

from __future__ import annotations

from dictate.mentions.movements.mass import NEAR, Mass
from dictate.mentions.movements.talk import Talk
from dictate.mentions.narration import Narration
from dictate.mentions.quantities import Quantity
from dictate.mentions.spoken_numbers import Number
from dictate.record.visit import Candidate
from dictate.vocabulary.load import word_set

_WORDS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen"
    " seventeen eighteen nineteen"
)
_SMALL = {word: n for n, word in enumerate(_WORDS.split())}
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60}
_OUNCES = 16


def pounds_and_ounces(narration: Narration, number: Number) -> tuple[int, int] | None:
    """Return the two numbers that one number may be: 7 and 6 of "seven six", of "7 6" and of "7.6"."""
    if number.pronoun or number.negative or number.form in ("clock", "ordinal", "counted", "fraction"):
        return None
    row = [t.lower for t in narration.tokens[number.start : number.end]]
    if number.written:
        if len(row) == 2 and all(w.isdigit() for w in row):
            pounds, ounces = int(row[0]), int(row[1])
        elif len(row) == 1 and number.places in (1, 2) and "." in row[0]:
            head, _, tail = row[0].partition(".")
            if not head.isdigit() or not tail.isdigit() or (len(tail) == 2 and tail[0] == "0"):
                return None
            pounds, ounces = int(head), int(tail)
        else:
            return None
    else:
        ounces = _SMALL.get(row[-1], 0)
        pounds = _whole(row[:-1])
        if len(row) == 2 and row[0] in _TENS and ounces < 10:
            return None  # "twenty-four" is one number
    return (pounds, ounces) if pounds and 0 < ounces < _OUNCES else None


def _whole(row: list[str]) -> int:
    """Return the number below a hundred that one or two words say, 0 where they say none."""
    if len(row) == 1:
        return _SMALL.get(row[0], 0) or _TENS.get(row[0], 0)
    if len(row) == 2 and row[0] in _TENS and 0 < _SMALL.get(row[1], 0) < 10:
        return _TENS[row[0]] + _SMALL[row[1]]
    return 0


def told_before(talk: Talk, number: Number, amounts: list[Mass]) -> Mass | None:
    """Return the pounds and ounces said before in full that two bare numbers mean."""
    pair = pounds_and_ounces(talk.narration, number)
    if pair is None:
        return None
    start = talk.w.word_of_token(number.start)
    same = [a for a in amounts if a.end <= start and a.q.parts == pair and a.unit == "lb"]
    return same[-1] if same else None


def moved_again(talk: Talk, number: Number, amounts: list[Mass], kind: str, trigger: int) -> Mass | None:
    """Take "weighed in the seven twelve" for the pounds and ounces that the plate was said to ask for."""
    start, end = talk.w.word_of_token(number.start), talk.w.word_of_token(number.end)
    behind = talk.words[end] if end < len(talk.words) else "."
    meant = told_before(talk, number, amounts)
    if meant is None or (behind not in word_set("behind_bare_ounces") and behind != "back"):
        return None
    q = Quantity(number.start, number.end, meant.value, "", "reading", (), (number,))
    return Mass(q, start, end, meant.value, "lb", kind, "done", trigger)


def in_lenders_way(
    talk: Talk, number: Number, lender: Mass
) -> tuple[float, tuple[float, ...], list[str], list[Candidate]]:
    """Return a number that takes its unit over as value, parts, reasons and what else it may be.

    Beside pounds and ounces "six eight" is pounds and ounces as well; a written "6.8" may be both.
    """
    value = float(number.value)
    pair = pounds_and_ounces(talk.narration, number) if lender.q.parts and lender.unit == "lb" else None
    if pair is None:
        return value, (), unit_taken_over(value, lender), []
    joined = pair[0] + pair[1] / _OUNCES
    if pair == lender.q.parts:
        return joined, pair, [], []
    heard = talk.narration.heard(number.start, number.end)
    with_point = Candidate(value=value, unit="lb", heard=heard, why="pounds with a point")
    in_two = Candidate(value=joined, unit="lb", heard=heard, why=f"{pair[0]} pounds {pair[1]} ounces")
    why = ["the units were not said: pounds and ounces, or pounds alone"]
    if number.written and "." in heard:
        return value, (), why, [in_two]
    return joined, pair, why, [with_point]


def unit_taken_over(value: float, other: Mass) -> list[str]:
    """Return why a number that takes its unit from another amount needs a look: both are unlike."""
    if other.value / NEAR <= value <= other.value * NEAR:
        return []  # "charge on the plate is ten pounds and I weighed in ten"
    return [f"the unit was not said; {other.unit} is taken from the amount beside it"]
