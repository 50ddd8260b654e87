"""Words behind a number that make it a temperature, whoever reads them: places, sides of a coil, leaving.

Each function looks at the lower-case words of a narration from the token behind the number.
"""

from __future__ import annotations

from collections.abc import Sequence

from dictate.mentions.patterns import NUMBER_WORDS
from dictate.mentions.word_lists import phrase_at, word_list

STOPS = frozenset((",", ".", ";", "?", "!", ":", "and", "but", "so", "then", "with"))
_BETWEEN = frozenset(("right", "now", "still", "even", "today", "degrees", "degree"))
_FIRST = tuple([w] for w in ("when", "by", "before", "as"))
_OPENINGS = ("when i ", "when we ", "by the time ", "before i ", "before we ", "as i ", "as we ")


def place_behind(words: Sequence[str], end: int) -> str | None:
    """Return the point that the words behind a value tell: "eighty two up here", "eighteen in there"."""
    at = end
    while at < len(words) and at - end < 3 and words[at] in _BETWEEN:
        at += 1
    for point, name in (("ambient", "readings_places_around"), ("box", "readings_places_inside")):
        size = phrase_at(name, words, at)
        if size:
            rest = words[at + size : at + size + 1]
            if not rest or rest[0] in STOPS or rest[0] in word_list("readings_goes_on_behind"):
                return point
            if point == "ambient" and phrase_at(name, words, at + size):
                return point  # "ninety-four in the shade out there"
    return "ambient" if _some_place(words, at) else None


def weather_out(words: Sequence[str], start: int, end: int) -> bool:
    """Tell whether "26 degrees out" opens its clause and is the weather, no side of a coil."""
    if words[end : end + 1] != ["out"]:
        return False
    behind = words[end + 1 : end + 2]
    if behind and behind[0] not in STOPS and behind[0] not in {"today", "now", "this", "tonight", "already"}:
        return False
    at = start
    while at > 0 and words[at - 1] in {
        "it",
        "it's",
        "'s",
        "is",
        "was",
        "about",
        "only",
        "at",
        "still",
        "with",
        "and",
        "a",
    }:
        at -= 1
    compared = words[start - 1 : start] in (["for"], ["with"], ["against"])  # "fine for ninety-six out"
    if at and words[at - 1] not in STOPS and not compared:
        return False
    before, after = list(words[max(0, start - 14) : start]), list(words[end + 1 : end + 14])
    before = before[max((i for i, w in enumerate(before) if w in _ENDS), default=-1) + 1 :]
    after = after[: next((i for i, w in enumerate(after) if w in _ENDS), len(after))]
    said = [*before, "|", *after]
    if any(
        w == "on"
        and _numeral(said[i - 1 : i] or said[i + 1 : i + 2])
        and said[i + 1 : i + 2] not in (["the"], ["my"], ["that"], ["this"])
        for i, w in enumerate(said)
    ):
        return False  # "46 on, 40 out"
    return not _OF_A_COIL & set(said)


def _numeral(words: Sequence[str]) -> bool:
    return bool(words) and (words[0] in NUMBER_WORDS or words[0][:1].isdigit())


_ENDS = frozenset((".", "?", "!", ";"))
_PLACE_ENDS = frozenset(
    ("is", "was", "when", "at", "by", "next", "near", "behind", "beside", "where", "over", "today", "now")
)
_OF_A_COIL = frozenset(("in", "entering", "return", "water", "glycol", "air", "supply"))


def _some_place(words: Sequence[str], at: int) -> bool:
    """Tell whether the words at a place name a room or a place around: "in the ice shack"."""
    k = at + (words[at : at + 1] in (["up"], ["out"], ["down"], ["back"], ["over"]))
    if words[k : k + 1] not in (["in"], ["on"], ["at"], ["behind"], ["by"], ["around"], ["outside"]):
        return False
    if words[k + 1 : k + 2] not in (
        ["the"],
        ["this"],
        ["that"],
        ["their"],
        ["his"],
        ["her"],
        ["our"],
        ["my"],
        ["a"],
    ):
        return False
    phrase = list(words[k + 2 : k + 6])
    cut = next((i for i, w in enumerate(phrase) if w in STOPS or w in _PLACE_ENDS), len(phrase))
    phrase = phrase[:cut]
    nouns = word_list("readings_place_nouns")
    return bool(phrase) and phrase[-1] in nouns and not word_list("readings_cold_places") & set(phrase)


_TIME_UNITS = frozenset(("minute", "minutes", "hour", "hours", "second", "seconds", "min", "hr"))


def rate_behind(words: Sequence[str], end: int) -> bool:
    """Tell whether a value is told for each stretch of time: "three degrees | every ten minutes"."""
    led = words[end : end + 1]
    if led in (["a"], ["an"]):
        behind = words[end + 2 : end + 3]  # "five point six degrees | an hour later" is a level
        return not _TIME_UNITS.isdisjoint(words[end + 1 : end + 2]) and (
            not behind or behind[0] in STOPS or behind[0] in {"or", "roughly", "now", "all", "still"}
        )
    return led in (["every"], ["each"], ["per"]) and not _TIME_UNITS.isdisjoint(words[end + 1 : end + 5])


def side_behind(words: Sequence[str], end: int) -> str | None:
    """Return the side that stands behind a value: "in" for going in and on, "out" for coming off."""
    at = end + (words[end : end + 1] in (["degrees"], ["degree"]))
    for side, name in (("in", "readings_goes_in"), ("out", "readings_comes_off")):
        size = phrase_at(name, words, at)
        if size:
            rest = words[at + size : at + size + 1]
            if not rest or rest[0] in STOPS or rest[0] in {"before", "after", "now", "which", "at"}:
                return side
            if _value_of_the_other_side(words, at + size, "out" if side == "in" else "in"):
                return side  # "54 in 44 out", told without a pause
    return None


def _value_of_the_other_side(words: Sequence[str], at: int, other: str) -> bool:
    """Tell whether a number and the other side follow at once."""
    end = at
    while end < len(words) and end - at < 5 and (words[end] in NUMBER_WORDS or words[end][:1].isdigit()):
        end += 1
    return end > at and words[end : end + 1] == [other]


def leaving_behind(words: Sequence[str], end: int) -> bool:
    """Tell whether the words behind a value are the moment of leaving: "when I packed up"."""
    if words[end : end + 1] not in _FIRST:
        return False
    after = " ".join(words[end : end + 7]) + " "
    if after.startswith(_OPENINGS):
        return bool(word_list("readings_leaves") & set(words[end : end + 8]))
    return False
