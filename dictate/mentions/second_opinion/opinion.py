"""What is thought of one number, and how two judges come to one opinion."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, Generic, TypeVar

T = TypeVar("T")

MEASURED = "measured"
BETWEEN = "|"
"""Stands between the quantity and the meaning in the name of a class."""
_LEAST = -14.0
"""The logarithm of the share of a class that a judge does not know."""


@dataclass(frozen=True, slots=True)
class Opinion:
    """How likely a number is a value of each quantity, and a measured value of it: chances, 0 to 1."""

    quantities: dict[str, float]
    now: dict[str, float]

    def of(self, quantity: str) -> float:
        """Return the chance that the number is a measured value of a quantity."""
        return self.now.get(quantity, 0.0)

    @property
    def best(self) -> str:
        """Return the likeliest quantity, or `NONE`."""
        return max(self.quantities, key=self.quantities.__getitem__)


class Classes:
    """The classes by name, "quantity|meaning", and the opinions that shares of them make."""

    def __init__(self, names: Sequence[str]) -> None:
        self.names = list(names)
        parted = [name.split(BETWEEN) for name in names]
        self.quantities = sorted({quantity for quantity, _ in parted})
        # All classes by quantity, and where those of each quantity begin among them.
        self._by_quantity = sorted(range(len(parted)), key=lambda i: parted[i][0])
        of = [parted[i][0] for i in self._by_quantity]
        self._begins = [of.index(quantity) for quantity in self.quantities]
        self._measured = [i for i, c in enumerate(parted) if c[1] == MEASURED]
        self._measured_quantities = [parted[i][0] for i in self._measured]

    def opinions(self, log_shares: Any) -> list[Opinion]:
        """Return an opinion for each row of logarithms of shares, [number, class]."""
        of = self.opinion_of(log_shares)
        return [of(row) for row in range(len(log_shares))]

    def opinion_of(self, log_shares: Any) -> Callable[[int], Opinion]:
        """Return what makes the opinion of a row of logarithms of shares, [number, class]."""
        import numpy as np

        shares = np.exp(log_shares)
        whole = np.add.reduceat(shares[:, self._by_quantity], self._begins, axis=1).tolist()
        now = shares[:, self._measured].tolist()

        def opinion(row: int) -> Opinion:
            return Opinion(
                dict(zip(self.quantities, whole[row], strict=True)),
                dict(zip(self._measured_quantities, now[row], strict=True)),
            )

        return opinion


@cache
def classes_of(names: tuple[str, ...]) -> Classes:
    """Return the classes with these names, made once."""
    return Classes(names)


class OfNumbers(Mapping[int, T], Generic[T]):
    """What is said of numbers by their first tokens, made of a number when it is asked for."""

    def __init__(self, rows: Mapping[int, int], make: Callable[[int], T]) -> None:
        self._rows, self._make = rows, make
        self._made: dict[int, T] = {}

    def __getitem__(self, start: int) -> T:
        made = self._made.get(start)
        if made is None:
            made = self._made[start] = self._make(self._rows[start])
        return made

    def get(self, start: int, default: Any = None) -> Any:
        """Return what is said of the number that starts at a token."""
        return self[start] if start in self._rows else default

    def __contains__(self, start: object) -> bool:
        return start in self._rows

    def __iter__(self) -> Iterator[int]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)


def mixed(classes: Sequence[str], log_shares: Any, others: Sequence[str], other: Any, weight: float) -> Any:
    """Return the weighted mean of two judges' logarithms of shares, as logarithms of shares again.

    Each judge has a row a number and a column a class; the result has the columns of the first, and classes
    that only one of them knows are next to nothing for the other. `weight` is that of the other, 0 to 1.
    Where a row of the other is not a number, the first is alone.
    """
    import numpy as np

    places = {name: i for i, name in enumerate(others)}
    if list(classes) != list(others):
        wide = np.full((len(other), len(classes)), _LEAST, dtype="float32")
        for i, name in enumerate(classes):
            if name in places:
                wide[:, i] = other[:, places[name]]
        wide[np.isnan(other).any(axis=1)] = np.nan
        other = wide
    joined = (1 - weight) * np.maximum(log_shares, _LEAST) + weight * np.maximum(other, _LEAST)
    joined -= np.log(np.exp(joined).sum(axis=1, keepdims=True))
    return np.where(np.isnan(joined), log_shares, joined)


__all__ = ["BETWEEN", "MEASURED", "Classes", "OfNumbers", "Opinion", "classes_of", "mixed"]
