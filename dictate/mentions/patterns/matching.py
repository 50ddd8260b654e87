"""Many patterns over the words of a narration, looked up by their first two words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from dictate.mentions.patterns.lines import Pattern
from dictate.mentions.patterns.verbs import forms_of_word
from dictate.mentions.patterns.words import Words


@dataclass(frozen=True, slots=True)
class Hit:
    """A match: the words [start, end), and the head verb's place and form where there is one."""

    label: str
    start: int
    end: int
    verb: int | None
    form: str | None
    line: str


@dataclass(slots=True)
class _Begun:
    """The patterns that a word begins, in their order: by the word behind it, and those that take any."""

    all: list[Pattern]
    any: list[Pattern]
    by_next: dict[str, list[Pattern]]
    by_several: dict[tuple[str, ...], list[Pattern]] = field(default_factory=dict)
    """The patterns that go on with one of several words, as they have been asked for."""

    def before(self, words: Sequence[str]) -> Sequence[Pattern]:
        """Return the patterns that may go on with one of the words."""
        known = [w for w in words if w in self.by_next]
        if len(known) < 2:
            return self.by_next[known[0]] if known else self.any
        found = self.by_several.get(key := tuple(known))
        if found is None:
            several = {id(p) for w in known for p in self.by_next[w]}
            found = self.by_several[key] = [p for p in self.all if id(p) in several]
        return found

    @classmethod
    def by(cls, word: str, patterns: list[Pattern]) -> _Begun:
        follows = [(p, p.first[word]) for p in patterns]
        known = {w for _, after in follows if after is not None for w in after}
        return cls(
            patterns,
            [p for p, after in follows if after is None],
            {w: [p for p, after in follows if after is None or w in after] for w in known},
        )


class Matcher:
    """Many patterns, looked up by their first word and the one behind it."""

    def __init__(self, patterns: Iterable[Pattern]) -> None:
        by_word: dict[str, list[Pattern]] = {}
        for pattern in patterns:
            for word in pattern.first:
                by_word.setdefault(word, []).append(pattern)
        self.numeric = _Begun.by("#", by_word.pop("#", []))
        self.by_word = {word: _Begun.by(word, begun) for word, begun in by_word.items()}

    def hits(self, words: Words) -> Iterator[Hit]:
        """Yield every match, by place."""
        text, starts = words.text, words.starts
        places = words.places
        row = words.words
        by_word, stretch_of, last = self.by_word, words.stretch_of, len(row) - 1
        numbers = set(places["#"]) if self.numeric.all else set()
        begun = numbers.union(*[places[w] for w in places.keys() & by_word.keys()])
        for i in sorted(begun):
            led = by_word.get(row[i])
            candidates: Sequence[Pattern] = ()
            if led is not None:
                candidates = led.by_next.get(row[i + 1], led.any) if i < last else led.any
            if i in numbers:
                candidates = [*candidates, *self.numeric.before(row[i + 1 : words.number_end(i) + 1])]
            here = stretch_of[i]
            for pattern in candidates:
                for need in pattern.needs:
                    if need.isdisjoint(here):
                        break
                else:
                    match = pattern.expression.match(text, starts[i])
                    if match is not None and (not pattern.opens or words.opens(i)):
                        yield self._hit(words, pattern, i, match)

    def _hit(self, words: Words, pattern: Pattern, i: int, match: re.Match[str]) -> Hit:
        verb = form = None
        if not pattern.verbless and match.start("verb") >= 0:
            verb = words.index(match.start("verb"))
            head = forms_of_word().get(words.words[verb])
            verb, form = (verb, head.kind) if head else (None, None)
        return Hit(pattern.label, i, words.index(match.end()), verb, form, pattern.line)


def longest(hits: Iterable[Hit]) -> list[Hit]:
    """Keep, of hits with the same label that overlap, the longest."""
    kept: list[Hit] = []
    for hit in sorted(hits, key=lambda h: (h.start - h.end, h.start)):
        if not any(k.label == hit.label and hit.start < k.end and k.start < hit.end for k in kept):
            kept.append(hit)
    return sorted(kept, key=lambda h: (h.start, h.end))
