"""How likely a value is wrong, of all that speaks for it and against it: `share_of_doubt`.

A look alone cannot tell how often it is right. So most of them are evidence only: which of them found
something, what the second opinion says (is the number a measured value of this quantity, is it a value at
all), whether the unit was said, what kind of value it is. Their weights (`trust.toml`) are fitted on the
labelled narrations, each read with a second opinion that was not trained on it:
`python -m tests.benchmarks.trust --write`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cache

from dictate.mentions.doubts.second_look import sounds_like, weighed
from dictate.mentions.doubts.talk import Case
from dictate.mentions.second_opinion import opinions
from dictate.mentions.told_outright import is_told_outright
from dictate.mentions.whose.taken import BY_ALL_EVIDENCE, FAR_FROM_LABEL, LOOSE
from dictate.vocabulary.load import table

ASKED = 0.03
"""From this share on a person is asked; chosen on narrations that no weight was fitted on."""
_SOFT = {"loose": LOOSE, "evidence": BY_ALL_EVIDENCE, "far": FAR_FROM_LABEL}
"""The reasons of the readers that are evidence only, by a piece of their words."""
_LEAST = 1e-4


def soft_kind(reason: str) -> str | None:
    """Return which kind of soft reason of the readers this is, None when it is no soft one."""
    return next((kind for kind, piece in _SOFT.items() if piece in reason), None)


def told_outright(case: Case) -> bool:
    """Tell whether the frame of a bare value says what it is, so that the words further off weigh nothing."""
    return case.number is not None and is_told_outright(case.talk.n, case.number.start)


def evidence(case: Case, found: Iterable[str]) -> dict[str, float]:
    """Return all evidence on whether a value is right; `found` names the looks and readers that doubt it."""
    r, number = case.reading, case.number
    seen = {f"quantity {r.quantity}": 1.0, f"state {r.state}": 1.0}
    opinion = opinions(case.talk.n).get(number.start) if number is not None else None
    if opinion is None or (r.retracts and number is not None and number.value != r.value):
        seen["no opinion"] = 1.0  # of last digits said again ("no, oh six") there is none either
    else:
        now = _odds(opinion.of(r.quantity))
        seen["measured"] = now
        seen["of its quantity"] = _odds(opinion.quantities.get(r.quantity, 0.0))
        seen["of now"] = _odds(sum(opinion.now.values()))
        if now < 0:
            seen["measured: hardly"] = now
        seen["measured: bare" if case.bare else "measured: unit said"] = now
        shares = weighed(case)
        if shares is not None:
            seen["weighed"] = _odds(shares.get(r.quantity, 0.0))
    for name, holds in (
        ("zero", r.value == 0), ("bare", case.bare), ("puts right", bool(r.retracts)),
        ("no place", not r.component and not r.point), ("told outright", told_outright(case)),
    ):  # fmt: skip
        if holds:
            seen[name] = 1.0
    doubts = [f"doubt {name}" for name in found]
    seen.update(dict.fromkeys(doubts, 1.0))
    seen["doubts"] = float(len(doubts))
    return seen


def share_of_doubt(seen: dict[str, float]) -> float:
    """Return how likely a value with this evidence is wrong, 0 to 1."""
    weights = _weights()
    score = weights["base"] + sum(weights.get(name, 0.0) * much for name, much in seen.items())
    return 1 / (1 + math.exp(-score))


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


def _odds(chance: float) -> float:
    """Return the natural logarithm of the odds."""
    kept = min(max(chance, _LEAST), 1 - _LEAST)
    return math.log(kept / (1 - kept))


@cache
def _weights() -> dict[str, float]:
    weights: dict[str, float] = table("trust")["weights"]
    return weights


__all__ = ["ASKED", "evidence", "share_of_doubt", "soft_kind", "told_outright", "why_doubted"]
