"""The tokens of what was taken for something."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.mentions.narration import Narration
from dictate.record.base import At
from dictate.record.mentions import Mentions


def taken_tokens(narration: Narration, mentions: Mentions) -> set[int]:
    """Return the tokens of all that was taken: values, amounts, times of work."""
    return {t for at in _places(mentions) for t in tokens_at(narration, at)}


def tokens_at(narration: Narration, at: At) -> Iterator[int]:
    """Yield the tokens of a place, in their order; none where it is no place in the words."""
    if at.segment is not None and at.first_word is not None and at.last_word is not None:
        for word in range(at.first_word, at.last_word + 1):
            yield from narration.tokens_of(at.segment, word) or ()


def _places(mentions: Mentions) -> Iterator[At]:
    for found in (mentions.readings, mentions.movements, mentions.labour, mentions.holds):
        yield from (x.at for x in found)


__all__ = ["taken_tokens", "tokens_at"]
