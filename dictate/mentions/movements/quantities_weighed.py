"""Which quantities can be weights, with the ways of saying one that only make sense here."""

from __future__ import annotations

from dataclasses import replace

from dictate.mentions.movements.broken_off import joined_over_asides, kilo_and_tenths, with_fraction
from dictate.mentions.movements.mass import OUNCES_UNSAID
from dictate.mentions.movements.talk import Talk
from dictate.mentions.movements.vocabulary import fractions, halves, units_of
from dictate.mentions.quantities import Quantity, find_quantities, mass_of
from dictate.mentions.quantities.two_units import MAY_BE_OUNCES
from dictate.mentions.spoken_numbers import Number, find_numbers
from dictate.record.visit import Candidate
from dictate.vocabulary.load import word_set


def quantities_weighed(talk: Talk) -> list[Quantity]:
    """Return the quantities, with two ways of weighing that only make sense here joined.

    "Two kilos two hundred" is 2.2 kg, and "ounce and a half" without its article is 1.5 oz.
    """
    found = list(find_quantities(talk.narration))
    numbers = {n.start: n for n in find_numbers(talk.narration)}
    taken = {t for q in found for t in range(q.start, q.end)}
    tokens = talk.narration.tokens
    out: list[Quantity] = []
    for q in found:
        nxt = numbers.get(q.end)
        if nxt is None and q.end < len(tokens) and tokens[q.end].lower == "and":
            nxt = numbers.get(q.end + 1)
        whole = float(q.value).is_integer() and not q.parts
        if (
            q.unit == "kg"
            and whole
            and nxt is not None
            and nxt.start not in taken
            and 50 <= nxt.value < 1000
            and nxt.value == int(nxt.value)
        ):
            q = replace(
                q,
                end=nxt.end,
                value=q.value + nxt.value / 1000,
                parts=(q.value, nxt.value),
                numbers=(*q.numbers, nxt),
            )
        q = with_ounces(talk, part_of(talk, q, numbers), numbers, taken)
        if q.end not in taken and mass_of(q) is not None:
            q = kilo_and_tenths(talk, with_fraction(talk, q, numbers), numbers)
        out.append(q)
    out += without_article(talk, taken)
    out += couples(talk)
    out += one_more(talk, numbers, taken)
    out += unit_apart(talk, numbers, taken)
    return joined_over_asides(talk, apart_only(pound_and(talk, out)))


def without_article(talk: Talk, taken: set[int]) -> list[Quantity]:
    """Return "ounce and a half" where its article was not heard."""
    tokens = talk.narration.tokens
    out: list[Quantity] = []
    for i in range(len(tokens) - 3):
        unit = units_of("without_article").get(tokens[i].lower)
        if unit is None or i in taken or tokens[i + 1].lower != "and" or tokens[i + 2].lower != "a":
            continue
        part = halves().get(tokens[i + 3].lower)
        if part is not None:
            out.append(Quantity(i, i + 4, 1 + part, tokens[i].lower, "reading", ((unit, 1.0),), ()))
    return out


def couples(talk: Talk) -> list[Quantity]:
    """Return "a couple of pounds", "couple ounces", with a reason to look."""
    tokens, words = talk.narration.tokens, talk.narration.lowers
    out: list[Quantity] = []
    for i in range(len(tokens) - 2):
        if words[i] != "couple":
            continue
        row = words[i : i + 3]
        unit = units_of("coupled").get(row[2] if row[1] == "of" else row[1])
        if unit is not None:
            end = i + 3 if row[1] == "of" else i + 2
            start = i - 1 if i and tokens[i - 1].lower == "a" else i
            vague = [f"said as {talk.narration.heard(start, end)!r}"]
            out.append(Quantity(start, end, 2.0, "", "reading", ((unit, 1.0),), (), reasons=vague))
    return out


def one_more(talk: Talk, numbers: dict[int, Number], taken: set[int]) -> list[Quantity]:
    """Return "another pound", "another pound and a half", "another pound three"."""
    tokens = talk.narration.tokens
    out: list[Quantity] = []
    words = talk.narration.lowers
    for i in range(len(tokens) - 1):
        if words[i] != "another":
            continue
        one = units_of("behind_another").get(tokens[i + 1].lower)
        if one is not None and i + 1 not in taken:
            fraction = next(
                (numbers[k] for k in (i + 3, i + 4) if k in numbers and numbers[k].form == "fraction"),
                None,
            )
            if fraction is not None and (tokens[i + 2].lower != "and" or fraction.value >= 1):
                fraction = None
            value = 1 + fraction.value if fraction is not None else 1.0
            end = fraction.end if fraction is not None else i + 2
            ounces = numbers.get(i + 2)
            if (
                one == "lb"
                and ounces is not None
                and ounces.form == "plain"
                and 0 < ounces.value < 16
                and (
                    i + 2 not in taken
                    and (tokens[ounces.end].lower if ounces.end < len(tokens) else ".")
                    in word_set("behind_bare_ounces")
                )
            ):
                value, end = 1 + ounces.value / 16, ounces.end  # "another pound three"
            out.append(Quantity(i, end, value, tokens[i + 1].lower, "reading", ((one, 1.0),), ()))
    return out


def unit_apart(talk: Talk, numbers: dict[int, Number], taken: set[int]) -> list[Quantity]:
    """Return amounts whose unit stands behind a comma or behind "more" ("six, ounces", "six more ounces")."""
    tokens = talk.narration.tokens
    out: list[Quantity] = []
    for number in numbers.values():
        i = number.end
        if i < len(tokens) and tokens[i].lower in ("altogether", "total", "flat", "even"):
            i += 1  # "so five fifty altogether, grams"
        unit = units_of("behind_a_comma").get(tokens[i + 1].lower) if i + 1 < len(tokens) else None
        if (
            unit is not None
            and tokens[i].lower == ","
            and number.start not in taken
            and not number.pronoun
            and number.form not in ("clock", "ordinal")
            and (i + 2 >= len(tokens) or tokens[i + 2].lower in (".", ",", "of", "in"))
        ):
            word = tokens[i + 1].lower
            out.append(
                Quantity(number.start, i + 2, number.value, word, "reading", ((unit, 1.0),), (number,))
            )
        i = number.end
        if (
            number.start in taken
            or i + 1 >= len(tokens)
            or tokens[i].lower not in ("more", "additional", "extra", "full")
        ):
            continue
        unit = units_of("behind_more").get(tokens[i + 1].lower)
        if unit is not None:
            out.append(
                Quantity(
                    number.start,
                    i + 2,
                    number.value,
                    tokens[i + 1].lower,
                    "reading",
                    ((unit, 1.0),),
                    (number,),
                )
            )
    return out


def pound_and(talk: Talk, found: list[Quantity]) -> list[Quantity]:
    """Join "the pound and | one ounce"."""
    tokens = talk.narration.tokens
    out: list[Quantity] = []
    for q in found:
        i = q.start - 1 if tokens[q.start - 1].lower != "and" else q.start - 2
        if (
            i > 0
            and q.unit == "oz"
            and q.value < 16
            and tokens[i].lower == "pound"
            and tokens[i - 1].lower in ("the", "that", "just", "only", "another")
            and not any(o.start <= i < o.end and o is not q and o.value != 1 for o in found)
        ):
            q = replace(q, start=i - 1, value=1 + q.value / 16, parts=(1.0, q.value), word="pound",
                        means=(("lb", 1.0),))  # fmt: skip
        out.append(q)
    return out


def apart_only(found: list[Quantity]) -> list[Quantity]:
    """Leave out what a longer amount holds: "another ounce and a half" is one."""
    out: list[Quantity] = []
    for q in sorted(found, key=lambda q: (q.start, -q.end)):
        if not out or q.start >= out[-1].end:
            out.append(q)
    return out


def part_of(talk: Talk, q: Quantity, numbers: dict[int, Number]) -> Quantity:
    """Join "point eight | of a kilo" and "a couple of | ounces": a part or a count of the unit behind."""
    tokens = talk.narration.tokens
    if q.value == 1 and tokens[q.start].lower in ("a", "an") and tokens[q.start - 1].lower == "of":
        number = next((n for n in numbers.values() if n.end == q.start - 1), None)
        if number is not None and 0 < number.value < 1:
            return replace(q, start=number.start, value=number.value, numbers=(number,))
        part = fractions().get(tokens[q.start - 2].lower)
        if part is not None:
            return replace(q, start=q.start - 2, value=part)
    if [t.lower for t in tokens[q.start - 2 : q.start]] in (
        ["of", "the"],
        ["of", "that"],
        ["of", "those"],
    ):
        number = next((n for n in numbers.values() if n.end == q.start - 2), None)
        if number is not None and not number.pronoun and number.value <= q.value and not q.parts:
            whole = talk.narration.heard(number.start, q.end)
            reasons = [*q.reasons, f"{whole!r}: the unit was said with the whole only"]
            return replace(
                q, start=number.start, value=number.value, numbers=(number, *q.numbers), reasons=reasons
            )
    return q


def with_ounces(talk: Talk, q: Quantity, numbers: dict[int, Number], taken: set[int]) -> Quantity:
    """Join "two pounds ten came out": a number right behind pounds is ounces, whatever follows.

    Where the word behind it can be what the number counts, there is a reason to look.
    """
    number = numbers.get(q.end)
    tokens = talk.narration.tokens
    joined = number is None and talk.narration.lowers[q.end : q.end + 1] == ["and"]
    if joined:
        number = numbers.get(q.end + 1)  # "eight pounds and four by the liquid side"
    if (
        number is None
        or q.word != "pound"
        or len(q.numbers) != 1
        or not float(q.value).is_integer()
        or number.form != "plain"
        or number.start in taken
        or number.pronoun
        or not 0 < number.value < 16
    ):
        return q
    behind = tokens[number.end].lower if number.end < len(tokens) else "."
    if joined and behind not in word_set("behind_joined_ounces"):
        return q
    if behind in ("times", "o'clock", "am", "pm", ":", "-", "x", "%", "percent"):
        return q
    reasons = [OUNCES_UNSAID]
    if behind not in word_set("behind_bare_ounces"):
        reasons.append(f"{number.value:g} before {behind!r} was taken for ounces")
    heard = talk.narration.heard(q.start, number.end)
    alone = Candidate(value=q.value, unit="lb", heard=heard, why="pounds alone")
    return replace(
        q,
        end=number.end,
        value=q.value + number.value / 16,
        parts=(q.value, number.value),
        numbers=(*q.numbers, number),
        reasons=[*(r for r in q.reasons if r != MAY_BE_OUNCES), *reasons],
        candidates=[*q.candidates, alone],
    )
