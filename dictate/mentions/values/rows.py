"""Whether the values of several things are being read off, one after the other."""

from __future__ import annotations

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.word_lists import word_list


def one_of_a_row(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether "nothing" is the value of one of several that were measured: "third one zip"."""
    i = a
    while i > 0 and words[i - 1] in {
        "one",
        ",",
        ":",
        "is",
        "'s",
        "was",
        "gets",
        "gives",
        "shows",
        "reads",
        "leg",
        "lead",
    }:
        i -= 1
    counted = i > 0 and (words[i - 1] in word_list("readings_sides") or words[i - 1].isdigit())
    # "two point five, | three, nothing"
    named_so = COUNTS | {"a", "b", "c"}
    counted = counted or (i > 1 and words[i - 1] in named_so and words[i - 2] in {",", ".", "and", ";"})
    if words[i - 1 : i] == ["and"] and i > 1:  # "eight point one, eight point two and zip"
        numbers = [n for n in find_numbers(narration) if i - 12 <= n.end <= i - 1]
        counted = counted or (len(numbers) >= 2 and numbers[-1].end == i - 1)
    named = any(c.which is not None and 0 <= a - c.end <= 3 for c in find_components(narration))
    if not (counted or named):
        return False
    row = set(words[max(0, i - 30) : i - 1]) & word_list("values_row_talk")
    return bool(row) and any(i - 20 <= n.end <= i - 1 for n in find_numbers(narration))


def ohms_row(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether ohms of several things are being read off in front of token a."""
    near = set(words[max(0, a - 40) : a])
    return bool(near & {"ohm", "ohms", "ohmed", "resistance"}) and any(
        a - 14 <= n.end <= a - 1 and n.value > 12 for n in find_numbers(narration)
    )


COUNTS = frozenset({"one", "two", "three", "four", "five", "six", "seven", "eight"})


def row_ohmed(narration: Narration, words: list[str], a: int) -> bool:
    """Tell whether ohms were read in this sentence or the two before it, with a number to them."""
    first, stops = a, 0
    while first > 0 and a - first < 40:
        if words[first - 1] in {".", "?", "!"}:
            stops += 1
            if stops > 2:
                break
        first -= 1
    talk = set(words[first : a + 3])
    if not word_list("values_row_ohms") & talk or {"door", "doors", "valve"} & set(words[max(0, a - 3) : a]):
        frames = words[a - 2 : a - 1] == ["door"] and bool({"heater", "heaters"} & talk)
        if not (frames and words_of_ohms(talk)):
            return False  # "door one heater seventy-six ohms. Door two open" is the next heater
    return any(first <= n.start and n.end <= a for n in find_numbers(narration))


def words_of_ohms(talk: set[str]) -> bool:
    """Tell whether ohms were spoken of outright."""
    return bool({"ohm", "ohms", "ohmed"} & talk)


def full_stop(words: list[str], a: int, b: int) -> bool:
    """Tell whether a sentence ends within the words [a, b)."""
    return any(w in {".", "?", "!"} for w in words[a:b])
