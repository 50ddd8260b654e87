"""States that answer what was asked or told just before: "Anything to ground? No, all three clear".

    states_told(narration, words, taken) -> list[Value]

A question or a heading says between what, the answer says that there is nothing, and of how many.
"""

from __future__ import annotations

from dictate.mentions.labels import find_points
from dictate.mentions.narration import Narration
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", "?", "!"))
_ENDS = frozenset((".", "?", "!", ",", ";", "and", "but", "so", "too", "also", "as"))
_WINDINGS = ("common-ground", "run-ground", "start-ground")
_ASKED, _HEADED, _GROUNDS = 12, 3, 45


def states_told(narration: Narration, words: list[str], taken: set[int]) -> list[Value]:
    """Return the states of answers and headings that no other look took, in order."""
    if word_list("states_told_answers").isdisjoint(words):
        return []
    out: list[Value] = []
    for a, word in enumerate(words):
        if word not in word_list("states_told_answers") or a in taken:
            continue
        value = (
            _all_clear(words, a)
            or _no_and_no(words, a, taken)
            or _clear_too(words, a)
            or _none_between(narration, words, a)
            or _none_of_volts(words, a)
        )
        if value is not None and taken.isdisjoint(range(value.start, value.end)):
            out.append(value)
            taken.update(range(value.start, value.end))
    return out


def _grounds(words: list[str], begin: int, end: int) -> bool:
    return not word_list("values_ground").isdisjoint(words[max(0, begin) : end])


def _open(start: int, end: int, count: int) -> Value:
    value = Value(start, end, 0.0, state="open", ground=True)
    if count == 3:
        value.points = _WINDINGS
    elif count > 1:
        value.points = ("ground",) * count
    return value


def _all_clear(words: list[str], a: int) -> Value | None:
    """Read "Anything to ground? No sir, | all three clear" as open at each of them."""
    if words[a] not in {"clear", "open", "nothing", "infinite", "clean"}:
        return None
    counts = {"three": 3, "3": 3, "two": 2, "2": 2, "both": 2, "four": 4, "4": 4, "five": 5, "5": 5}
    lead = words[max(0, a - 3) : a]
    while lead and lead[-1] in {
        "are",
        "were",
        "is",
        "of",
        "them",
        "read",
        "pins",
        "terminals",
        "leads",
        "windings",
        "elements",
    }:
        lead.pop()
    if not lead or lead[-1] not in counts or (lead[-1] != "both" and lead[-2:-1] != ["all"]):
        return None
    if words[a + 1 : a + 2] and words[a + 1] not in _ENDS:
        return None
    begin = a - _ASKED
    asked = [i for i in range(max(0, begin), a) if words[i] == "?"]
    if not (asked and _grounds(words, asked[-1] - 6, asked[-1])) and not _checked_to_ground(words, a):
        return None
    return _open(a, a + 1, counts[lead[-1]])


def _checked_to_ground(words: list[str], a: int) -> bool:
    """Tell whether "checked all three to ground and all three are | clear" tells between what."""
    first = a
    while first > 0 and words[first - 1] not in _STOPS and a - first < 16:
        first -= 1
    lead = words[first:a]
    return not {"checked", "tested", "ohmed", "metered", "check", "megged", "rang", "tried"}.isdisjoint(
        lead
    ) and any(lead[i] == "to" and _grounds(lead, i + 1, i + 3) for i in range(len(lead) - 1))


def _no_and_no(words: list[str], a: int, taken: set[int]) -> Value | None:
    """Read "Ground, | no, no and no" as open at each of them."""
    if words[a] not in {"no", "nope", "nothing", "clear", "open", "infinite"} or a - 1 in taken:
        return None
    if words[a - 1 : a] not in ([","], [":"]) or not _grounds(words, a - _HEADED, a - 1):
        return None
    word, end, count = words[a], a + 1, 1
    while words[end : end + 1] in ([","], ["and"]):
        step = end + 1 + (words[end : end + 2] == [",", "and"])
        if words[step : step + 1] != [word]:
            break
        end, count = step + 1, count + 1
    if count < 2 or (words[end : end + 1] and words[end] not in _STOPS | {",", ";"}):
        return None
    return _open(a, end, count)


def _clear_too(words: list[str], a: int) -> Value | None:
    """Read "none of them to ground. Fan motor: ..., and it is | clear too" as nothing to ground."""
    if words[a] != "clear" or words[a + 1 : a + 2] not in (["too"], ["also"], ["as"]):
        return None
    lead = words[max(0, a - 3) : a]
    if not {"is", "'s", "it's", "was"} & set(lead[-1:]) or not {"it", "it's", "that", "one"} & set(lead):
        return None
    return _open(a, a + 1, 1) if _grounds(words, a - _GROUNDS, a) else None


def _none_between(narration: Narration, words: list[str], a: int) -> Value | None:
    """Read "no continuity common to run and | none common to start" as open there."""
    if words[a] not in {"none", "nothing"}:
        return None
    point = next(
        (p for p in find_points(narration) if p.kind == "winding" and 0 <= p.start - a - 1 <= 2), None
    )
    if point is None or set(words[a + 1 : point.start]) - {"on", "from", "across", "between", "the"}:
        return None
    if not word_list("states_told_ohms") & set(words[max(0, a - 14) : a]):
        return None
    return Value(a, a + 1, 0.0, state="open")


def _none_of_volts(words: list[str], a: int) -> Value | None:
    """Read "checked for volts and there were | none on any of the three" as nought on each."""
    if words[a] not in {"none", "nothing"} or not {"volts", "voltage"} & set(words[max(0, a - 8) : a]):
        return None
    if words[a + 1 : a + 2] not in (["on"], ["at"], ["across"]):
        return None
    tail = words[a + 1 : a + 7]
    cut = next((i for i, w in enumerate(tail) if w in _STOPS), len(tail))
    return Value(a, a + 1, 0.0, state="zero") if {"any", "all", "each", "either"} & set(tail[:cut]) else None


__all__ = ["states_told"]
