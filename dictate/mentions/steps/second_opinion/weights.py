"""The trained weights of the second opinion on steps: features of a stretch -> the chance of each step.

For each step with its status a sum over few features, each of a weight of its own (most have none), and the
logistic function of it.
"""

from __future__ import annotations

from functools import cache
from math import exp
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.packaged import weights
from dictate.mentions.steps.second_opinion.stretches import Stretch, features

_NEVER = 30.0
"""Below minus this many logarithms of odds no chance is told from none."""
BETWEEN = "|"
"""Stands between the step and the status in the name of a class: "brazed|done"."""


class Weights:
    """The weights, and what they say of a stretch."""

    def __init__(self, data: dict[str, Any]) -> None:
        import numpy as np

        names = bytes(data["features"]).decode("utf-8").split("\n")
        classes = bytes(data["classes"]).decode("utf-8").split("\n")
        rows, columns, sizes = (data[key].tolist() for key in ("rows", "columns", "weights"))
        fit = len(rows) == len(columns) == len(sizes) and len(data["bias"]) == len(classes)
        if not fit or max(rows) >= len(names) or max(columns) >= len(classes):
            raise RecordError(
                "The weights of the second opinion on steps do not fit together.", "Reinstall the package."
            )
        self.classes: list[tuple[str, str]] = []
        for name in classes:
            code, _, status = name.partition(BETWEEN)
            self.classes.append((code, status))
        self.bias: list[float] = data["bias"].tolist()
        self.of: dict[str, list[tuple[int, float]]] = {}
        for row, column, weight in zip(rows, columns, sizes, strict=True):
            self.of.setdefault(names[row], []).append((column, weight))
        self.begins = frozenset(name.split(" ", 1)[0] for name in self.of)
        self.row = {name: i for i, name in enumerate(names)}
        self.all = np.zeros((len(names), len(classes)))
        np.add.at(self.all, (rows, columns), sizes)

    def judge(self, rows: list[Stretch]) -> Any:
        """Return the chance of each class in each stretch: [stretch, class]."""
        import numpy as np

        sums = np.tile(np.array(self.bias), (len(rows), 1))
        of = self.row
        for k in range(len(rows)):
            known: dict[int, float] = {}
            for name, weight, _ in features(rows, k, self.begins):
                if (i := of.get(name)) is not None:
                    known[i] = weight  # a feature counts once, however often it stands there
            if known:
                sums[k] += np.array([*known.values()]) @ self.all[[*known]]
        return 1 / (1 + np.exp(-np.maximum(sums, -_NEVER)))

    def told_here(self, rows: list[Stretch], k: int, column: int) -> tuple[float, int]:
        """Return the chance of a class by the words of stretch k alone, and the word that speaks loudest."""
        total = self.bias[column]
        loud: dict[int, float] = {}
        counted = set()
        for name, weight, place in features(rows, k, self.begins):
            own = next((w for c, w in self.of.get(name, ()) if c == column), 0.0)
            if own and place >= 0 and name not in counted:
                counted.add(name)
                total += weight * own
                loud[place] = loud.get(place, 0.0) + weight * own
        return _logistic(total), max(loud, key=loud.__getitem__, default=rows[k].start)


def _logistic(s: float) -> float:
    return 1 / (1 + exp(-max(s, -_NEVER)))


@cache
def trained() -> Weights:
    """Return the weights of the package; they are read once."""
    return Weights(weights("dictate.mentions.steps.second_opinion", "the second opinion on steps"))
