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
