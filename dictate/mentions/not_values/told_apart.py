"""Things of one kind that are told apart by numbers: "case 5 ... case 6", "room 12", "freezer 3 had ice".

Such a noun can have a temperature as well ("box 38", "case 41"), so a number behind it is a name only with
evidence: two of them in a row, the same one said again, a clause of its own ("Case 5."), or a verb, a part or
another value behind it. What is a name once is one in the whole visit.
"""

from __future__ import annotations

from collections import defaultdict

from dictate.mentions.labels import find_components
from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import Number, numbers_by_start
from dictate.mentions.unit_words import unit_phrases
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", "?", "!", ",", ";", ":"))
_HIGHEST, _FEW = 60, 12


def things_by_number(narration: Narration) -> set[int]:
    """Return the first token of every number that tells things of one kind apart; computed once."""
    done: set[int] | None = narration.found.get("things by number")
    if done is not None:
        return done
    said: dict[tuple[str, float], list[Number]] = defaultdict(list)
    nouns = word_list("not_values_told_apart")
    starts = numbers_by_start(narration)
    units = unit_phrases(narration)
    words = narration.lowers
    for start, number in starts.items():
        at = start - 1
        if at > 0 and words[at] in {"number", "no", "#"}:
            at -= 1
        if at < 0 or words[at] not in nouns or number.places or number.negative:
            continue
        if number.value.is_integer() and 1 <= number.value <= _HIGHEST and number.end not in units:
            said[(words[at], number.value)].append(number)
    parts = {c.start for c in find_components(narration)} if said else set()
    named = {
        key
        for key, numbers in said.items()
        if any(_told(narration, n, parts) for n in numbers)
        or (key[1] <= _FEW and sum(_heads(words, n) for n in numbers) and len(numbers) > 1)
    }
    for noun, value in list(said):
        for other in (value - 1, value + 1):
            pair = said.get((noun, other), ())
            if any(0 < abs(a.start - b.start) <= 4 for a in said[(noun, value)] for b in pair):
                named.add((noun, value))  # "case 4, case 5 and case 6"
    out = {n.start for key in named for n in said[key]}
    out |= {n.start for start, n in starts.items() if _which_of_them(words, start, n, starts)}
    out |= {n.start for start, n in starts.items() if _out_of(words, start, n)}
    narration.found["things by number"] = out
    return out


def _heads(words: list[str], number: Number) -> bool:
    """Tell whether the noun and its number open a sentence, as a heading does: "Case 5.", "Room 12, ..."."""
    opens = number.start < 2 or words[number.start - 2] in {".", "?", "!", "and", "then"}
    return opens and words[number.end : number.end + 1] in (["."], [","], [":"])


def _told(narration: Narration, number: Number, parts: set[int]) -> bool:
    """Tell whether the words behind it make it a name: a verb of a thing, a part, or a value of its own."""
    words, end = narration.lowers, number.end
    after = words[end] if end < len(words) else "."
    if after in word_list("not_values_things_do") or end in parts:
        return True
    starts = numbers_by_start(narration)
    if after in word_list("not_values_things_are"):
        behind = words[end + 1 : end + 6]
        stop = next((i for i, w in enumerate(behind) if w in _STOPS), len(behind))
        return any(end + 1 + i in starts for i in range(stop))
    if after == "," and (second := starts.get(end + 1)) is not None:
        unit = unit_phrases(narration).get(second.end)
        return unit is not None and unit.key not in {"degree", "celsius", "fahrenheit"}
    return False


def _which_of_them(words: list[str], start: int, number: Number, starts: dict[int, Number]) -> bool:
    """Tell whether a number tells which of several: "discharge air on 3 now 35, on 4 it's 33"."""
    few = (
        number.value.is_integer() and 1 <= number.value <= _FEW and not number.places and not number.negative
    )
    if not few or words[max(0, start - 1) : start] not in (["on"], ["for"]):
        return False
    behind = words[number.end : number.end + 2]
    if behind[:1] in (["now"], ["is"], ["it's"], ["was"], ["reads"], ["'s"]):
        return number.end + 1 in starts
    return behind in (["it", "'s"], ["it", "is"], ["is", "now"], ["it", "was"]) and number.end + 2 in starts


def _out_of(words: list[str], start: int, number: Number) -> bool:
    """Tell whether a number counts a lot of things: "two out of 5", "the middle one of three"."""
    few = number.value.is_integer() and 2 <= number.value <= 24 and not number.places
    if not few or words[max(0, start - 1) : start] != ["of"]:
        return False
    lead = words[start - 2] if start > 1 else "."
    return lead in {"out", "one", "ones"} and words[number.end : number.end + 1] not in (
        ["degrees"],
        ["amps"],
    )
