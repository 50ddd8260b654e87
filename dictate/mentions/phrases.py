"""Phrases of the vocabulary in a narration, looked up where their first words were said.

A match is a token span of the narration. Of overlapping matches in one set the longest stays, and of equally
long ones the first.

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


def by_first_word(phrases: Iterable[tuple[str, ...]]) -> dict[str, list[tuple[str, ...]]]:
    """Sort phrases by their first word: most words of a narration begin none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in phrases:
        found.setdefault(phrase[0], []).append(phrase)
    return found


def _by_next(phrases: Iterable[tuple[str, ...]]) -> dict[str, list[tuple[str, ...]]]:
    """Sort phrases by their second word, "" for those that have none."""
    found: dict[str, list[tuple[str, ...]]] = {}
    for phrase in phrases:
        found.setdefault(phrase[1] if len(phrase) > 1 else "", []).append(phrase)
    return found


class Phrases:
    """A set of phrases, each under a key."""

    def __init__(self, said: Mapping[str, Iterable[str]]) -> None:
        keys: dict[tuple[str, ...], list[str]] = {}
        for key, phrases in said.items():
            for words in dict.fromkeys(w for w in map(lowers, phrases) if w):
                keys.setdefault(words, []).append(key)
        self._keys = keys
        self._begun = {word: _by_next(listed) for word, listed in by_first_word(keys).items()}

    def all(self, narration: Narration) -> list[Phrase]:
        """Return every match, overlapping ones too, by place and longest first."""
        words, places = narration.lowers, narration.places
        found: list[Phrase] = []
        for first in self._begun.keys() & places.keys():
            by_next = self._begun[first]
            alone = by_next.get("", ())
            for i in places[first]:
                following = words[i + 1] if i + 1 < len(words) else ""
                for phrase in (*by_next.get(following, ()), *alone):
                    if len(phrase) <= 2 or tuple(words[i : i + len(phrase)]) == phrase:
                        found += [Phrase(i, i + len(phrase), key) for key in self._keys[phrase]]
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
