"""Which of several a component is: "fan two", "the left compressor"."""

from __future__ import annotations

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import numbers_by_end, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list
from dictate.vocabulary.load import table


def which_of_several(narration: Narration, start: int, end: int) -> str | None:
    """Return which of several is meant: "fan two", "the second fan", "left fan"."""
    tokens = narration.tokens
    numbers = numbers_by_start(narration)
    ends = numbers_by_end(narration)
    before = tokens[start - 1].lower if start else ""
    number = ends.get(start)
    if number is not None and number.form == "ordinal":
        return f"{number.value:g}"
    if number is not None and number.start and tokens[number.start - 1].lower in {"number", "#"}:
        return f"{number.value:g}"
    if before in table("points")["which"]["words"] and before not in {"old", "new"}:
        return before
    at = end
    if at < len(tokens) and tokens[at].lower in {"number", "#", "no"}:
        at += 1
    following = numbers.get(at)
    if (
        following is not None
        and following.form in {"plain", "counted"}
        and following.end - following.start == 1
        and following.value.is_integer()
        and 1 <= following.value <= 12
        and (at > end or following.form == "counted" or _names(narration, following.end, at))
        and not (at == end and _level_of_it(narration, before, following.end))
    ):
        return f"{following.value:g}"
    return None


def _level_of_it(narration: Narration, before: str, end: int) -> bool:
    """Tell whether a number closes the clause of a thing with its article: "off the evaporator | 8,"."""
    if before not in {"the", "this", "that", "my", "its"}:
        return False
    words = narration.lowers
    closes = end >= len(words) or words[end] in {",", ".", ";", "and"}
    return closes and end + 1 not in numbers_by_start(narration)


def _names(narration: Narration, end: int, start: int) -> bool:
    """Tell whether a small number after a component is its name and not a value: what follows decides."""
    tokens = narration.tokens
    if end >= len(tokens):
        return False
    nxt = tokens[end].lower
    # "fan two 1.1 amps", "compressor 2 is drawing", "fan 3 draws", "compressor 1, 31.5"
    numbers = numbers_by_start(narration)
    if end in numbers:
        return True
    if nxt in {".", ":"} and _heads_sentence(narration, start):
        return True
    if nxt == ",":
        if end + 1 in numbers:
            value = numbers[end + 1]
            # "Fan two, zero amps": the number with its unit is the value
            sure = value.places > 0 or value.value >= 20 or value.value == 0
            return sure or value.end in unit_phrases(narration)
        return not tokens[start].lower.isdigit()
    if end in unit_phrases(narration) and nxt not in {"and", "to"}:
        # "fan two amps 1.1" names the fan, "fan five amps" does not
        return unit_phrases(narration)[end].end in numbers
    word = not tokens[start].lower.isdigit()
    few = tokens[start].lower in {"1", "2", "3", "4", "5", "6"}
    if (
        few
        and nxt.isalpha()
        and nxt not in word_list("labels_names_2")
        and end not in unit_phrases(narration)
    ):
        return True
    if word and nxt.isalpha() and nxt not in word_list("labels_names_2"):
        return True
    return nxt in word_list("labels_names")


def _heads_sentence(narration: Narration, number: int) -> bool:
    """Tell whether a component and its number are all of a sentence: "Compressor two. L1 to L2 ..."."""
    tokens = narration.tokens
    if tokens[number].lower not in {*"123456", "one", "two", "three", "four", "five", "six"}:
        return False
    i = number - 1
    while i >= 0 and number - i <= 4 and tokens[i].lower not in {".", "?", "!"}:
        if tokens[i].segment != tokens[number].segment:
            break
        i -= 1
    opening = [t.lower for t in tokens[i + 1 : number]]
    return number - i <= 4 and not {"is", "was", "at", "amps", "draws", "pulls"} & set(opening)
