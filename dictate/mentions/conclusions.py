"""What the technician says is wrong, what was complained of, and what is recommended, in the speaker's words.

    find_conclusions(narration) -> list[Conclusion]
    find_remarks(narration) -> list[Remark]     complaint and recommendations

Texts are the sentences as said (or the part of a long one that says it); nothing is rephrased.
"""

from __future__ import annotations

from functools import cache
from typing import Any, Literal

from dictate.mentions.narration import Narration
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.tense import Scopes, scopes_of
from dictate.mentions.things import Thing, things_of
from dictate.record.visit import Conclusion, Remark
from dictate.vocabulary.load import table

_LONG = 26  # words; a longer sentence is cut at its commas


@cache
def _phrases(section: str, name: str) -> tuple[tuple[str, ...], ...]:
    data: dict[str, Any] = table("conclusions")
    return tuple(sorted((tuple(p.split()) for p in data[section][name]), key=len, reverse=True))


def _at(row: tuple[str, ...], i: int, phrases: tuple[tuple[str, ...], ...]) -> int:
    return next((len(p) for p in phrases if row[i : i + len(p)] == p), 0)


def _piece(words: Words, i: int) -> tuple[int, int]:
    """Return the words of the sentence around word i, cut at commas and "but" when the sentence is long."""
    start, end = words.sentences[words.sentence_of[i]]
    if end - start <= _LONG:
        return start, end
    row = words.words
    first = i
    while (
        first > start
        and row[first - 1] not in (";", "but")
        and not (row[first - 1] == "," and i - first >= 3)
    ):
        first -= 1
    last = i
    while last < end and row[last] not in (";", ".", "but") and not (row[last] == "," and last - i >= 4):
        last += 1
    return first, min(end, max(last, i + 1))


def _text(narration: Narration, words: Words, first: int, last: int) -> tuple[str, int, int]:
    s, e = words.span(first, last)
    text = narration.heard(s, e).strip(" ,;")
    return text, s, e


def find_conclusions(narration: Narration) -> list[Conclusion]:
    """Return what is wrong, as said, each with the part that it is about."""
    words = words_of(narration)
    scopes = scopes_of(words)
    row = words.words
    things = things_of(words)
    out: list[Conclusion] = []
    seen: list[tuple[int, int]] = []
    for i in range(len(row)):
        if any(a <= i < b for a, b in seen):
            continue
        n = _at(row, i, _phrases("found", "bad"))
        cause = 0 if n else _at(row, i, _phrases("found", "cause"))
        if not n and not cause:
            continue
        start, end = scopes.sentence(i)
        if row[end - 1] == "?" or scopes.conditional(i) or not scopes.ours(i):
            continue
        before = row[max(start, i - 4) : i]
        if n and any(" ".join(p) in " ".join(before) for p in _phrases("found", "unclear")):
            continue
        if n and any(w in p for p in _phrases("found", "not_bad") for w in before[-3:] if len(p) == 1):
            continue
        first, last = _piece(words, i)
        part = _part(things, i, i + max(n, cause), first, last)
        if n and part is None:
            continue
        text, s, e = _text(narration, words, first, last)
        out.append(Conclusion(text=text, component=part.name if part else None, at=narration.at(s, e)))
        seen.append((first, last))
    return out


def _part(things: list[Thing], i: int, after: int, first: int, last: int) -> Thing | None:
    """Return the part that is said to be bad: the nearest before in the piece, else the one right behind."""
    before = [t for t in things if first <= t.start and t.end <= i and i - t.end <= 7 and not t.modifier]
    behind = [t for t in things if after <= t.start <= after + 2 and t.end <= last]
    if behind and (not before or i - before[-1].end > 3):
        return behind[0]
    return before[-1] if before else None


def find_remarks(narration: Narration) -> list[Remark]:
    """Return the complaint (the first one said) and the recommendations, in the speaker's words."""
    words = words_of(narration)
    out: list[Remark] = []
    complained = False
    for number, (start, end) in enumerate(words.sentences):
        kind = _kind(words, start, end, complained, number)
        if kind is None:
            continue
        which, i = kind
        first, last = _piece(words, i)
        text, s, e = _text(narration, words, first, last)
        if which == "complaint":
            complained = True
        out.append(Remark(kind=which, text=text, at=narration.at(s, e)))
    return out


def _kind(
    words: Words, start: int, end: int, complained: bool, number: int
) -> tuple[Literal["complaint", "recommendation"], int] | None:
    row = words.words
    for i in range(start, end):
        if not complained and number < 12 and _at(row, i, _phrases("complaint", "opens")):
            return "complaint", i
        if _at(row, i, _phrases("recommendation", "opens")):
            before = row[max(start, i - 3) : i]
            if any(w in ("didn't", "don't", "not", "doesn't", "no", "i", "we") for w in before[-1:]) and row[
                i
            ] in ("need", "needs", "should", "ought", "need"):
                continue
            return "recommendation", i
    return None


__all__ = ["Scopes", "find_conclusions", "find_remarks"]
