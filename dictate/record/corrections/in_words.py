"""Answers in words: put into the transcript where they belong, which is then read again around them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from dictate.record.corrections.items import copied, places
from dictate.record.corrections.taking_over import take_over
from dictate.record.transcript import Segment
from dictate.record.visit import Clip, Correction, Record

WHOLE_WORDS = 4000
AROUND = 15
"""A longer transcript is read again only around the answers, so many stretches before and after."""

ReadAgain = Callable[[Sequence[Clip], Sequence[Segment]], Record]
"""Reads a transcript as the pipeline does, without checking it."""


def read_answers(record: Record, answers: Sequence[Correction], read_again: ReadAgain) -> None:
    """Read the transcript again with the answers where they belong, and take over what they brought.

    Everything that was there stays as it is, with its id; new items get ids of their answer (`x3.r1`).
    """
    order: list[tuple[int | None, Segment]] = []
    by_clip = {entry.clip.id: entry for entry in answers if entry.clip is not None}
    count = len(record.transcript)

    def put(after: int | None) -> None:
        for entry in answers:
            spot = entry.after_segment
            if spot is not None and not 0 <= spot < count:
                spot = None
            if spot == after and entry.clip is not None:
                order.extend((None, s.model_copy(update={"clip": entry.clip.id})) for s in entry.segments)

    for n, segment in enumerate(record.transcript):
        order.append((n, segment))
        put(n)
    put(None)
    moved = {old: new for new, (old, _) in enumerate(order) if old is not None}
    for place in places(record):
        if place.segment is not None:
            place.segment = moved.get(place.segment)
    record.transcript = [segment for _, segment in order]
    record.clips = [*record.clips, *(e.clip for e in answers if e.clip is not None)]
    for start, end in _windows(record, by_clip):
        read = copied(read_again(record.clips, record.transcript[start:end]))
        for place in places(read):
            if place.segment is not None:
                place.segment += start
        take_over(record, read, by_clip, whole=end - start == len(record.transcript))


def _windows(record: Record, by_clip: dict[str, Correction]) -> list[tuple[int, int]]:
    """Return the parts [start, end) of the transcript that are read again with the answers in them."""
    count = len(record.transcript)
    if sum(len(s.words) for s in record.transcript) <= WHOLE_WORDS:
        return [(0, count)]
    out: list[tuple[int, int]] = []
    for n, segment in enumerate(record.transcript):
        if segment.clip not in by_clip:
            continue
        start, end = max(0, n - AROUND), min(count, n + AROUND + 1)
        if out and start <= out[-1][1]:
            out[-1] = (out[-1][0], end)
        else:
            out.append((start, end))
    return out
