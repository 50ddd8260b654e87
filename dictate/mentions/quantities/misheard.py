"""Digits that a recogniser wrote as words, and what else a number as heard may be."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.quantities.quantity import Quantity, tidy
from dictate.mentions.spoken_numbers import Number
from dictate.mentions.unit_words import unit_phrases, unit_words
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table


def homophone_quantities(narration: Narration) -> list[Quantity]:
    """Find a unit behind a word that sounds like a digit: "2 pounds for ounces", "charged ate ounces"."""
    data: dict[str, int] = table("numbers")["homophone"]
    tokens = narration.tokens
    out = []
    for start, phrase in unit_phrases(narration).items():
        if start == 0 or tokens[start - 1].lower not in data:
            continue
        if phrase.key not in word_list("quantities_homophone_quantities_3"):
            continue
        word = tokens[start - 1].lower
        if len(tokens[start].lower) == 1 and phrase.end - start == 1:
            continue  # "ate a sandwich"
        before = tokens[start - 2].lower if start > 1 else ""
        # "switched to ounces", "looking for amps" are plain English
        if word in {"to", "too", "for", "fore"} and (
            phrase.key not in {"ounce", "pound", "gram"}
            or before in word_list("quantities_homophone_quantities_2")
            or not (before in word_list("quantities_homophone_quantities") or before.isdigit())
        ):
            continue
        unit = unit_words()[phrase.key]
        digit = float(data[word])
        number = Number(start - 1, start, digit)
        q = Quantity(start - 1, phrase.end, digit, phrase.key, unit.kind, unit.means, (number,))
        q.reasons.append(
            f'"{tokens[start - 1].text}" before a unit may be the digit {digit:g} as a recogniser writes it'
        )
        out.append(q)
    return out


def note_alternatives(narration: Narration, q: Quantity) -> None:
    """Note the other readings that the number itself has."""
    number = q.numbers[0]
    for other in number.alternatives:
        heard = narration.heard(q.start, q.end)
        for value in other.values:
            q.candidates.append(Candidate(value=value, unit=q.unit, heard=heard, why=other.why))
        if number.form == "two_digits" or number.written:
            q.reasons.append(other.why)
    lead = lost_hundred(narration, number)
    if lead is not None:
        why = f'"to" before {number.value:g} may be the digit two, then it is {lead:g}'
        q.candidates.append(
            Candidate(value=lead, unit=q.unit, heard=narration.heard(q.start - 1, q.end), why=why)
        )
        q.reasons.append(why)
    whole = half_written(narration, number)
    if whole is not None:
        why = half_written_why(whole)
        heard = narration.heard(q.start - 1, q.end)
        q.candidates.append(Candidate(value=whole, unit=q.unit, heard=heard, why=why))
        q.reasons.append(why)
    decimal_ounces = (
        q.word == "ounce"
        and narration.recognised
        and number.written
        and number.places == 1
        and number.value >= 1
    )
    if q.word == "ounce" and number.places == 1 and number.written and not decimal_ounces:
        # typed or not: the same digits said as pounds and ounces elsewhere make it doubtful
        decimal_ounces = _said_as_pounds(narration, number)
    if decimal_ounces:
        pounds, ounces = int(number.value), round(number.value % 1 * 10)
        if ounces:
            why = f"a recogniser writes {pounds} pounds {ounces} ounces in this way too"
            q.candidates.append(
                Candidate(
                    value=tidy(pounds + ounces / 16),
                    unit="lb",
                    heard=narration.heard(q.start, q.end),
                    why=why,
                )
            )
            q.reasons.append(why)


def _said_as_pounds(narration: Narration, number: Number) -> bool:
    """Tell whether the text says "1 pound 5 ounces" elsewhere, which makes "1.5 ounces" doubtful."""
    tokens = narration.tokens
    pounds, ounces = int(number.value), round(number.value % 1 * 10)
    for i in range(len(tokens) - 3):
        same = tokens[i].lower == str(pounds) and tokens[i + 1].lower in {"pound", "pounds", "lb", "lbs"}
        if same and tokens[i + 2].lower == str(ounces) and tokens[i + 3].lower in {"ounce", "ounces", "oz"}:
            return True
    return False


_BEFORE_TO = word_list("quantities_before_to")


def lost_hundred(narration: Narration, number: Number) -> float | None:
    """Return what "to 65" is when "to" is a misheard "two": 265; None where "to" is plain English."""
    tokens = narration.tokens
    i = number.start - 1
    if i < 1 or tokens[i].lower not in {"to", "too"} or not number.written or number.places:
        return None
    unit = tokens[number.end].lower if number.end < len(tokens) else ""
    volts = (
        unit in {"volts", "volt", "v"}
        and 5 <= number.value <= 48
        and tokens[i - 1].lower in {"got", "get", "had", "read"}
    )
    if not 5 <= number.value <= 99 or not (tokens[i - 1].lower in _BEFORE_TO or volts):
        return None
    return 200 + number.value


def half_written(narration: Narration, number: Number) -> float | None:
    """Return what "one 15" is when half of the number was written in digits: 115; "80 one" is 81."""
    words, start, end = narration.lowers, number.start, number.end
    if not number.written or number.places or not number.value.is_integer() or end - start != 1:
        return None
    if words[start - 1 : start] == ["one"] and 10 <= number.value <= 99:
        led = words[start - 2] if start > 1 else "."
        return 100 + number.value if led in _HALF_LED else None
    behind = words[end : end + 2]
    if (
        behind[:1] == ["one"]
        and number.value in _TENS
        and behind[1:] in ([], ["."], [","], ["and"], ["degrees"])
    ):
        return number.value + 1
    return None


_TENS = frozenset((20, 30, 40, 50, 60, 70, 80, 90))
_HALF_LED = frozenset(
    (".", ",", ";", "at", "is", "was", "'s", "reads", "read", "head", "volts", "got", "to", "of", "about")
)
"""Before "one 15": with a noun in front of it, "one" may number the noun ("fan one 15 watts")."""


def half_written_why(whole: float) -> str:
    """Return the reason to look at half of a number."""
    return f'"one" beside it may belong to the number, then it is {whole:g}'
