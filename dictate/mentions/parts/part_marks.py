"""Part numbers told away from the verb: `add_part_numbers(narration, mentions)`.

The mark of a part stands directly behind its name wherever it is named ("drier DF-032", "motor number GF
115"), in front of the words that say what it is ("RV-4410 is the number"), behind words for the new one ("new
one is forty-one dash two two nine zero"), or by itself beside the part that was put in ("had a rebuilt one,
GM dash 33"). Only parts that were put in and have no number yet get one; a machine's model or serial is none.
"""

from __future__ import annotations

from collections.abc import Iterator

from dictate.mentions.narration import Narration
from dictate.mentions.parts.designations import Designation, read_designation
from dictate.mentions.parts.handled_parts import is_part_number, number_behind, plain_mark
from dictate.mentions.patterns import Words, words_of
from dictate.mentions.whose.things import Thing, things_of
from dictate.record.mentions import Mentions
from dictate.record.visit import Part
from dictate.vocabulary.load import word_set

_PUT_IN = ("replaced", "installed")
_REACH = 9
"""How many words behind its name the number of a part begins at most."""


def add_part_numbers(narration: Narration, mentions: Mentions) -> None:
    """Give the parts put in that have no number the one that is told beside another naming, in place."""
    lacking = [p for p in mentions.parts if p.part_number is None and p.action in _PUT_IN]
    if not lacking:
        return
    words = words_of(narration)
    taken = {p.part_number for p in mentions.parts}
    taken |= {n for e in mentions.equipment for n in (e.model, e.serial)}
    for owner, mark in _told(narration, words, mentions.parts, lacking):
        if owner.part_number is None and mark not in taken:
            owner.part_number = mark
            taken.add(mark)


def _told(
    narration: Narration, words: Words, parts: list[Part], lacking: list[Part]
) -> Iterator[tuple[Part, str]]:
    """Yield the parts with the marks told of them, the surest ways of telling first."""
    for thing in things_of(words):
        owner = _named(thing, lacking)
        mark = _beside(narration, words, thing) if owner is not None else None
        if owner is not None and mark is not None:
            yield owner, mark
    row = words.words
    places = _places(narration, words, parts)
    for k, word in enumerate(row):
        if word in ("is", "'s") and row[k + 1 : k + 3] in _NUMBERS and (k and row[k - 1] != "number"):
            made = _ending_at(narration, words, k)
        elif word == "one" and row[k - 1] in word_set("new_one_of_part") and row[k + 1 : k + 2] in _IS:
            made = _at(narration, words, k + 2 + (row[k + 2 : k + 3] in (("a",), ("an",))))
        else:
            continue
        owner = _last_before(places, k, words)
        if made is not None and owner is not None:
            yield owner, made.text
    for made in _orphans(narration, words, places):
        k = words.word_of_token(made.start)
        owner = _last_before(places, k, words, sentences=1)
        if owner is not None:
            yield owner, made.text


_IS = (("is",), ("'s",))


_NUMBERS = (("the", "number"), ("the", "part"), ("its", "number"), ("the", "code"), ("what", "it"))
"""What stands behind "is" where the number stood in front of it."""


def _named(thing: Thing, lacking: list[Part]) -> Part | None:
    """Return the part without a number that a naming is of."""
    exact = [p for p in lacking if p.name in (thing.part, thing.name)]
    if exact:
        return exact[0]
    ends = [p for p in lacking if p.name.endswith(f" {thing.name}") or thing.name.endswith(f" {p.name}")]
    return ends[0] if len(ends) == 1 else None


def _beside(narration: Narration, words: Words, thing: Thing) -> str | None:
    """Return the mark directly behind a naming."""
    start, end = words.sentences[words.sentence_of[thing.start]]
    if thing.end >= end or any(
        w in word_set("old_ones") for w in words.words[max(start, thing.start - 2) : thing.start]
    ):
        return None
    return number_behind(narration, words, thing.end, min(end, thing.end + _REACH), others=[thing])


def _ending_at(narration: Narration, words: Words, k: int) -> Designation | None:
    """Return the mark that ends in front of word k: the longest one."""
    start, _ = words.sentences[words.sentence_of[k]]
    for first in range(max(start, k - 10), k):
        made = read_designation(narration, words.tokens[first])
        if made is not None and words.word_of_token(made.end) == k and _is_mark(made.text):
            return made
    return None


def _at(narration: Narration, words: Words, k: int) -> Designation | None:
    """Return the mark that begins at word k and is no value."""
    if k >= len(words.words):
        return None
    made = read_designation(narration, words.tokens[k])
    return made if made is not None and _is_mark(made.text) else None


def _is_mark(text: str) -> bool:
    """Tell whether a designation is a part's mark: letters with digits, or digits in groups."""
    digits = sum(c.isdigit() for c in text)
    return (text[:1].isalpha() and digits >= 2 and len(text) >= 4) or ("-" in text and digits >= 4)


def _places(narration: Narration, words: Words, parts: list[Part]) -> list[tuple[int, Part]]:
    """Return the parts put in with the words at which they are told, in order."""
    tokens = {(t.segment, t.word): t.index for t in reversed(narration.tokens)}
    out = []
    for p in parts:
        token = tokens.get((p.at.segment or 0, p.at.first_word or 0))
        if token is not None and p.action in _PUT_IN:
            out.append((words.word_of_token(token), p))
    return sorted(out, key=lambda x: x[0])


def _last_before(places: list[tuple[int, Part]], k: int, words: Words, sentences: int = 2) -> Part | None:
    """Return the part put in last before word k, or behind it in the same sentence; one without a number."""
    here = words.sentence_of[k]
    before = [p for i, p in places if i <= k and here - words.sentence_of[i] <= sentences]
    if before:
        open_ones = [p for p in before if p.part_number is None]
        return open_ones[-1] if open_ones else None
    after = [p for i, p in places if i > k and words.sentence_of[i] - here <= 1]
    return after[0] if after and after[0].part_number is None else None


def _orphans(narration: Narration, words: Words, places: list[tuple[int, Part]]) -> Iterator[Designation]:
    """Yield the marks with a dash that stand by themselves behind a comma near a part that was put in."""
    row = words.words
    near = {words.sentence_of[i] + d for i, _ in places for d in (-1, 0, 1)}
    for k in range(1, len(row)):
        if row[k - 1] != "," or words.sentence_of[k] not in near:
            continue
        made = read_designation(narration, words.tokens[k])
        if made is None or "-" not in made.text or not plain_mark(made.text):
            continue
        start, _ = words.sentences[words.sentence_of[k]]
        if any(w in word_set("marks_of_others") for w in row[max(start, k - 6) : k]):
            continue
        if is_part_number(narration, made.text, words, k, made.end, sure=False):
            yield made
