"""The trained weights of the second opinion on steps: features of a stretch -> the chance of each step.

For each step with its status a sum over few features, each of a weight of its own (most have none), and the
logistic function of it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from math import exp
from typing import Any

from dictate.errors import RecordError
from dictate.mentions.packaged import weights
from dictate.mentions.steps.second_opinion.stretches import (
    NEAR,
    NEAR_WEIGHT,
    Stretch,
    features,
    visit_features,
)

_NEVER = 30.0
"""Below minus this many logarithms of odds no chance is told from none."""
BETWEEN = "|"
"""Stands between the step and the status in the name of a class: "brazed|done"."""


@dataclass(slots=True)
class _Begun:
    """The rows of the features that begin with a word: by what stands behind it."""

    alone: int | None = None
    next: dict[str, int] = field(default_factory=dict)
    next_two: dict[tuple[str, ...], int] = field(default_factory=dict)
    next_but_one: dict[str, int] = field(default_factory=dict)

    def add(self, behind: list[str], row: int) -> None:
        match behind:
            case []:
                self.alone = row
            case [word]:
                self.next[word] = row
            case [first, second]:
                self.next_two[first, second] = row
                if first == "_":
                    self.next_but_one[second] = row


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
        self._said: dict[str, _Begun] = {}
        self._named: dict[str, _Begun] = {}
        self._near: dict[str, dict[str, int]] = {name: {} for _, name in NEAR}
        for name, row in self.row.items():
            first, *behind = name.split(" ")
            if first[:-1] in self._near:
                self._near[first[:-1]][behind[0]] = row
            elif name.startswith("~"):
                self._named.setdefault(first[1:], _Begun()).add(behind, row)
            else:
                self._said.setdefault(first, _Begun()).add(behind, row)

    def judge(self, rows: list[Stretch]) -> Any:
        """Return the chance of each class in each stretch: [stretch, class]."""
        import numpy as np

        sums = np.tile(np.array(self.bias), (len(rows), 1))
        for k, known in enumerate(self.known(rows)):
            if known:
                sums[k] += np.array([*known.values()]) @ self.all.take([*known], axis=0)
        return 1 / (1 + np.exp(-np.maximum(sums, -_NEVER)))

    def known(self, rows: list[Stretch]) -> list[dict[int, float]]:
        """Return the rows of the features of each stretch with their weights, of those that are known.

        They are those of `stretches.features`, looked up word by word: most of the names that it makes are
        those of no feature. One counts once, however often it stands there.
        """
        words = [frozenset(row.named) for row in rows]
        return [self._known(rows, k, words) for k in range(len(rows))]

    def _known(self, rows: list[Stretch], k: int, words: list[frozenset[str]]) -> dict[int, float]:
        known: dict[int, float] = {}
        here = rows[k]
        said, named, n = here.said, here.named, len(here.said)
        other = [a != b for a, b in zip(named, said, strict=True)]
        for i in range(n):
            if (led := self._said.get(said[i])) is not None:
                if led.alone is not None:
                    known[led.alone] = 1.0
                if i + 1 < n and (row := led.next.get(said[i + 1])) is not None:
                    known[row] = 1.0
                if i + 2 < n:
                    if (row := led.next_two.get(said[i + 1 : i + 3])) is not None:
                        known[row] = 1.0
                    if (row := led.next_but_one.get(said[i + 2])) is not None:
                        known[row] = 1.0
            if True not in other[i : i + 3] or (led := self._named.get(named[i])) is None:
                continue  # what reads as it was said is told above
            if other[i] and led.alone is not None:
                known[led.alone] = 1.0
            if True in other[i : i + 2] and i + 1 < n and (row := led.next.get(named[i + 1])) is not None:
                known[row] = 1.0
            if i + 2 < n:
                if (row := led.next_two.get(named[i + 1 : i + 3])) is not None:
                    known[row] = 1.0
                if (other[i] or other[i + 2]) and (row := led.next_but_one.get(named[i + 2])) is not None:
                    known[row] = 1.0
        for step, name in NEAR:
            if 0 <= k + step < len(rows):
                of = self._near[name]
                for word in words[k + step]:
                    if (row := of.get(word)) is not None:
                        known[row] = NEAR_WEIGHT
        for whole in visit_features(rows, k):
            if (row := self.row.get(whole)) is not None:
                known[row] = 1.0
        return known

    def told_here(self, rows: list[Stretch], k: int, column: int) -> tuple[float, int]:
        """Return the chance of a class by the words of stretch k alone, and the word that speaks loudest."""
        total = self.bias[column]
        loud: dict[int, float] = {}
        counted = set()
        for name, weight, place in features(rows, k, self.begins):
            if place < 0 or name not in self.of or name in counted:
                continue
            for c, own in self.of[name]:
                if c == column and own:
                    counted.add(name)
                    total += weight * own
                    loud[place] = loud.get(place, 0.0) + weight * own
                    break
        return _logistic(total), max(loud, key=loud.__getitem__, default=rows[k].start)


def _logistic(s: float) -> float:
    return 1 / (1 + exp(-max(s, -_NEVER)))


@cache
def trained() -> Weights:
    """Return the weights of the package; they are read once."""
    return Weights(weights("dictate.mentions.steps.second_opinion", "the second opinion on steps"))
