"""Phrases of the vocabulary in a narration, looked up by their first word at the places where it is said.

A match is a span of the narration's own tokens. Of overlapping matches in one set the longest stays, and of
equally long ones the first. (spaCy's PhraseMatcher finds the same; its import alone took longer than the
reading of an hour of speech.)

>>> from dictate.mentions.narration import Narration
>>> Phrases({"a": ["head pressure"], "b": ["head"]}).find(Narration.from_text("Head pressure high, head 210"))
[Phrase(start=0, end=2, key='a'), Phrase(start=4, end=5, key='b')]
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from dictate.mentions.narration import Narration, lowers


@dataclass(frozen=True, slots=True)
class Phrase:
    """A vocabulary phrase at the tokens [start, end); `key` says which entry it belongs to."""

    start: int
    end: int
    key: str


class Phrases:
    """A set of phrases, each under a key."""

    def __init__(self, said: Mapping[str, Iterable[str]]) -> None:
        self._by_first: dict[str, list[tuple[list[str], str]]] = {}
        for key, phrases in said.items():
            for words in dict.fromkeys(w for w in map(lowers, phrases) if w):
                self._by_first.setdefault(words[0], []).append((list(words), key))

    def all(self, narration: Narration) -> list[Phrase]:
        """Return every match, overlapping ones too, by place and longest first."""
        words, places = narration.lowers, narration.places
        found = [
            Phrase(i, i + len(phrase), key)
            for first in self._by_first.keys() & places.keys()
            for i in places[first]
            for phrase, key in self._by_first[first]
            if words[i : i + len(phrase)] == phrase
        ]
        return sorted(found, key=lambda p: (p.start, -p.end))

    def find(self, narration: Narration) -> list[Phrase]:
        """Return the matches without overlaps: the longest wins."""
        taken: set[int] = set()
        out: list[Phrase] = []
        for phrase in sorted(self.all(narration), key=lambda p: (p.start - p.end, p.start)):
            span = range(phrase.start, phrase.end)
            if taken.isdisjoint(span):
                taken.update(span)
                out.append(phrase)
        return sorted(out, key=lambda p: p.start)
