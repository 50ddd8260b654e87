"""The trained net of the second opinion: features of a number -> shares of what it may be.

One hidden layer of rectified sums, then shares over the classes. A class is a quantity with how it is meant:
"pressure measured", "pressure not now", "none none". The weights of the features are signed bytes, in steps
of one scale for each unit of the hidden layer.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.packaged import weights

_AT_ONCE = 64
"""Numbers that are judged at once: as many rows as the memory beside the processor holds, and so few that
no threads are woken for the product of matrices, which then wait busily for another one."""


class Net:
    """The weights, and what they say of features."""

    def __init__(self, data: dict[str, Any]) -> None:
        names = bytes(data["features"]).decode("utf-8").split("\n")
        self.rows = {name: i for i, name in enumerate(names)}
        self.row = self.rows.get
        self.tables: dict[str, dict[str, int]] = {}
        for name, row in self.rows.items():
            # Any colon may part a name, for a word may hold one itself.
            for i, letter in enumerate(name):
                if letter == ":":
                    self.tables.setdefault(name[: i + 1], {})[name[i + 1 :]] = row
        self.classes = bytes(data["classes"]).decode("utf-8").split("\n")
        self.hidden = data["hidden"].astype("float32") * data["scale"]
        self.hidden_bias = data["hidden_bias"]
        self.out, self.out_bias = data["out"].astype("float32"), data["out_bias"]
        units = self.hidden_bias.shape[0]
        if self.hidden.shape != (len(names), units) or self.out.shape != (units, len(self.classes)):
            raise RecordError(
                "The weights of the second opinion do not fit together.", "Reinstall the package."
            )

    def table(self, beginning: str) -> dict[str, int]:
        """Return the rows of the features whose names begin so, up to a colon, by the rest of the names."""
        return self.tables.get(beginning, {})

    def log_shares(self, described: Sequence[dict[int, float]]) -> Any:
        """Return the logarithm of the share of each class for each number, [number, class].

        All numbers at once, which is faster.
        """
        import numpy as np

        if not described:
            return np.zeros((0, len(self.classes)), dtype="float32")
        parts = [
            np.maximum(self._summed(described[i : i + _AT_ONCE]) + self.hidden_bias, 0) @ self.out
            for i in range(0, len(described), _AT_ONCE)
        ]
        scores = np.concatenate(parts) + self.out_bias
        scores = scores - scores.max(axis=1, keepdims=True)
        return scores - np.log(np.exp(scores).sum(axis=1, keepdims=True))

    def _summed(self, described: Sequence[dict[int, float]]) -> Any:
        """Return for each number the sums of the hidden layer, one row each."""
        import numpy as np

        rows: list[int] = []
        weights: list[float] = []
        begins: list[int] = []
        for seen in described:
            begins.append(len(rows))
            rows.append(0)
            weights.append(0.0)  # one for each number, so that none is without a row
            rows += seen.keys()
            weights += seen.values()
        parts = self.hidden.take(rows, axis=0)
        parts *= np.asarray(weights, dtype="float32")[:, None]
        return np.add.reduceat(parts, begins, axis=0)


@cache
def trained() -> Net:
    """Return the weights of the package; they are read once."""
    return Net(weights("dictate.mentions.second_opinion", "the second opinion"))


__all__ = ["Net", "trained"]
