"""Values of a case that is only thought of: "if it was short I'd see 40 and 30 of superheat, but it's 62".

A condition in the past at the head of a sentence with a "would" behind it, or what a thing of some kind would
have: all of it is thought of, a list of values too, up to where the speaker comes back to what he has. The
words are in cues.toml, [span.supposed].
"""

from __future__ import annotations

from functools import cache

from dictate.vocabulary.load import table

_HEAD = 4
"""Words in front of an "if" that opens a sentence: "so now, if ..."."""
_CLAUSE = 14


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(table("cues")["span"]["supposed"][name])


def supposed(words: list[str], first: int, last: int) -> list[tuple[int, int, str]]:
    """Return (start, end, role) of what is only thought of in one sentence."""
    said = set(words[first:last])
    if _words("would").isdisjoint(said):
        return []
    begin = _condition(words, first, last) if "if" in said else None
    if begin is None:
        begin = _of_a_kind(words, first, last)
    if begin is None:
        return []
    start, would = begin
    return [(start, _back(words, would, last), "expected")]


def _condition(words: list[str], first: int, last: int) -> tuple[int, int] | None:
    """Return where "if that was clean I'd ..." begins, and its "would"."""
    i = first
    while i < last and words[i] in _words("fillers"):
        i += 1
    if words[i] != "if" or i - first > _HEAD:
        return None
    past = next((k for k in range(i + 2, min(last, i + 10)) if words[k] in _words("past")), None)
    if past is None or words[i + 1] in _words("asked"):
        return None
    would = next((k for k in range(past + 1, min(last, past + _CLAUSE)) if words[k] in _words("would")), None)
    return (i, would) if would is not None else None


def _of_a_kind(words: list[str], first: int, last: int) -> tuple[int, int] | None:
    """Return where "a low one would've ..." begins, and its "would"."""
    for k in range(first + 2, last):
        if words[k] not in _words("of_a_kind") or words[k - 1] not in _words("kinds"):
            continue
        if words[k + 1 : k + 2] == ["not"]:
            continue
        for i in range(k - 2, max(first, k - 5) - 1, -1):
            if words[i] in _words("any") and (i - first <= 2 or words[i - 1] in _words("breaks")):
                return i, k
    return None


def _back(words: list[str], would: int, last: int) -> int:
    """Return where the speaker comes back to what he has."""
    for j in range(would + 1, last):
        if words[j] in _words("stops") or (words[j] in _words("who") and words[j + 1] in _words("has")):
            return j
        if words[j] in _words("own") and words[j - 1] in _words("breaks"):
            return j
    return last


__all__ = ["supposed"]
