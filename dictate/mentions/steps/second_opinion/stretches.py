"""The words of a narration in stretches of about a clause or a short sentence, and what each one holds.

A stretch is described by its words and verbs, alone and two and three in a row, by the components named in
it, by the words of the stretches around it, and by where in the visit it stands.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass

from dictate.mentions.labels.named_components import find_components
from dictate.mentions.patterns import Words
from dictate.mentions.patterns.verbs import forms_of_word
from dictate.mentions.patterns.words import NUMBER_WORDS
from dictate.vocabulary.load import word_set

_WHOLE, _CLAUSE, _JOINED, _LONGEST = 34, 10, 14, 24
"""Words: a sentence up to the first is one stretch; a longer one (run-on talk) is cut at a comma or at "and"
behind the second and third, and at the last anywhere."""
NEAR = ((-1, "before"), (1, "behind"), (-2, "earlier"))
"""The stretches of which the words count as well, and how they are called."""
NEAR_WEIGHT = 0.5
"""The weight of a word that stands in one of them."""
NUMBER, COMPONENT = "#", "<part>"

Feature = tuple[str, float, int]
"""Its name, its weight, and the word of the stretch at which it begins (-1: it stands elsewhere)."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """The words [start, end), as said and with verbs and components under one name, and their places."""

    start: int
    end: int
    said: tuple[str, ...]
    named: tuple[str, ...]
    places: tuple[int, ...]
    parts: frozenset[str]


def stretches_of(words: Words) -> list[Stretch]:
    """Return the stretches of a narration, in order; they cover every sentence."""
    parts: dict[int, str] = {}
    for c in find_components(words.narration):
        first = words.word_of_token(c.start)
        parts.update(dict.fromkeys(range(first, max(first + 1, words.word_of_token(c.end))), c.name))
    cuts = [cut for start, end in words.sentences for cut in _cut(words, start, end)]
    return [_stretch(words, start, end, parts) for start, end in cuts]


def tokens_of(words: Words, rows: Sequence[Stretch]) -> list[tuple[int, int]]:
    """Return the tokens [start, end) of stretches."""
    return [(words.tokens[row.start], words.tokens[row.end - 1] + 1) for row in rows]


def _cut(words: Words, start: int, end: int) -> Iterator[tuple[int, int]]:
    joins = word_set("joins_run_on_talk")
    first = start
    if end - start > _WHOLE:
        for i in range(start, end):
            n, word = i - first, words.words[i]
            if (word == "," and n >= _CLAUSE) or (word in joins and n >= _JOINED) or n >= _LONGEST:
                yield first, i
                first = i
    if first < end:
        yield first, end


def _stretch(words: Words, start: int, end: int, parts: dict[int, str]) -> Stretch:
    said: list[str] = ["^"]
    named: list[str] = ["^"]
    places: list[int] = [start]
    forms = forms_of_word()
    for i in range(start, end):
        word = words.words[i]
        if word in NUMBER_WORDS or word[0].isdigit():
            if said[-1] == NUMBER:
                continue
            word = name = NUMBER
        elif i in parts:
            name = COMPONENT
        else:
            name = forms[word].verb + "!" if word in forms else word
        said.append(word)
        named.append(name)
        places.append(i)
    return Stretch(
        start, end, (*said, "$"), (*named, "$"), (*places, end - 1),
        frozenset(parts[i] for i in range(start, end) if i in parts),
    )  # fmt: skip


def features(rows: list[Stretch], k: int, begins: Container[str]) -> Iterator[Feature]:
    """Yield the features of stretch k; rows of words only where they begin with one of `begins`."""
    here = rows[k]
    said, named, n = here.said, here.named, len(here.said)
    for i in range(n):
        a, place = said[i], here.places[i]
        if a in begins:
            yield a, 1.0, place
            if i + 1 < n:
                yield f"{a} {said[i + 1]}", 1.0, place
            if i + 2 < n:
                yield f"{a} {said[i + 1]} {said[i + 2]}", 1.0, place
                yield f"{a} _ {said[i + 2]}", 1.0, place
        a = "~" + named[i]
        if a in begins:
            # What reads as it was said is told above.
            if named[i] != said[i]:
                yield a, 1.0, place
            if i + 1 < n and named[i : i + 2] != said[i : i + 2]:
                yield f"{a} {named[i + 1]}", 1.0, place
            if i + 2 < n:
                if named[i : i + 3] != said[i : i + 3]:
                    yield f"{a} {named[i + 1]} {named[i + 2]}", 1.0, place
                if named[i] != said[i] or named[i + 2] != said[i + 2]:
                    yield f"{a} _ {named[i + 2]}", 1.0, place
    for step, name in NEAR:
        if 0 <= k + step < len(rows):
            for word in set(rows[k + step].named):
                yield f"{name}: {word}", NEAR_WEIGHT, -1
    for whole in visit_features(rows, k):
        yield whole, 1.0, -1


def visit_features(rows: list[Stretch], k: int) -> list[str]:
    """Return the features of stretch k that are no words: its parts, and where in the visit it stands."""
    parts = [f"part: {part}" for part in rows[k].parts]
    return [*parts, f"visit: {5 * k // len(rows)}", f"left: {min(3, len(rows) - 1 - k)}"]
