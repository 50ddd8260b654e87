"""A second opinion on what a number is: a small trained net over the words around it.

    opinions(narration) -> {token at which a number starts: Opinion}

It errs in other ways than the grammar of the readers does: it knows no order, no scope and no rule, only
which words, names of things, units and sizes of numbers stood near the values of the labelled narrations
(`tests/narrations/develop`). So it overrules nothing that was said. Where a value was tied to nothing beside
it, it is asked whether the words around look like one of that kind; where a number was carried on to what it
cannot be, or was left out, and the words leave little doubt, it is taken with a reason to look at it.

    surroundings    what stands around each number: the features
    net             the trained weights (weights.npz), and what they say

The weights are data, made by `python -m tests.benchmarks.second_opinion --write`.
"""

from __future__ import annotations

from dataclasses import dataclass

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion.net import MEASURED, trained
from dictate.mentions.second_opinion.surroundings import described, features

NONE = "none"
"""The class of a number that is no value: a count, a name, a time of day."""


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


def opinions(narration: Narration) -> dict[int, Opinion]:
    """Return an opinion on every number of a narration, by its first token; computed once per narration."""
    done: dict[int, Opinion] | None = narration.found.get("second opinion")
    if done is None:
        net = trained()
        around = described(narration, net)
        judged = net.judge([seen for _, seen in around])
        done = {number.start: Opinion(*shares) for (number, _), shares in zip(around, judged, strict=True)}
        narration.found["second opinion"] = done
    return done


__all__ = ["MEASURED", "NONE", "Opinion", "features", "opinions"]
