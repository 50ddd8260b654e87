"""Is a number broken off, or a piece of one that a recogniser wrote in pieces.

    broken_number(case)                      of a reading
    why_broken(narration, number)            of any number: a reason and what it may be, None for a whole one

"15 O psi" was 150 or 15.0, "13 point a" 13.8, "17. 3 amps" 17.3, "10 50 grams" 1050, "4 to 0 microns" 420,
"02 bar" 0.2, "1.0 five" 1.05, "1 2 0 K" 120; "that one sixty" was 160, "one point one one four" 1.1 and 14.
Where a stop parts them both pieces are doubted: "air off 13. 5, so ...".
"""

from __future__ import annotations

from dictate.mentions.doubts.talk import Case
from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.not_values import kept_out
from dictate.mentions.spoken_numbers import Number, numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.record.visit import Candidate
from dictate.vocabulary.load import table

_NOUGHTS = frozenset(("o", "oh"))
_TO = frozenset(("to", "too"))
_POINTING = frozenset(("that", "this", "the"))
_TIMES = frozenset(("second", "minute", "hour"))


def broken_number(c: Case) -> str | None:
    """Doubt a number beside which a piece of it may stand; what it may be goes to the candidates."""
    if c.number is None or c.reading.value is None:
        return None
    found = why_broken(c.talk.n, c.number)
    if found is None:
        return None
    why, value = found
    if value is not None:
        heard = c.talk.n.heard(max(0, c.number.start - 1), min(c.number.end + 1, len(c.talk.words)))
        c.reading.candidates.append(Candidate(value=value, unit=c.reading.unit, heard=heard, why=why))
    return why


def why_broken(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Return why a number may be a piece of another one, with that one where it can be told."""
    words, behind = narration.lowers, narration.lowers[number.end : number.end + 2]
    if behind[:1] == ["point"] and not number.places and _no_noun(behind[1:]):
        return "the number breaks off behind its point", None
    if (misheard := _digit_as_a_word(narration, number)) is not None:
        return misheard
    if not number.written:
        return _run_into_its_one(narration, number) or _long_decimal(narration, number)
    if (apart := _digits_apart(narration, number)) is not None:
        return apart
    if (lost := _hundred_apart(narration, number)) is not None:
        return lost
    if number.places or not float(number.value).is_integer():
        return _digit_behind(narration, number)
    if behind[:1] and behind[0] in _NOUGHTS and number.value >= 1 and _closes(narration, number.end + 1):
        whole = number.value * 10
        return f"the {behind[0].upper()} behind it may be a nought, then it is {whole:g}", whole
    return (
        _point_lost(narration, number)
        or _parted_by_a_stop(narration, number)
        or goes_on_behind_a_stop(narration, number, with_unit=False)
        or _in_two_pieces(narration, number)
        or _first_of_two(narration, number)
        or _digits_around_to(narration, number, words)
    )


def _run_into_its_one(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "that one sixty on the low side": the sixty of that one, or 160."""
    lead = numbers_by_end(narration).get(number.start)
    if lead is None or not lead.pronoun or not 20 <= number.value <= 99 or lead.start == 0:
        return None
    if narration.lowers[lead.start - 1] not in _POINTING:
        return None
    whole = 100 + float(number.value)
    return f"the 'one' before it may belong to it, then it is {whole:g}", whole


def _long_decimal(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "one point one one four": two numbers run into each other, unless a unit closes the row."""
    if number.places < 3 or number.value < 1 or number.end in unit_phrases(narration):
        return None
    if "point" not in narration.lowers[number.start : number.end]:
        return None  # "fourteen and a half", an eighth
    return "so many digits behind the point may be two numbers", None


def _digit_behind(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "1.0 five": a digit in letters right behind a decimal in figures, and no unit behind either."""
    digit = numbers_by_start(narration).get(number.end)
    if digit is None or digit.written or number.places != 1 or not 0 < digit.value < 10:
        return None
    if not float(digit.value).is_integer() or digit.end in unit_phrases(narration):
        return None
    if not _closes(narration, digit.end):
        return None
    whole = round(float(number.value) + digit.value / 100, 2)
    return f"the digit behind it may belong to it, then it is {whole:g}", whole


def _no_noun(behind: list[str]) -> bool:
    """Tell whether what stands behind "point" is a digit misheard, or nothing: no "15 point check"."""
    return not behind or not behind[0].isalpha() or behind[0] in word_list("misheard_digits")


def _closes(narration: Narration, at: int) -> bool:
    """Tell whether a unit or a stop stands at a place."""
    return (
        at >= len(narration.lowers)
        or at in unit_phrases(narration)
        or narration.lowers[at] in {".", ",", ";"}
    )


def _point_lost(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "02 bar": nobody says a nought in front of a whole number."""
    digits = narration.tokens[number.start].text
    if number.end - number.start != 1 or number.value < 1 or digits[:1] != "0" or not digits.isdecimal():
        return None
    whole = float(f"0.{digits[1:]}")
    return f"a point may be lost behind its nought, then it is {whole:g}", whole


def _parted_by_a_stop(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "17. 3 amps": a digit begins a sentence, right behind a number that ends the one before."""
    lead = numbers_by_end(narration).get(number.start - 1)
    if lead is None or narration.lowers[number.start - 1] != "." or not _written_whole(lead):
        return None
    if not 0 <= number.value <= 9 or not _closes(narration, number.end):
        return None
    whole = float(f"{lead.value:.0f}.{number.value:.0f}")
    return f"may be the end of the number before it, then it is {whole:g}", whole


def goes_on_behind_a_stop(
    narration: Narration, number: Number, *, with_unit: bool
) -> tuple[str, float | None] | None:
    """Find the first of two pieces: "air off 13. 5, so ..."; `with_unit` is "charged 2. 1 kilos"."""
    digit = numbers_by_start(narration).get(number.end + 1)
    if digit is None or narration.lowers[number.end : number.end + 1] != ["."] or not _written_whole(number):
        return None
    if not _written_whole(digit) or not 0 <= digit.value <= 9:
        return None
    unit = unit_phrases(narration).get(digit.end)
    if with_unit != (unit is not None) or (unit is not None and unit.key in _TIMES):
        return None  # "Suction 24. 5 minutes later ..."
    if not _closes(narration, digit.end):
        return None  # "Box 36. 2 doors"
    whole = float(f"{number.value:.0f}.{digit.value:.0f}")
    return f"the digit behind its stop may belong to it, then it is {whole:g}", whole


def _in_two_pieces(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "10 50 grams": tens right behind tens, and one unit."""
    lead = numbers_by_end(narration).get(number.start)
    if lead is None or not _written_whole(lead) or number.end not in unit_phrases(narration):
        return None
    if not (10 <= lead.value <= 99 and 10 <= number.value <= 99):
        return None
    whole = lead.value * 100 + number.value
    return f"may be the end of the one number {whole:g}", whole


def _first_of_two(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find the first of "10 50 grams" and of "1 2 degrees": what is behind it may be the rest of it."""
    rest = numbers_by_start(narration).get(number.end)
    if rest is None or not rest.written or kept_out(narration).get(number.start) == "name":
        return None
    found = _in_two_pieces(narration, rest) or _digits_apart(narration, rest)
    return (found[0].replace("the end of ", ""), found[1]) if found is not None else None


def _digit_as_a_word(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "ninety for degrees", "seven ate amps": what sounds like a digit in front of the unit."""
    words = narration.lowers
    word = words[number.end] if number.end < len(words) else "."
    digit = table("numbers")["homophone"].get(word)
    if digit is None or number.places or not float(number.value).is_integer():
        return None
    if number.end + 1 not in unit_phrases(narration) or len(words[number.end + 1]) < 2:
        return None
    tens = number.value >= 20 and number.value % 10 == 0
    whole = number.value + digit if tens else number.value + digit / 10
    return f'"{word}" behind it may be the digit {digit:g}, then it is {whole:g}', whole


def _digits_apart(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "1 2 0 K" and "2 7.9 K": digits right in front of a number, and one unit behind it."""
    if number.end not in unit_phrases(narration) or not 0 <= number.value <= 9.99:
        return None
    digits, start = narration.heard(number.start, number.end), number.start
    lead = numbers_by_end(narration).get(start)
    while lead is not None and _written_whole(lead) and 0 <= lead.value <= 9:
        if kept_out(narration).get(lead.start) == "name":
            return None  # "compressor 2 7.9 amps"
        digits, start = narration.heard(lead.start, lead.end) + digits, lead.start
        lead = numbers_by_end(narration).get(start)
    if start == number.start or not digits.replace(".", "", 1).isdecimal():
        return None
    return f"may be the end of the one number {float(digits):g}", float(digits)


def _hundred_apart(narration: Narration, number: Number) -> tuple[str, float | None] | None:
    """Find "door heater 1 45 ohms": heater one with 45, or the one heater with 145.

    That several are told of proves the name: "heater 2", "both heaters", "the other heater".
    """
    lead = numbers_by_end(narration).get(number.start)
    if lead is None or lead.start == 0 or not _written_whole(lead) or not 1 <= lead.value <= 9:
        return None
    if not 10 <= number.value <= 99 or number.end not in unit_phrases(narration):
        return None
    at = lead.start
    named = next((c for c in find_components(narration) if c.end in {at, at + 1}), None)
    if named is None or _several(narration, at):
        return None
    whole = lead.value * 100 + number.value
    return f"the {lead.value:g} before it may belong to it, then it is {whole:g}", whole


def _several(narration: Narration, at: int) -> bool:
    """Tell whether the thing whose name ends at a token is told of as one of several."""
    words, noun = narration.lowers, narration.lowers[at - 1]
    plural = {f"{noun}s", f"{noun}es"}
    for i, word in enumerate(words):
        if word in plural or (
            word == noun and words[i - 1 : i] in (["other"], ["second"], ["both"], ["another"])
        ):
            return True
        number = numbers_by_start(narration).get(i + 1) if word == noun and i != at - 1 else None
        own = _kind_named(words, i) == _kind_named(words, at - 1)
        if number is not None and own and number.value <= 12 and float(number.value).is_integer():
            return True
    return False


def _kind_named(words: list[str], at: int) -> str:
    """Return the word in front of a noun that tells its kind: the door of "door heater"."""
    lead = words[at - 1] if at else "."
    return (
        lead
        if lead.isalpha() and lead not in _POINTING | _TO and lead not in {"a", "and", "on", "of"}
        else ""
    )


def _digits_around_to(
    narration: Narration, number: Number, words: list[str]
) -> tuple[str, float | None] | None:
    """Find "4 to 0 microns": nothing is read from four to nought of them, and "to" sounds like a two."""
    if not 0 <= number.value <= 9:
        return None
    for a, b in (
        (number, numbers_by_start(narration).get(number.end + 1)),
        (numbers_by_end(narration).get(number.start - 1), number),
    ):
        if a is None or b is None or words[a.end] not in _TO or not (_written_whole(a) and _written_whole(b)):
            continue
        unit = unit_phrases(narration).get(b.end)
        if 1 <= a.value <= 9 and b.value <= 9 and unit is not None and unit.key in {"micron", "psi", "volt"}:
            whole = a.value * 100 + 20 + b.value
            return f'"to" between the digits may be a two, then it is {whole:g}', whole
    return None


def _written_whole(number: Number) -> bool:
    return number.written and not number.places and float(number.value).is_integer()


__all__ = ["broken_number", "why_broken"]
