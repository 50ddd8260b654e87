"""The proof that a circuit is dead, in a clause of its own: "meter on the leads, dead", "all zero".

    dead_told(words, out, taken) -> list[Value]
    is_proof_of_dead(words, start, end) -> bool

The power was switched off before, and the sentence names a meter or a test. A value that was said of all
legs gets one point for each.
"""

from __future__ import annotations

from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", "?", "!", ";"))
_COUNTS = {"three": 3, "3": 3, "both": 2, "two": 2, "2": 2}
_OFF, _TEST = 34, 18
_ANY = frozenset(("any", "each", "every", "either", "all", "none"))
_ZEROS = frozenset(("zero", "zeros", "zeroes", "nothing", "dead", "0", "nought", "noughts"))
_BEHIND_DEAD = _STOPS | {",", "and", "good", "as", "so", "on", "both", "all", "across", "there", "at"}


def dead_told(words: list[str], out: list[Value], taken: set[int]) -> list[Value]:
    """Return the noughts of tests for dead that no other look took; counts the legs of those it took."""
    if word_list("dead_told_answers").isdisjoint(words):
        return []
    found: list[Value] = []
    for v in out:
        if v.state == "zero" and not v.points and words[v.start] in {"nothing", "none", "nowt", "zip"}:
            count = _legs(words, v.start, v.end)
            if count > 1 and _tested(words, v.start):
                v.points = ("ground",) * count
    for a, word in enumerate(words):
        if word not in word_list("dead_told_answers") or a in taken:
            continue
        value = (
            _dead(words, a)
            or _nil(words, a)
            or _all_zero(words, a)
            or _nothing(words, a)
            or _none_after(words, a)
        )
        if value is not None and taken.isdisjoint(range(value.start, value.end)):
            found.append(value)
            taken.update(range(value.start, value.end))
    return found


_PROVED = frozenset(("proved", "proven", "proof", "verified", "confirmed", "retest", "retested"))
_DEAD_WHERE = frozenset(("at", "on", "across", "with", "between", "to", "both", "all"))


def is_proof_of_dead(words: list[str], start: int, end: int) -> bool:
    """Tell whether the words [start, end) that say "dead" are a proof made with a meter: "tested dead at it".

    The power is off, a test was named, and the meter, the proof or where it was held is told.
    """
    if "dead" not in words[start:end] or not _tested(words, start):
        return False
    lead, behind = words[_first(words, start) : start], words[end : end + 1]
    return not (_PROVED | word_list("values_dead_meters")).isdisjoint(lead) or not _DEAD_WHERE.isdisjoint(
        behind
    )


def _first(words: list[str], a: int, most: int = _TEST) -> int:
    first = a
    while first > 0 and words[first - 1] not in _STOPS and a - first < most:
        first -= 1
    return first


def _tested(words: list[str], a: int) -> bool:
    """Tell whether the sentence names a meter or a test, of volts and not of ohms, with the power off."""
    lead = words[_first(words, a) : a]
    tests = word_list("values_dead_tests") | word_list("values_dead_meters") | {"measure", "measured"}
    if tests.isdisjoint(lead) or not word_list("dead_told_ohms").isdisjoint(lead):
        return False
    if not word_list("dead_told_leaks").isdisjoint(lead):
        return False
    return not word_list("values_dead_off").isdisjoint(words[max(0, a - _OFF) : a])


def _legs(words: list[str], a: int, b: int) -> int:
    """Return of how many legs a state was said; 1 where it was not counted."""
    behind = words[b : b + 7]
    behind = behind[: next((i for i, w in enumerate(behind) if w in _STOPS | {","}), len(behind))]
    for w, nxt in zip(behind, [*behind[1:], ""], strict=False):
        if w in _COUNTS and (w == "both" or nxt in word_list("states_legs") | {"and", "to", "ways", ""}):
            return _COUNTS[w]
    if _ANY & set(behind[:3]):
        lead = words[_first(words, a) : a]
        for w, nxt in zip(lead, [*lead[1:], ""], strict=False):
            if (w == "all" and nxt in {"three", "3"}) or w == "both":
                return 3 if w == "all" else 2
    return 1


def _zero(a: int, b: int, count: int) -> Value:
    value = Value(a, b, 0.0, state="zero")
    if count > 1:
        value.points = ("ground",) * count
    return value


def _dead(words: list[str], a: int) -> Value | None:
    """Read "meter on the leads, | dead", "checked it, | dead both legs"."""
    if words[a] != "dead" or words[a - 1 : a] not in ([","], [":"]) or not _tested(words, a):
        return None
    if words[a + 1 : a + 2] and words[a + 1] not in _BEHIND_DEAD:
        return None
    lead = words[_first(words, a) : a - 1]
    if not {"zero", "0", "nothing", "nought", "volts"}.isdisjoint(lead[-4:]):
        return None  # "checked with the tester, zero volts, dead" told its value
    at = (
        word_list("values_dead_at")
        | word_list("values_dead_meters")
        | {"contactor", "side", "it", "disconnect"}
    )
    return _zero(a, a + 1, _legs(words, a, a + 1)) if not at.isdisjoint(lead) else None


def _nil(words: list[str], a: int) -> Value | None:
    """Read "tested dead at the contactor, | nil volts"."""
    if words[a] != "nil" or words[a + 1 : a + 2] not in (
        ["volts"],
        ["voltage"],
        ["volt"],
        ["amps"],
        ["current"],
    ):
        return None
    return _zero(a, a + 2, _legs(words, a, a + 2))


def _all_zero(words: list[str], a: int) -> Value | None:
    """Read "tested for dead, | all zero", "tested dead, | all three zero"."""
    if words[a] not in _ZEROS:
        return None
    count = 3 if words[a - 1] in {"three", "3"} and words[a - 2 : a - 1] == ["all"] else 1
    begin = a - 1 - (count == 3)
    if words[begin : begin + 1] != ["all"] or words[begin - 1 : begin] not in ([","], [":"], ["."], ["and"]):
        return None
    if words[a + 1 : a + 2] and words[a + 1] not in _STOPS | {",", "and", "volts", "good", "across", "so"}:
        return None
    return _zero(begin, a + 1 + (words[a + 1 : a + 2] == ["volts"]), count) if _tested(words, begin) else None


def _none_after(words: list[str], a: int) -> Value | None:
    """Read "two thirteen before, | zip after, leg to leg and both legs to ground" as no volts at each."""
    if words[a] not in word_list("told_twice_nought") | {"nothing", "none", "zilch"}:
        return None
    if words[a + 1 : a + 2] != ["after"] or "before" not in words[max(0, a - 4) : a]:
        return None
    if word_list("values_dead_off").isdisjoint(words[max(0, a - _OFF) : a]):
        return None
    value = _zero(a, a + 1, 1)
    behind = words[a + 2 : a + 18]
    behind = behind[: next((i for i, w in enumerate(behind) if w in _STOPS), len(behind))]
    pairs = [i for i, w in enumerate(behind[:-2]) if w in word_list("states_legs") and behind[i + 1] == "to"]
    for i in pairs:
        if behind[i + 2] in word_list("states_legs"):
            value.points += ("L1-L2",)
        else:
            value.points += ("ground",) * (
                2 if {"both", "each", "either"} & set(behind[max(0, i - 2) : i]) else 1
            )
    return value


def _nothing(words: list[str], a: int) -> Value | None:
    """Read "voltage tester, | nothing between all three and earth", "checked for voltage, | none"."""
    if words[a] not in {"nothing", "none"} or words[a - 1 : a] not in ([","], [":"], ["and"], ["got"]):
        return None
    if not _tested(words, a):
        return None
    behind = words[a + 1 : a + 2]
    volts = not {"voltage", "volts", "voltmeter", "tester", "power", "live", "dead"}.isdisjoint(
        words[_first(words, a) : a]
    )
    if not volts or (
        behind and behind[0] not in _STOPS | {",", "between", "on", "across", "at", "anywhere", "there", "to"}
    ):
        return None
    return _zero(a, a + 1, _legs(words, a, a + 1))


__all__ = ["dead_told", "is_proof_of_dead"]
