"""How long the reader needs for one long visit: narrations joined to about an hour's transcript."""

from __future__ import annotations

import multiprocessing
import time
from collections.abc import Sequence
from dataclasses import dataclass

from tests.narrations.labels import Labelled

WORDS = 10_000
"""About an hour of talk."""


@dataclass(frozen=True, slots=True)
class LongVisit:
    """Processor seconds of `find` on so many words, the first time and once more."""

    words: int
    first: float
    second: float


def joined(narrations: Sequence[Labelled]) -> tuple[str, str] | None:
    """Return the text of an hour's transcript, and that of a narration that is not in it.

    None where the narrations have too few words for it.
    """
    texts: list[str] = []
    words = 0
    for labelled in narrations:
        if words >= WORDS:
            return "\n".join(texts), labelled.text
        texts.append(labelled.text)
        words += len(labelled.text.split())
    return None


def long_visit(narrations: Sequence[Labelled]) -> LongVisit | None:
    """Time the reader on an hour's transcript; None where the narrations have too few words for it.

    A process of its own reads it, in which only another narration was read before: libraries and vocabulary are
    there, and nothing of the visit is known.
    """
    texts = joined(narrations)
    if texts is None:
        return None
    with multiprocessing.get_context("spawn").Pool(1) as fresh:
        return fresh.apply(_timed, texts)


def _timed(visit: str, other: str) -> LongVisit:
    from dictate.mentions import find
    from dictate.mentions.narration import segments_of

    find(list(segments_of(other.splitlines(), "other")))
    segments = list(segments_of(visit.splitlines(), "visit"))
    seconds: list[float] = []
    for _ in range(2):
        start = time.process_time()
        find(segments)
        seconds.append(time.process_time() - start)
    return LongVisit(len(visit.split()), *seconds)
