"""What each of the two judges of the second opinion says of a number, summed up for what weighs it.

    judged(narration).get(token at which a number starts) -> (the net, the encoder or None), or None

They err in other ways, so each is evidence by itself (`trust_evidence.py`).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import MEASURED, NONE, judges
from dictate.mentions.second_opinion.opinion import BETWEEN

_MEANINGS = ("not now", "retracted")


@dataclass(frozen=True, slots=True)
class Judge:
    """What one judge says of a number: shares, 0 to 1."""

    measured: dict[str, float]
    """The share of a measured value of each quantity."""
    quantities: dict[str, float]
    """The share of each quantity, whatever is meant by it; `NONE` is no value at all."""
    meanings: dict[str, float]
    """The share of a target or the like, "not now", and of what is taken back, "retracted"."""
    entropy: float
    """How undecided it is, in nats; 0 where it is certain."""

    @property
    def now(self) -> float:
        """The share of a measured value of any quantity."""
        return sum(self.measured.values())


class Judged:
    """What both judges say of the numbers of a narration, summed up for the numbers that are asked for."""

    def __init__(self, narration: Narration) -> None:
        said = judges(narration)
        self._rows = {start: row for row, start in enumerate(said.starts)}
        self._net = _Sums(said.net_names, said.net)
        self._encoder = _Sums(said.encoder_names, said.encoder)

    def get(self, start: int) -> tuple[Judge, Judge | None] | None:
        """Return what the net and the encoder say of the number that starts at a token."""
        row = self._rows.get(start)
        if row is None:
            return None
        net = self._net.of(row)
        return None if net is None else (net, self._encoder.of(row))


def judged(narration: Narration) -> Judged:
    """Return what the net and the encoder say; computed once."""
    done: Judged | None = narration.found.get("judged")
    if done is None:
        done = narration.found["judged"] = Judged(narration)
    return done


class _Sums:
    """The sums of the shares of one judge, of all numbers at once."""

    def __init__(self, names: Sequence[str], log_shares: Any) -> None:
        import numpy as np

        self._known = len(log_shares) > 0
        if not self._known:
            return
        self._quantities, begins, by_quantity, self._measured, measured, meant = _parted(tuple(names))
        shares = np.exp(log_shares)
        # No product of matrices: the threads that it wakes take longer than these few sums.
        self._whole = np.add.reduceat(shares[:, by_quantity], begins, axis=1)
        self._now = shares[:, measured]
        self._meant = [shares[:, columns].sum(axis=1) for columns in meant]
        self._entropy = -(shares * np.maximum(log_shares, -30)).sum(axis=1)

    def of(self, row: int) -> Judge | None:
        """Return what is said of a number, None where it was not read."""
        if not self._known:
            return None
        entropy = float(self._entropy[row])
        if entropy != entropy:
            return None  # a row of nan
        return Judge(
            dict(zip(self._measured, self._now[row].tolist(), strict=True)),
            dict(zip(self._quantities, self._whole[row].tolist(), strict=True)),
            {meaning: float(sums[row]) for meaning, sums in zip(_MEANINGS, self._meant, strict=True)},
            entropy,
        )


@cache
def _parted(
    names: tuple[str, ...],
) -> tuple[list[str], list[int], list[int], list[str], list[int], list[list[int]]]:
    """Return how the classes are put together.

    The quantities, where each begins among the classes by quantity, these classes, the quantities that are
    measured, their classes, and the classes of each other meaning.
    """
    parts = [name.partition(BETWEEN) for name in names]
    by_quantity = sorted(range(len(names)), key=lambda i: parts[i][0])
    quantities: list[str] = []
    begins: list[int] = []
    for place, i in enumerate(by_quantity):
        if not quantities or quantities[-1] != parts[i][0]:
            quantities.append(parts[i][0])
            begins.append(place)
    measured = [i for i, (_, _, meaning) in enumerate(parts) if meaning == MEASURED]
    meant = [[i for i, part in enumerate(parts) if part[2] == meaning] for meaning in _MEANINGS]
    return quantities, begins, by_quantity, [parts[i][0] for i in measured], measured, meant


__all__ = ["NONE", "Judge", "Judged", "judged"]
