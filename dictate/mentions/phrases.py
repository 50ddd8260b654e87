"""Phrases of the vocabulary in a narration: spaCy's PhraseMatcher on a blank English pipeline.

The matcher works on our own tokens, so a match is a token span of the narration. Of overlapping matches in
one set the longest stays, and of equally long ones the first.

>>> from dictate.mentions.narration import Narration
>>> Phrases({"a": ["head pressure"], "b": ["head"]}).find(Narration.from_text("Head pressure high, head 210"))
[Phrase(start=0, end=2, key='a'), Phrase(start=4, end=5, key='b')]
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from dictate.mentions.narration import Narration, lowers

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.tokens import Doc


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


@cache
def pipeline() -> Language:
    """Return the blank English pipeline whose string store all the matchers share."""
    import spacy

    return spacy.blank("en")


def doc_of(narration: Narration) -> Doc:
    """Return the narration as a spaCy document with one spaCy token for each of ours, in lower case."""
    from spacy.tokens import Doc

    if "doc" not in narration.found:
        narration.found["doc"] = Doc(pipeline().vocab, words=[t.lower for t in narration.tokens])
    doc: Doc = narration.found["doc"]
    return doc


class Phrases:
    """A set of phrases, each under a key."""

    def __init__(self, said: Mapping[str, Iterable[str]]) -> None:
        from spacy.matcher import PhraseMatcher
        from spacy.tokens import Doc

        vocab = pipeline().vocab
        self._firsts: set[str] = set()
        self._matcher = PhraseMatcher(vocab, attr="ORTH")
        for key, phrases in said.items():
            words = dict.fromkeys(w for w in map(lowers, phrases) if w)
            if words:
                self._firsts.update(w[0] for w in words)
                self._matcher.add(key, [Doc(vocab, words=list(w)) for w in words])

    def all(self, narration: Narration) -> list[Phrase]:
        """Return every match, overlapping ones too, by place and longest first."""
        if self._firsts.isdisjoint(narration.places):
            return []  # none begins anywhere
        strings = pipeline().vocab.strings
        found = [Phrase(s, e, strings[k]) for k, s, e in self._matcher(doc_of(narration))]
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
