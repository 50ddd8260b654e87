"""Full stops and commas of talk that was written down without any.

A recogniser in noise, or a hurried hand, gives a minute of talk without one mark, and the readers of this
stage know from marks where one thing ends and the next begins. Where many words in a row stand without a
mark, each gap between two words is judged by the words around it: trained weights say how likely a mark is
there. Text that has its marks is left as it is.

    gaps      the words around a gap: the features
    weights   the trained weights (weights.npz), and what they say

The weights are data, made by `python -m tests.benchmarks.stops --write`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from dictate.mentions.unsaid_stops.gaps import bare, is_number
from dictate.mentions.unsaid_stops.weights import trained
from dictate.record.transcript import Segment
from dictate.vocabulary.load import word_set

WITHOUT = 40
"""Words in a row without a mark: an ordinary sentence of talk is far shorter."""
_MARKS = frozenset(".,;:?!")
Place = tuple[int, int]
"""A segment and a word of it."""


def unsaid_stops(segments: Sequence[Segment]) -> dict[Place, str]:
    """Return the words behind which a mark belongs that nobody wrote: "." or ","."""
    out: dict[Place, str] = {}
    for run in _unmarked(segments):
        words = [bare(segments[s].words[w].text) for s, w in run]
        out.update({run[i]: mark for i, mark in trained().marks(words) if not _parts(words, i)})
    return out


def _parts(words: Sequence[str], i: int) -> bool:
    """Tell whether a mark behind word i would part what is one thing whatever the words around it."""
    return _before_unit(words, i) or _of_nothing(words, i)


def _of_nothing(words: Sequence[str], i: int) -> bool:
    """Tell whether word i and the next deny a work: "charged nothing", "nothing recovered".

    Parted, the verb alone says that it was done. A "nothing" between two verbs is of the first one.
    """
    work, none = word_set("work_told"), word_set("none_of_it")
    before, here, behind = words[i - 1] if i else "", words[i], words[i + 1] if i + 1 < len(words) else ""
    return (here in work and behind in none and before not in none) or (
        here in none and behind in work and before not in work
    )


def _before_unit(words: Sequence[str], i: int) -> bool:
    """Tell whether a mark behind word i would part a number from its unit, rare as the word may be."""
    return is_number(words[i]) and words[i + 1 : i + 2] != [] and words[i + 1] in word_set("units_alone")


def _unmarked(segments: Sequence[Segment]) -> Iterator[list[Place]]:
    """Yield the stretches of many words without a mark; a change of clip ends one."""
    run: list[Place] = []
    for s, segment in enumerate(segments):
        if run and segments[run[-1][0]].clip != segment.clip:
            if len(run) >= WITHOUT:
                yield run
            run = []
        for w, word in enumerate(segment.words):
            run.append((s, w))
            if word.text.rstrip("\"')")[-1:] in _MARKS:
                if len(run) > WITHOUT:
                    yield run[:-1]
                run = []
    if len(run) >= WITHOUT:
        yield run


__all__ = ["unsaid_stops"]
