"""A narration as one row of word pieces, and the windows of it that the text encoder reads one by one.

    laid_out(tokens, ends, spans, kinds, pieces) -> Row
    windows(row) -> [Window]

The pieces of a number carry its size as their type, for how large a number is its digits alone do not tell.
A full stop is put where a sentence ends without a mark. Neighbouring windows overlap: each number and each
stretch of talk is judged in one of them, in which the words before it and some behind it can be seen.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from dictate.mentions.second_opinion.encoder.word_pieces import WordPieces

WIDEST = 254
"""The pieces of a window, without the one at its begin and the one at its end."""
LEFT, RIGHT = 40, 12
"""How many pieces before and behind are read once more in the next and in the last window."""
KINDS = ("neg", *map(str, range(1, 17)))
"""The sizes of numbers (`surroundings.size_of`); the type of a piece is its place here and one, or nought."""
_MARKS = frozenset(",.;:-?!")


@dataclass(frozen=True, slots=True)
class Row:
    """The pieces of a narration, the type of each, and where each number stands: [first, last) piece.

    `tokens` are the pieces before each token, and those of all tokens.
    """

    pieces: list[int]
    types: list[int]
    numbers: list[tuple[int, int]]
    tokens: list[int]


@dataclass(frozen=True, slots=True)
class Window:
    """The pieces [first, last) that are read.

    The numbers [begin, end), and all that begins at the pieces [at, to), are judged in it.
    """

    first: int
    last: int
    begin: int
    end: int
    at: int
    to: int

    def place(self, span: tuple[int, int]) -> tuple[int, int]:
        """Return where some pieces stand in what is read: behind the piece that begins it."""
        return max(span[0], self.first) - self.first + 1, min(span[1], self.last) - self.first + 1

    def judges(self, span: tuple[int, int]) -> bool:
        """Tell whether some pieces are judged in this window."""
        return self.at <= span[0] < self.to and span[0] < span[1]


def laid_out(
    tokens: Sequence[str],
    ends: Iterable[int],
    spans: Sequence[tuple[int, int]],
    kinds: Sequence[str],
    pieces: WordPieces,
) -> Row:
    """Return the pieces of tokens; `ends` are the tokens behind sentences, `spans`, `kinds` those of numbers.

    The spans are [first, last) tokens, in their order and without overlap.
    """
    number_at = {t: i for i, (first, last) in enumerate(spans) for t in range(first, last)}
    type_of = [1 + KINDS.index(kind) for kind in kinds]
    behind = set(ends)
    row: list[int] = []
    types: list[int] = []
    places = [(0, 0)] * len(spans)
    before: list[int] = []
    for t, token in enumerate(tokens):
        own = pieces.of(token)
        before.append(len(row))
        i = number_at.get(t)
        if i is None:
            types += [0] * len(own)
        else:
            first = places[i][0] if t > spans[i][0] else len(row)
            places[i] = (first, len(row) + len(own))
            types += [type_of[i]] * len(own)
        row += own
        if t + 1 in behind and token not in _MARKS:
            row.append(pieces.full_stop)
            types.append(0)
    return Row(row, types, places, [*before, len(row)])


def windows(
    row: Row, widest: int = WIDEST, left: int = LEFT, right: int = RIGHT, judged: int | None = None
) -> list[Window]:
    """Return the windows of a row; every number, and whatever else, is judged in just one.

    `judged` is how many pieces the first window judges: as many as it can hold, when it is not said.
    """
    whole = len(row.pieces)
    starts = [first for first, _ in row.numbers]
    out: list[Window] = []
    at = 0
    end = min(judged, widest - right) if judged is not None else widest if whole <= widest else widest - right
    while at < whole:
        if end + right >= whole:
            end = whole  # the last window has nothing behind it
        first, last = max(0, at - left), min(whole, end + right)
        begin, stop = bisect_left(starts, at), bisect_left(starts, end)
        out.append(Window(first, last, begin, stop, at, end))
        at, end = end, end + widest - left - right
    return out


__all__ = ["KINDS", "LEFT", "RIGHT", "WIDEST", "Row", "Window", "laid_out", "windows"]
