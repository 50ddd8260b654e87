"""Nothing on one or several of a row: "third leg not a thing", "two and four are dead".

    row_states(narration, words, taken) -> list[Value]

Where the amps or volts of several things are read off, a clause that only names one of them and says that
there is nothing tells its value, in whatever word. What the name is of was said in front of the row.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.narration import Narration
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.values.value import Value
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", "?", "!"))
_ENDS = _STOPS | {"and", "but", "so", "though", "then"}
_NOUGHTS = frozenset(("zero", "0", "0.0", "nought"))
_LONGEST = 8
_ROW = 26  # words within which a number of the row stands
_TALK = 60  # words within which amps or volts are spoken of


@cache
def _phrases() -> dict[str, tuple[tuple[str, ...], ...]]:
    rows: dict[str, list[tuple[str, ...]]] = {}
    for phrase in word_list("row_states_nothing"):
        row = tuple(phrase.split())
        rows.setdefault(row[0], []).append(row)
    return {first: tuple(sorted(x, key=len, reverse=True)) for first, x in rows.items()}


def row_states(narration: Narration, words: list[str], taken: set[int]) -> list[Value]:
    """Return the zeros of a row that no other look took, in order."""
    out: list[Value] = []
    phrases = _phrases()
    if phrases.keys().isdisjoint(words):
        return out
    for a, word in enumerate(words):
        for row in phrases.get(word, ()):
            b = a + len(row)
            if tuple(words[a:b]) != row:
                continue
            if not taken.isdisjoint(range(a, b)):
                note_row_state(narration, words, a, b)
            elif note_row_state(narration, words, a, b):
                out.append(Value(a, b, 0.0, state="zero"))
            break
    return out


def note_row_state(narration: Narration, words: list[str], a: int, b: int) -> int:
    """Return how many of a row a "nothing" or a nought tells of, and keep it; 0 where it is of no row."""
    known: dict[int, int] = narration.found.setdefault("row_states", {})
    if a not in known:
        known[a] = _told(narration, words, a, b)
    return known[a]


def _told(narration: Narration, words: list[str], a: int, b: int) -> int:
    """Return of how many of a row a clause says that there is nothing, and no more than their names."""
    first = a
    while first > 0 and not _parts(words, first - 1) and a - first < _LONGEST:
        first -= 1
    if first > 0 and not _parts(words, first - 1):
        joined = [i for i in range(first, a) if words[i] == "and"]
        if not joined:
            return 0
        first = joined[-1] + 1
    if "and" in words[first:a] and not all(
        _is_name(w) or w in word_list("row_states_verbs") for w in words[first:a]
    ):
        first += max(i for i, w in enumerate(words[first:a]) if w == "and") + 1
    lead = [w for w in words[first:a] if w != ":" and w not in word_list("row_states_verbs")]
    if lead[:1] == ["and"]:
        lead = lead[1:]
    names = word_list("row_states_names")
    behind = b + (words[b : b + 2] == ["at", "all"]) * 2 + (words[b : b + 1] == ["whatsoever"])
    for also in (["as", "well"], ["also"], ["too"], ["again"]):
        behind += len(also) * (words[behind : behind + len(also)] == also)
    ended = behind >= len(words) or words[behind] in _ENDS
    named = (
        bool(lead) and ended and all(_is_name(w) for w in lead) and bool(names & set(lead) or _numbered(lead))
    )
    if not named and not lead and words[b : b + 1] in (["on"], ["from"], ["for"]):
        own = [w for w in words[b + 1 : b + 5] if w not in {"the", "that", "this"}]
        size = next((i for i, w in enumerate(own) if not _is_name(w)), len(own))
        named = size > 0 and (size == len(own) or own[size] in _ENDS)
        named = named and own[0] in word_list("row_states_firsts")
    told = first == a and words[a - 1 : a] == [","] and words[a - 2] in word_list("row_states_measures")
    if told and ended and words[a] != "dead" and a > 2 and words[a - 3] in _ENDS:
        return 1  # "Amps, nothing."
    if not named or "if" in words[max(0, first - 2) : a]:
        return 0
    if words[b : b + 1] == [","] and words[b + 1 : b + 2] and words[b + 1] in _NOUGHTS:
        return 0  # "has nothing, 0 amps": the number is the value
    if words[a] == "dead" and ({"is", "'s", "was"} & set(words[first:a]) or not lead):
        return 0  # "the other one is dead, seized"
    near = [
        n for n in find_numbers(narration) if n.value and (a - _ROW <= n.end <= first or b < n.start <= b + 9)
    ]
    near = [n for n in near if not n.pronoun and n.form != "ordinal" and (n.places or n.value > 4)]
    if not near or word_list("row_states_talk").isdisjoint(words[max(0, a - _TALK) : a]):
        return 0
    return 1 + sum(w == "and" for w in lead[1:-1])


def _parts(words: list[str], i: int) -> bool:
    """Tell whether a clause ends at a word; "C: nothing" is one, and what a question asks is another."""
    return words[i] in _STOPS or (words[i] == ":" and (i == 0 or not _is_name(words[i - 1])))


def _is_name(word: str) -> bool:
    return word in word_list("row_states_names") or word in word_list("row_states_nouns") or word.isdigit()


def _numbered(lead: list[str]) -> bool:
    return any(w.isdigit() for w in lead)


__all__ = ["note_row_state", "row_states"]
