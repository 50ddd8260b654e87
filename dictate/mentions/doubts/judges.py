"""What each of the two judges of the second opinion says of a number, summed up for what weighs it.

    judged(narration) -> {token at which a number starts: (the net, the encoder or None)}

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


def judged(narration: Narration) -> dict[int, tuple[Judge, Judge | None]]:
    """Return what the net and the encoder say of every number; computed once."""
    done: dict[int, tuple[Judge, Judge | None]] | None = narration.found.get("judged")
    if done is None:
        said = judges(narration)
        net = _summed(said.net_names, said.net)
        encoder = _summed(said.encoder_names, said.encoder)
        done = {start: (n, e) for start, n, e in zip(said.starts, net, encoder, strict=True) if n is not None}
        narration.found["judged"] = done
    return done


@cache
def _parted(names: tuple[str, ...]) -> tuple[list[str], list[str], Any, list[int]]:
    """Return the quantities and those measured, the sums of classes as a matrix, the classes measured."""
    import numpy as np

    parts = [name.partition(BETWEEN) for name in names]
    quantities = sorted({quantity for quantity, _, _ in parts})
    sums = np.zeros((len(names), len(quantities) + len(_MEANINGS)), dtype="float32")
    for i, (quantity, _, meaning) in enumerate(parts):
        sums[i, quantities.index(quantity)] = 1
        if meaning in _MEANINGS:
            sums[i, len(quantities) + _MEANINGS.index(meaning)] = 1
    measured = [i for i, (_, _, meaning) in enumerate(parts) if meaning == MEASURED]
    return quantities, [parts[i][0] for i in measured], sums, measured


def _summed(names: Sequence[str], log_shares: Any) -> list[Judge | None]:
    """Return the sums for every row of logarithms of shares, [number, class]; None for a row of nan."""
    import numpy as np

    if not len(log_shares):
        return []
    quantities, measured, sums, columns = _parted(tuple(names))
    shares = np.exp(log_shares)
    whole = (shares @ sums).tolist()
    now = shares[:, columns].tolist()
    entropy = -(shares * np.maximum(log_shares, -30)).sum(axis=1)
    rows = zip(whole, now, entropy.tolist(), np.isnan(log_shares[:, 0]).tolist(), strict=True)
    return [
        None
        if unread
        else Judge(
            dict(zip(measured, of_now, strict=True)),
            dict(zip(quantities, of, strict=False)),
            dict(zip(_MEANINGS, of[len(quantities) :], strict=True)),
            undecided,
        )
        for of, of_now, undecided, unread in rows
    ]


__all__ = ["NONE", "Judge", "judged"]
