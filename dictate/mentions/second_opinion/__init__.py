"""A second opinion on what a number is: two trained judges over the words around it.

    opinions(narration) -> {token at which a number starts: Opinion}, of both, for what doubts a value
    net_opinions(narration) -> the same of the net alone, for what takes it

They err in other ways than the grammar of the readers does, and in other ways than each other. The net
knows no order, no scope and no rule, only which words, names of things, units and sizes of numbers stood
near the values of the labelled narrations (`tests/narrations/develop`). The text encoder reads the words in
their order and knows much English, but no trade beyond those narrations. The opinion is the mean of both.
The readers ask the net alone: so the encoder has no part in what it judges. The opinion overrules nothing
that was said: where a value was tied to nothing beside it, it is asked whether the words around look like
one of that kind; where a number was carried on to what it cannot be, or was left out, and the words leave
little doubt, it is taken with a reason to look at it.

    surroundings    what stands around each number: the features of the net
    net             the trained weights of the net (weights.npz), and what they say
    encoder/        the text encoder
    opinion         the type, and how the two are joined

The weights are data, made by `python -m tests.benchmarks.second_opinion --write` and
`python -m tests.benchmarks.encoder --write`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dictate.mentions.narration import Narration
from dictate.mentions.second_opinion import encoder
from dictate.mentions.second_opinion.net import trained
from dictate.mentions.second_opinion.opinion import MEASURED, Classes, Opinion, mixed
from dictate.mentions.second_opinion.surroundings import described, features

NONE = "none"
"""The class of a number that is no value: a count, a name, a time of day."""
ENCODER = 0.5
"""The weight of the encoder, the net has the rest: chosen on narrations that neither was trained on."""


def opinions(narration: Narration) -> dict[int, Opinion]:
    """Return the opinion of both on every number of a narration, by its first token; computed once."""
    done: dict[int, Opinion] | None = narration.found.get("second opinion")
    if done is None:
        classes, starts, by_net = _by_net(narration)
        joined = mixed(classes, by_net, *by_encoder(narration, _unsure(by_net)), ENCODER)
        done = dict(zip(starts, Classes(classes).opinions(joined), strict=True))
        narration.found["second opinion"] = done
    return done


def net_opinions(narration: Narration) -> dict[int, Opinion]:
    """Return the opinion of the net alone, for the readers: what is taken must not hang on what doubts it."""
    done: dict[int, Opinion] | None = narration.found.get("opinion of the net")
    if done is None:
        classes, starts, by_net = _by_net(narration)
        done = dict(zip(starts, Classes(classes).opinions(by_net), strict=True))
        narration.found["opinion of the net"] = done
    return done


def _by_net(narration: Narration) -> tuple[list[str], list[int], Any]:
    """Return the classes of the net, where each number starts, and what the net says of it."""
    done: tuple[list[str], list[int], Any] | None = narration.found.get("shares of the net")
    if done is None:
        net = trained()
        around = described(narration, net)
        shares = net.log_shares([seen for _, seen in around])
        done = (net.classes, [number.start for number, _ in around], shares)
        narration.found["shares of the net"] = done
    return done


def _unsure(by_net: Any) -> list[float]:
    """Return how unsure the net is of each number: one less the share of its likeliest class."""
    import numpy as np

    return (1.0001 - np.exp(by_net.max(axis=1))).tolist() if len(by_net) else []


def by_encoder(narration: Narration, wanted: Sequence[float]) -> tuple[list[str], Any]:
    """Return the classes of the encoder and what it says of each number: `encoder.log_shares`."""
    return encoder.trained().classes, encoder.log_shares(narration, wanted)


__all__ = ["MEASURED", "NONE", "Opinion", "features", "net_opinions", "opinions"]
