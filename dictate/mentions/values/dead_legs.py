"""A test for dead that goes over the legs clause by clause: "two hots, zip, each one to the cabinet, zip".

    dead_legs(words, taken) -> list[Value]

The power was switched off before. Either a clause names legs and what they were tried against, and the next
one says that there is nothing; or it is told in one breath, "there wasn't a volt on any of the three", "not a
flicker between any two phases or to earth". A value of three pairs, of all legs or of two tests in one breath
is one for each.
"""

from __future__ import annotations

from dictate.mentions.values.ohms_spoken import speaks_of_ohms
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import first_words, phrase_at, word_list

_STOPS = frozenset((".", "?", "!", ";"))
_PAIRS = ("L1-L2", "L2-L3", "L1-L3")
_COUNTS = {"three": 3, "3": 3, "both": 2, "two": 2, "2": 2}
_BEHIND = 12
_NUMBERS = frozenset(("all", "any", "each", "every", "either", "both", "none", "neither"))


def dead_legs(words: list[str], taken: set[int]) -> list[Value]:
    """Return the noughts of tests for dead that no other look took, in order."""
    out: list[Value] = []
    if word_list("values_dead_off").isdisjoint(words):
        return out
    one_breath, answers = first_words("dead_legs_not_a_volt"), first_words("dead_legs_answers")
    for a, word in enumerate(words):
        if a in taken:
            continue
        value = _not_a_volt(words, a) if word in one_breath else None
        if value is None and word in answers:
            value = _behind_legs(words, a)
        if value is not None and taken.isdisjoint(range(value.start, value.end)):
            out.append(value)
            taken.update(range(value.start, value.end))
    return out


def _zero(a: int, b: int, points: tuple[str, ...]) -> Value:
    value = Value(a, b, 0.0, state="zero")
    if len(points) > 1:
        value.points = points
    return value


def _first(words: list[str], a: int, most: int) -> int:
    first = a
    while first > 0 and words[first - 1] not in _STOPS and a - first < most:
        first -= 1
    return first


def _off(words: list[str], a: int) -> bool:
    """Tell whether the power was switched off before, and no ohms were spoken of since."""
    near = words[max(0, a - 34) : a]
    last = max((i for i, w in enumerate(near) if w in word_list("values_dead_off") - {"out"}), default=-1)
    if last < 0 or any(phrase_at("dead_legs_on_again", near, i) for i in range(last, len(near))):
        return False
    parts = word_list("values_dead_others") | {"heater", "element", "elements", "coil"}
    return not speaks_of_ohms([w for w in near[last:] if w not in parts])


def _not_a_volt(words: list[str], a: int) -> Value | None:
    """Read "there | wasn't a volt on any of the three", "| not a flicker between two phases or to earth"."""
    count = phrase_at("dead_legs_not_a_volt", words, a)
    if not count or not _off(words, a):
        return None
    tail = words[a + count : a + count + _BEHIND]
    tail = tail[: next((i for i, w in enumerate(tail) if w in _STOPS), len(tail))]
    if tail[:1] and tail[0] in word_list("dead_legs_anywhere"):
        return _zero(a, a + count + 1, ("ground",))
    if not tail or tail[0] not in {
        "on",
        "at",
        "across",
        "between",
        "to",
        "from",
        "any",
        "leg",
        "phase",
        "line",
    }:
        return None
    lead = words[_first(words, a, 18) : a]
    if not (_legs(tail) or (set(tail) & _NUMBERS and set(tail) & {"three", "them", "two"})):
        return None
    if not word_list("dead_told_leaks").isdisjoint([*lead, *tail]):
        return None
    grounds = not word_list("dead_legs_grounds").isdisjoint(tail)
    pairs = tail[0] in {"between", "across", "leg", "phase", "line"} and _legs(tail[:5])
    if grounds and pairs:
        return _zero(a, a + count, ("L1-L2", "ground"))
    counted = next((n for w in tail if (n := _COUNTS.get(w)) is not None), 1)
    return _zero(a, a + count, ("ground",) * (1 if pairs else counted))


def _behind_legs(words: list[str], a: int) -> Value | None:
    """Read "L1 to ground, | nada", "red to white, white to blue, red to blue, | all dead"."""
    count = phrase_at("dead_legs_answers", words, a)
    end = a + count
    if not count or (words[end : end + 1] and words[end] not in word_list("dead_legs_ends")):
        return None
    first = _first(words, a, 26)
    if words[first - 1 : first] == ["?"] or not _tested(words, first, a) or not _off(words, a):
        return None
    clauses = _clauses(words[first:a])
    if words[a:end][0] == "all" and words[end : end + 1] == ["to"]:
        behind = words[end : end + 3]
        return _zero(a, end, ("ground",)) if word_list("dead_legs_grounds") & set(behind) else None
    named: list[list[str]] = []
    for clause in reversed(clauses):
        if not _only_legs(clause):
            break
        named.insert(0, clause)
    if not named:
        return None
    ground = any(word_list("dead_legs_grounds") & set(c) for c in named)
    if ground:
        return _zero(a, end, ("ground",))
    return _zero(a, end, _PAIRS if len(named) == 3 else ("L1-L2",))


def _clauses(words: list[str]) -> list[list[str]]:
    out: list[list[str]] = [[]]
    for w in words:
        if w in {",", ":", "-"}:
            out.append([])
        else:
            out[-1].append(w)
    return [c for c in out if c and c != ["and"]]


def _legs(words: list[str]) -> bool:
    return not (word_list("states_legs") | word_list("dead_legs_legs")).isdisjoint(words)


def _only_legs(words: list[str]) -> bool:
    """Tell whether a clause names legs and what they were tried against, and nothing else."""
    names = word_list("states_legs") | word_list("dead_legs_legs")
    grounds = word_list("dead_legs_grounds")
    known = names | grounds | word_list("dead_legs_links")
    if not known.issuperset(words):
        return False
    return bool(names & set(words)) or bool(grounds & set(words) and "to" in words and _NUMBERS & set(words))


def _tested(words: list[str], first: int, a: int) -> bool:
    """Tell whether this sentence, or the one before it, says that it was tested."""
    before = words[_first(words, max(0, first - 1), 14) : max(0, first - 1)] if first else []
    tests = word_list("values_dead_tests") | word_list("values_dead_meters") | word_list("dead_legs_tests")
    lead = [*before, *words[first:a]]
    return (
        not tests.isdisjoint(lead)
        and word_list("dead_told_ohms").isdisjoint(lead)
        and word_list("dead_told_leaks").isdisjoint(lead)
    )


__all__ = ["dead_legs"]
