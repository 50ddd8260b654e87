"""Spoken numbers: every form the trade uses, in words and as a recogniser writes it."""

from __future__ import annotations

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.quantities import find_quantities
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.mentions.spoken_numbers import find_numbers, parse

FORMS = {
    # hundreds said as pairs
    "two fifty": [250], "one eighteen": [118], "two oh eight": [208], "twenty-four hundred": [2400],
    "eleven fifty": [1150], "fifteen hundred": [1500], "thirteen oh two": [1302], "nine sixty": [960],
    # cardinals
    "two hundred and eight": [208], "one hundred fifteen": [115], "a hundred and ten": [110], "a hundred": [100],
    "two thousand and fifty": [2050], "seven hundred sixty thousand": [760000], "one thousand one hundred fifty": [1150],
    "one million two hundred thousand": [1200000], "ninety-two": [92], "zero": [0], "nought": [0],
    # decimals
    "point eight": [0.8], "four point two five": [4.25], "four point twenty-five": [4.25], "one point oh five": [1.05],
    "zero point four": [0.4], "nought point four one": [0.41], "oh point five": [0.5], "two oh eight point five": [208.5],
    "eleven two": [11.2], "thirteen oh": [13.0], "six eight": [6.8],
    # the decimal comma of half of the world, said and written
    "two comma one": [2.1], "nought comma nine": [0.9], "twenty four comma six": [24.6], "fourteen comma two five": [14.25],
    "2,4": [2.4], "14,5": [14.5], "0,85": [0.85], "1,250": [1250], "12,13,14": [12, 13, 14], "60, 61": [60, 61],
    # as a dialect says them, and as it is written with its ends swallowed
    "twa hunner and six": [206], "fower hunnerd": [400], "a hunnert an' twelve": [112], "wan thoosan' twa hunner": [1200],
    "twenny-two": [22], "fower point eicht": [4.8], "twelve an' a half": [12.5], "two hundred an' thirty": [230],
    "two aught eight": [208], "seeventy-five": [75],
    # fractions
    "two and a half": [2.5], "six and three quarters": [6.75], "one and an eighth": [1.125], "three eighths": [0.375],
    "a half": [0.5], "one half": [0.5], "three quarters": [0.75], "five tenths": [0.5], "2 1/2": [2.5], "1-1/8": [1.125],
    "7/8": [0.875], "2½": [2.5], "eight and a quarter": [8.25],
    "sixty-two hundredths": [0.62], "thirty-five thousandths": [0.035], "twenty and three quarters": [20.75],
    # names of a letter and a digit, where their brothers show them; else phases
    "compressors: A one thirty-one amps, A two thirty amps": [1, 31, 2, 30],
    "B one pulls eighteen, B two seventeen point six": [1, 18, 2, 17.6],
    "A one eighteen, B two oh nine, C one nineteen": [118, 209, 119], "A one eighteen, A two twenty": [118, 220],
    # negatives
    "minus six": [-6], "negative ten": [-10], "-6": [-6], "minus point four": [-0.4],
    # several numbers, no comma between
    "one twenty one eighteen one nineteen": [120, 118, 119], "two oh eight two ten two oh seven": [208, 210, 207],
    "one point two three point eight five point oh": [1.2, 3.8, 5.0],
    "point eight point eight point nine": [0.8, 0.8, 0.9], "point three point four": [0.3, 0.4],
    "all three point eight point seven point nine": [3, 0.8, 0.7, 0.9], "at this point eight point eight": [8.8],
    # names in front of a number
    "leg two one eighteen": [2, 118], "L one to L two four seventy eight": [1, 2, 478],
    "fan two one point one": [2, 1.1], "the other one two oh eight": [1, 208],
    # a range is two numbers
    "between six and seven": [6, 7], "between two hundred and two fifty": [200, 250], "6-7": [6, 7],
    # what a recogniser writes
    "208": [208], "200 and 8": [208], "400 and 80": [480], "1,150": [1150], "2 oh 7": [207], ".8": [0.8], "4.25": [4.25],
    "2 point 5": [2.5], "12 5": [12.5], "2 50": [250],
    # the word point as a noun
    "set point thirty eight": [38], "dew point forty": [40], "freeze point twenty": [20],
    "two oh four and a half": [204.5],
    "door heater one nineteen, drain heater two oh eight": [119, 208],
    "pan heater one nineteen, pan heater two eighteen": [1, 19, 2, 18],
    "three oh eight and a quarter": [308.25],
    "a buck eighty": [180],
    "buck oh five": [105],
    "a buck and a half": [150],
    "a buck and change": [],
}  # fmt: skip


@pytest.mark.parametrize(("said", "values"), FORMS.items())
def test_form(said: str, values: list[float]) -> None:
    """Each form gives its values, in order."""
    assert [n.value for n in parse(said)] == pytest.approx(values)


@pytest.mark.parametrize(
    ("said", "others"),
    {
        "six eight": [(68.0,)],
        "eleven fifty": [(11.0, 50.0)],
        "200 and 8": [(200.0, 8.0)],
        "2 50": [(2.0, 50.0)],
        "12 5": [(12.0, 5.0)],
        "the second one point seven": [(0.7,)],
    }.items(),
)
def test_an_ambiguous_form_keeps_its_other_reading(said: str, others: list[tuple[float, ...]]) -> None:
    """Never a silent pick: the other reading stays, with a reason."""
    found = [o for n in parse(said) for o in n.alternatives]
    assert [o.values for o in found] == others
    assert all(o.why for o in found)


@pytest.mark.parametrize("said", ["two hundred and eight", "two oh eight", "four point two five", "118"])
def test_a_clear_form_has_one_reading(said: str) -> None:
    """What can be read in one way only carries no doubt."""
    assert parse(said)[0].alternatives == ()


@pytest.mark.parametrize(
    "said", ["to the panel", "for the coil", "it ate the belt", "won the bid", "oh well", "a day and a night"]
)
def test_words_that_only_sound_like_numbers(said: str) -> None:
    """A homophone alone is no number."""
    assert parse(said) == []


def in_words(number: float) -> str:
    """Return a number in words by a library of its own (num2words)."""
    from num2words import num2words

    return str(num2words(number)).replace(",", "")


def _round_trip(numbers: list[float]) -> list[tuple[float, str, list[float]]]:
    wrong = []
    for number in numbers:
        said = in_words(number)
        got = [n.value for n in parse(said)]
        if got != pytest.approx([number]):
            wrong.append((number, said, got))
    return wrong


def _numbers(count: int, seed: int) -> list[float]:
    """Draw numbers from the ranges in which the trade measures."""
    draw = random.Random(seed)
    out: list[float] = []
    for _ in range(count // 5):
        out.append(draw.randrange(0, 1_000))
        out.append(draw.randrange(1_000, 1_000_000))
        out.append(draw.randrange(0, 1_000) / 10)
        out.append(draw.randrange(0, 100_000) / 100)
        out.append(-draw.randrange(10, 600) / 10)  # num2words loses the sign of -0.5
    return out


def test_round_trip_with_num2words() -> None:
    """Number, words by num2words, number again: a sample of the long run."""
    assert _round_trip(_numbers(1_500, 1)) == []


@pytest.mark.long
def test_round_trip_with_num2words_long() -> None:
    """The same for 100,000 numbers, and for every whole number to 20,000."""
    assert _round_trip([*_numbers(100_000, 2), *range(20_001)]) == []


def test_ordinals_with_num2words() -> None:
    """First to ninety-ninth."""
    from num2words import num2words

    for number in range(1, 100):
        said = num2words(number, to="ordinal")
        found = parse(f"the {said} fan")
        assert [(n.value, n.form) for n in found] == [(number, "ordinal")], said


SMALL = ["", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
         "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]  # fmt: skip
TENS = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


def two(n: int) -> str:
    """Return 1 to 99 in words."""
    return SMALL[n] if n < 20 else f"{TENS[n // 10]} {SMALL[n % 10]}".strip()


def test_hundreds_as_pairs() -> None:
    """Every number from 101 to 999 as it is said on the job: "two fifty", "one eighteen", "two oh eight"."""
    for number in range(101, 1000):
        hundreds, rest = divmod(number, 100)
        if not rest:
            continue
        said = f"{SMALL[hundreds]} {'oh ' if rest < 10 else ''}{two(rest)}"
        assert [n.value for n in parse(said)] == [number], said


@pytest.mark.parametrize("head", range(10, 100))
def test_thousands_as_pairs(head: int) -> None:
    """Four digits in pairs: one number, and the two numbers that it may be as well."""
    for rest in (10, 25, 50, 99):
        found = parse(f"{two(head)} {two(rest)}")
        assert [n.value for n in found] == [head * 100 + rest]
        assert found[0].alternatives[0].values == (head, rest)


WORDS = [
    "one",
    "two",
    "three",
    "four",
    "ten",
    "eleven",
    "fifteen",
    "twenty",
    "thirty",
    "ninety",
    "hundred",
    "thousand",
    "oh",
    "zero",
    "point",
    "and",
    "a",
    "half",
    "quarter",
    "third",
    "eighths",
    "minus",
    "to",
    "for",
    "208",
    "4.5",
    "3/8",
    "200",
    "8",
    ",",
    ".",
    "leg",
    "fan",
    "the",
    "suction",
    "psi",
    "volts",
    "degrees",
    "below",
    "between",
    "of",
    "R",
    "404A",
    "R4",
    "A4A",
    "£2",
    "-",
]


@given(st.lists(st.sampled_from(WORDS), max_size=14))
@settings(max_examples=300, deadline=None)
def test_never_crashes_and_never_invents(words: list[str]) -> None:
    """Any row of words: no crash, no overlap, and every number lies on tokens that say numbers."""
    narration = Narration.from_text(" ".join(words))
    numbers = find_numbers(narration)
    last = 0
    for n in numbers:
        assert last <= n.start < n.end <= len(narration.tokens)
        last = n.end
        said = narration.heard(n.start, n.end)
        assert any(c.isdigit() for c in said) or any(w in said for w in WORDS[:23]), said
    for q in find_quantities(narration):
        assert q.numbers
        assert 0 <= q.start < q.end <= len(narration.tokens)
    for r in find_refrigerants(narration):
        assert r.name.startswith("R-")


@given(st.text(max_size=60))
@settings(max_examples=200, deadline=None)
def test_any_text_at_all(text: str) -> None:
    """No character makes it stumble."""
    narration = Narration.from_text(text)
    find_numbers(narration)
    find_quantities(narration)


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("L1 to L2 was 2-0-8 volts", [208]),
        ("Line to line 2 0 8, 4 1 0", [208, 410]),
        ("The probe shows 1 5 0 K", [150]),
        ("call 5-5-5-1", [5, 5, 5, 1]),
        ("fans 1 2 3 are fine", [1, 2, 3]),
    ],
)
def test_digits_written_one_by_one(text: str, values: list[float]) -> None:
    found = find_numbers(Narration(list(segments_of([text], "c1"))))
    assert [n.value for n in found if n.written and n.form != "counted"][-len(values) :] == values
