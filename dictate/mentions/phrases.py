"""Phrases of the vocabulary in a narration: looked up word by word, from the places of their first words.

A match is a token span of the narration. Of overlapping matches in one set the longest stays, and of equally
long ones the first.

>>> from dictate.mentions.narration import Narration
>>> Phrases({"a": ["head pressure"], "b": ["head"]}).find(Narration.from_text("Head pressure high, head 210"))
[Phrase(start=0, end=2, key='a'), Phrase(start=4, end=5, key='b')]
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from dictate.mentions.narration import Narration, lowers


class Phrase(NamedTuple):
    """A vocabulary phrase at the tokens [start, end); `key` says which entry it belongs to."""

    start: int
    end: int
    key: str


def by_first_word(phrases: Iterable[tuple[str, ...]]) -> dict[str, list[tuple[str, ...]]]:
    """Sort phrases by their first word: most words of a narration begin none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in phrases:
        found.setdefault(phrase[0], []).append(phrase)
    return found


@dataclass(slots=True)
class _Begun:
    """What is known of some words in a row: whose phrase they are, and how the phrases go on."""

    keys: list[str] = field(default_factory=list)
    next: dict[str, _Begun] = field(default_factory=dict)


class Phrases:
    """A set of phrases, each under a key."""

    def __init__(self, said: Mapping[str, Iterable[str]]) -> None:
        self._none = _Begun()
        for key, phrases in said.items():
            for words in dict.fromkeys(w for w in map(lowers, phrases) if w):
                begun = self._none
                for word in words:
                    begun = begun.next.setdefault(word, _Begun())
                begun.keys.append(key)

    def all(self, narration: Narration) -> list[Phrase]:
        """Return every match, overlapping ones too, by place and longest first."""
        words, places, firsts = narration.lowers, narration.places, self._none.next
        out: list[Phrase] = []
        for start in sorted(i for word in places.keys() & firsts.keys() for i in places[word]):
            here: list[Phrase] = []
            begun: _Begun | None = firsts[words[start]]
            end = start + 1
            while begun is not None:
                if begun.keys:
                    here[:0] = [Phrase(start, end, key) for key in begun.keys]
                begun = begun.next.get(words[end]) if end < len(words) else None
                end += 1
            out += here
        return out

    def find(self, narration: Narration) -> list[Phrase]:
        """Return the matches without overlaps: the longest wins."""
        found = self.all(narration)
        if all(a.end <= b.start for a, b in pairwise(found)):
            return found
        taken: set[int] = set()
        out: list[Phrase] = []
        for phrase in sorted(found, key=lambda p: (p.start - p.end, p.start)):
            span = range(phrase.start, phrase.end)
            if taken.isdisjoint(span):
                taken.update(span)
                out.append(phrase)
        return sorted(out, key=lambda p: p.start)
