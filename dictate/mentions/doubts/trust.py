"""How likely a value is wrong, of all that speaks for it and against it: `share_of_doubt`.

A look alone cannot tell how often it is right, and neither can a reader that took a value on soft evidence.
So most of what they say is evidence only (`trust_evidence.py`), beside what the two judges of the second
opinion say and what kind of value it is. The weights of its terms (`trust_terms.py`) are in `trust.toml`,
fitted on values of narrations as they were taken by readers that had not been developed on them:
`python -m tests.benchmarks.trust --write`.
"""

from __future__ import annotations

import math
from functools import cache

from dictate.mentions.doubts.second_look import sounds_like
from dictate.mentions.doubts.talk import Case
from dictate.mentions.doubts.trust_terms import terms
from dictate.mentions.second_opinion import opinions
from dictate.vocabulary.load import table

ASKED = 0.065
"""From this share on a person is asked; chosen on narrations that no weight was fitted on."""

NAMED = 0.13
"""The same of a value that the name of its thing stands beside (`told_beside.py`)."""


def share_of_doubt(seen: dict[str, float]) -> float:
    """Return how likely a value with this evidence is wrong, 0 to 1."""
    if "told outright" in seen:
        return 0.0  # its frame says what it is: the words further off weigh nothing
    weights = _weights()
    summed = 0.0
    for name, much in terms(seen).items():
        if name in weights:
            summed += weights[name] * much
    return 1 / (1 + math.exp(-(weights["base"] + summed)))


def why_doubted(case: Case) -> str:
    """Return the reason for a value that no single look doubts, but all the evidence together does."""
    r, number = case.reading, case.number
    opinion = opinions(case.talk.n).get(number.start) if number is not None else None
    if opinion is None:
        return "it was told in words that often mean something else"
    best = opinion.best
    if best == r.quantity or opinion.quantities.get(r.quantity, 0.0) > 0.5:
        if sum(opinion.now.values()) < 0.5:
            return "the words around it sound more like a value that was not read now"
        return "the words around it leave open what it is a value of"
    return sounds_like(best)


@cache
def _weights() -> dict[str, float]:
    weights: dict[str, float] = table("trust")["weights"]
    return weights


__all__ = ["ASKED", "NAMED", "share_of_doubt", "why_doubted"]
