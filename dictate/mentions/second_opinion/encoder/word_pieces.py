"""Words cut into the pieces that the text encoder knows.

A word comes apart at every mark in it, and what is left is cut greedily: the longest piece that the
vocabulary holds from the beginning on, then the longest that goes on from there, written with two number
signs in front ("compressor" may be "comp", "##ress", "##or"). A word of which some part is no known piece
is one unknown piece. Source: WordPiece as BERT uses it, uncased (Devlin and others, "BERT: Pre-training of
Deep Bidirectional Transformers for Language Understanding", 2019, section 3; greedy matching in Wu and
others, 2016, section 4.1).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence

BEGIN, END, UNKNOWN, HIDDEN = "[CLS]", "[SEP]", "[UNK]", "[MASK]"
"""The pieces that begin and end a window, that stand for what is unknown, and for what training hides."""
_GOES_ON = "##"
_PART = re.compile(r"[^\W_]+|[^\w\s]|_")


class WordPieces:
    """The vocabulary of an encoder: a piece's place in the list is its number."""

    def __init__(self, pieces: Sequence[str]) -> None:
        self.number = {piece: i for i, piece in enumerate(pieces)}
        self.begin, self.end, self.unknown = (self.number[piece] for piece in (BEGIN, END, UNKNOWN))
        self.full_stop = self.number["."]
        self._longest = max(map(len, pieces))
        self._cut: dict[str, list[int]] = {}

    def of(self, token: str) -> list[int]:
        """Return the numbers of the pieces of a token: one at least."""
        known = self._cut.get(token)
        if known is None:
            known = [piece for part in parts(token) for piece in self._pieces(part)] or [self.unknown]
            self._cut[token] = known
        return known

    def _pieces(self, part: str) -> list[int]:
        out: list[int] = []
        at = 0
        while at < len(part):
            front = _GOES_ON if at else ""
            for end in range(min(len(part), at + self._longest), at, -1):
                number = self.number.get(front + part[at:end])
                if number is not None:
                    out.append(number)
                    at = end
                    break
            else:
                return [self.unknown]
        return out


def parts(token: str) -> list[str]:
    """Return a token in small letters without accents, cut at every mark: "Café-2" gives "cafe", "-", "2"."""
    if not token.isascii():
        apart = unicodedata.normalize("NFD", token)
        token = "".join(letter for letter in apart if unicodedata.category(letter) != "Mn")
    return _PART.findall(token.lower())


__all__ = ["BEGIN", "END", "HIDDEN", "UNKNOWN", "WordPieces", "parts"]
