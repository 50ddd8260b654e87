"""The trained weights of unsaid marks: features of a gap -> how likely a full stop or a comma is there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.packaged import weights
from dictate.mentions.unsaid_stops.gaps import features, is_number

STOP, COMMA = ".", ","
_STOP_FROM, _COMMA_FROM, _IN_NUMBERS_FROM = 0.5, 0.0, 3.0
"""Log odds from which a mark is set; between two numbers, which may be one, it must be nearly certain."""


class Weights:
    """The weights, and what they say of a gap: log odds."""

    def __init__(self, data: dict[str, Any]) -> None:
        names = bytes(data["features"]).decode("utf-8").split("\n")
        self.bias = tuple(float(b) for b in data["bias"])
        if len(self.bias) != 2 or data["weights"].shape != (len(names), 2):
            raise RecordError(
                "The weights of unsaid full stops do not fit together.", "Reinstall the package."
            )
        self.of: dict[str, tuple[float, float]] = {
            name: (stop, comma) for name, (stop, comma) in zip(names, data["weights"].tolist(), strict=True)
        }

    def sums(self, words: Sequence[str], i: int) -> tuple[float, float]:
        """Return the log odds of a full stop and of any mark in the gap behind word i."""
        stop, mark = self.bias
        for name in features(words, i):
            own = self.of.get(name)
            if own is not None:
                stop += own[0]
                mark += own[1]
        return stop, mark

    def marks(self, words: Sequence[str]) -> Iterator[tuple[int, str]]:
        """Yield the words behind which a mark belongs, and the mark."""
        for i in range(len(words) - 1):
            stop, mark = self.sums(words, i)
            if stop > _STOP_FROM:
                yield i, STOP
            elif mark > (
                _IN_NUMBERS_FROM if is_number(words[i]) and is_number(words[i + 1]) else _COMMA_FROM
            ):
                yield i, COMMA


@cache
def trained() -> Weights:
    """Return the weights of the package; they are read once."""
    return Weights(weights("dictate.mentions.unsaid_stops", "unsaid full stops"))
