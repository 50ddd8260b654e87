"""The net that is trained: layers of the published model, and a head that judges numbers.

Needs torch and transformers (`pip install .[train]`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
import torch
from torch import nn
from transformers import BertConfig, BertModel

from dictate.mentions.second_opinion.encoder.windows import KINDS, WIDEST
from tests.benchmarks.encoder.base import LAYERS

WIDTH = 384
LONGEST = WIDEST + 2
_HEADS, _INNER = 12, 1536
_DROPPED = 0.1
_LOWER = 0.9
"""Each layer learns so much slower than the one above it: what was learnt before stays."""
_DECAY = 0.05
_SELDOM = -5.0
"""The logarithm of the odds of a step in a stretch, to begin with."""
_OF_HEAD, _OF_SIDE = 1e-3, 5e-3
"""How fast the head learns, and the weights of what is known of a number beside its words."""


def config(pieces: int) -> BertConfig:
    """Return the form of the layers, for a vocabulary of so many pieces."""
    return BertConfig(
        vocab_size=pieces, hidden_size=WIDTH, num_hidden_layers=LAYERS, num_attention_heads=_HEADS,
        intermediate_size=_INNER, max_position_embeddings=LONGEST, type_vocab_size=len(KINDS) + 1,
        hidden_dropout_prob=_DROPPED, attention_probs_dropout_prob=_DROPPED,
    )  # fmt: skip


class Network(nn.Module):
    """Layers and heads: of each number its class, which way its amount went, where it was read; steps, parts."""

    def __init__(
        self, base: Mapping[str, Any], sides: int, heads: Sequence[int], steps: int, parts: int
    ) -> None:
        super().__init__()
        self.layers = BertModel(
            config(len(base["embeddings.word_embeddings.weight"])), add_pooling_layer=False
        )
        self.layers.load_state_dict(_fitting(base), strict=False)
        self.drop = nn.Dropout(_DROPPED)
        classes, ways, *where = heads
        self.head = nn.Linear(WIDTH, classes)
        self.side = nn.Linear(sides, classes, bias=False)
        self.where = nn.ModuleList(nn.Linear(WIDTH, size) for size in where)
        self.way = nn.Linear(WIDTH, ways)
        self.side_of_way = nn.Linear(sides, ways, bias=False)
        self.step = nn.Linear(2 * WIDTH, steps)
        self.part = nn.Linear(WIDTH, parts)
        nn.init.constant_(self.step.bias, _SELDOM)
        nn.init.zeros_(self.side.weight)
        nn.init.zeros_(self.side_of_way.weight)

    def forward(
        self,
        pieces: Any,
        types: Any,
        mask: Any,
        numbers: tuple[Any, Any, Any],
        known: Any,
        stretches: tuple[Any, Any, Any],
        parts: tuple[Any, Any, Any],
    ) -> tuple[Any, ...]:
        """Return the scores of the classes, the ways, and of each further head, [number, class], of steps, of parts.

        `pieces`, `types` and `mask` are [window, piece]; a number, a stretch or a part stands in the window of the first
        entry of its three at the pieces [second, third); `known` is [number, side], 1 for what is known of it.
        """
        read = self.layers(
            input_ids=pieces, token_type_ids=types, attention_mask=mask
        ).last_hidden_state.float()
        sums = nn.functional.pad(read.cumsum(1), (0, 0, 1, 0))
        mean = self.drop(_mean(sums, *numbers))
        ways = self.way(mean) + self.side_of_way(known)
        talk = torch.cat([_mean(sums, *stretches), _largest(read, *stretches)], dim=1)
        return (
            self.head(mean) + self.side(known), ways, *(head(mean) for head in self.where),
            self.step(self.drop(talk)), self.part(self.drop(_mean(sums, *parts))),
        )  # fmt: skip

    def heads(self) -> tuple[Any, ...]:
        """Return the layers of the heads in the order of what is returned."""
        return self.head, self.way, *self.where

    def groups(self, rate: float) -> list[dict[str, Any]]:
        """Return the weights in groups for the optimiser, all of one rate and decay together."""
        out: dict[tuple[float, float], list[Any]] = {}
        for name, weights in self.named_parameters():
            layer = re.search(r"encoder\.layer\.(\d+)", name)
            if "token_type" in name:
                own = rate  # nothing was learnt of sizes before
            elif name.startswith("layers"):
                own = rate * _LOWER ** (LAYERS - 1 - int(layer[1]) if layer else LAYERS)
            else:
                own = _OF_SIDE if name.startswith("side") else _OF_HEAD
            still = weights.ndim < 2 or name.startswith("side")
            out.setdefault((own, 0.0 if still else _DECAY), []).append(weights)
        return [{"params": some, "lr": own, "weight_decay": decay} for (own, decay), some in out.items()]


def _mean(sums: Any, where: Any, first: Any, last: Any) -> Any:
    return (_at(sums, where, last) - _at(sums, where, first)) / (last - first).unsqueeze(1)


def _at(of: Any, where: Any, place: Any) -> Any:
    """Return `of[where, place]`: the way back from rows that are picked by one number each is many times faster."""
    return of.flatten(0, 1).index_select(0, where * of.shape[1] + place)


def _largest(read: Any, where: Any, first: Any, last: Any) -> Any:
    if not len(first):
        return read.new_zeros((0, read.shape[2]))
    places = first.unsqueeze(1) + torch.arange(int((last - first).max()), device=read.device)
    within = places.clamp(max=read.shape[1] - 1)
    here = _at(read, where.unsqueeze(1).expand_as(within).flatten(), within.flatten())
    here = here.view(*within.shape, read.shape[2])
    return here.masked_fill((places >= last.unsqueeze(1)).unsqueeze(2), -torch.inf).max(dim=1).values


def _fitting(base: Mapping[str, Any]) -> dict[str, Any]:
    """Return the weights of the published model that the net begins from, as far as its positions are used.

    Its one type of plain text is the beginning of all types; a little noise tells the sizes apart.
    """
    out = {}
    for name, weights in base.items():
        values = torch.tensor(np.asarray(weights, dtype="float32"))
        if name == "embeddings.position_embeddings.weight":
            values = values[:LONGEST]
        if name == "embeddings.token_type_embeddings.weight":
            others = values[:1].repeat(len(KINDS), 1)
            values = torch.cat([values[:1], others + 0.01 * torch.randn_like(others)])
        out[name] = values
    return out


def sides_of(known: Sequence[Sequence[str]], names: Sequence[str]) -> Any:
    """Return [number, side]: 1 for each name that is known of a number."""
    place = {name: i for i, name in enumerate(names)}
    out = np.zeros((len(known), len(names)), dtype="float32")
    for n, some in enumerate(known):
        for name in some:
            if name in place:
                out[n, place[name]] = 1.0
    return out


__all__ = ["LONGEST", "WIDTH", "Network", "config", "sides_of"]
