"""The training: texts in ever other words and windows -> the weights, and what they say of texts left out.

Settings as they were best on folds of `develop/`. The loss holds two passes, in which other parts of the
net are dropped, to one opinion (R-Drop: Liang and others, "R-Drop: Regularized Dropout for Neural
Networks", 2021): the shares are far better than without. Needs torch and transformers (`pip install
.[train]`), and minutes on a graphics card or hours without.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from random import Random
from typing import Any

import numpy as np
import torch
from torch.nn import functional

from dictate.mentions.second_opinion.encoder.windows import Row, Window, laid_out, windows
from dictate.mentions.second_opinion.encoder.word_pieces import HIDDEN, WordPieces
from tests.benchmarks.encoder.data import WHERE, Stretch, Text
from tests.benchmarks.encoder.network import Network, sides_of
from tests.benchmarks.encoder.vary import varied

ROUNDS, RATE, AT_ONCE = 13, 4e-4, 24
LEAST = 5
"""A unit or component that fewer numbers have has no place of its own."""
_SHORTEST, _WIDEST = 124, 254
"""The pieces of a window; at run time it is always the widest."""
_HIDDEN = 0.03
"""The share of pieces that are hidden, so that a word that is unknown later does no harm."""
_STATE = 0.5
"""How much the words that may stand for a value count."""
_WAY = 0.5
"""How much the ways of the amounts of refrigerant count beside the classes."""
_PLACED_EVERY = 3
"""Rounds after which what is open is placed once more."""
_ODDS_PLACED, _SHARE_PLACED = -1.0, math.log(0.15)
"""What is open is placed where the logarithm of its odds, or of its share, is above this."""
_LEAST_STEP = 12
"""Stretches that must tell a step, or names of parts what became of it, for it to be learned."""
_WARM, _NORM = 0.08, 1.0


@dataclass(frozen=True)
class Aim:
    """What a net is trained for: how much each of `data.WHERE`, the steps and the parts count beside the classes."""

    seed: int
    where: float
    steps: float
    parts: float


AIMS = (Aim(0, where=0.15, steps=0.3, parts=0.3), Aim(1, where=0.35, steps=0.6, parts=0.5))
"""The nets whose mean is taken: one tells the classes better, the other places, steps and parts.

On a fold the mean of two has a log loss of the class of .168 where the better one alone has .182.
"""


@dataclass
class Names:
    """The names of classes, of what is known of numbers, of ways and `WHERE`, in the order of their weights."""

    classes: list[str]
    sides: list[str]
    ways: list[str]
    where: dict[str, list[str]]
    steps: list[str]
    parts: list[str]

    @property
    def of(self) -> dict[str, list[str]]:
        """The names of what each head says."""
        return {"class": self.classes, "way": self.ways, **self.where}


def names_of(texts: Sequence[Text]) -> Names:
    """Return the names for a set of texts."""
    numbers = [number for text in texts for number in text.numbers]
    judged = [*numbers, *(word for text in texts for word in text.words)]
    sides = Counter(name for one in judged for name in one.known)
    where = {
        name: Counter(told for one in judged if (told := one.where.get(name)) is not None) for name in WHERE
    }
    steps = Counter(name for text in texts for stretch in text.stretches for name in stretch.steps)
    parts = Counter(named.told for text in texts for named in text.parts if named.told is not None)
    return Names(
        sorted({number.target for number in numbers if number.target is not None}),
        sorted(name for name, times in sides.items() if times >= LEAST),
        sorted({number.way for number in numbers if number.way}),
        {
            name: sorted(value for value, times in counted.items() if times >= LEAST)
            for name, counted in where.items()
        },
        sorted(name for name, times in steps.items() if times >= _LEAST_STEP),
        sorted(name for name, times in parts.items() if times >= _LEAST_STEP),
    )


@dataclass
class Piece:
    """One window of a text: its pieces with the outer two, their types, and the places of what is judged in it.

    The places are of numbers and then words, of stretches and of parts, each with its place in the text.
    """

    text: int
    pieces: list[int]
    types: list[int]
    numbers: list[tuple[int, int, int]]
    stretches: list[tuple[int, int, int]]
    parts: list[tuple[int, int, int]]


def trained(
    texts: Sequence[Text], names: Names, base: Mapping[str, Any], pieces: WordPieces, aim: Aim, said: str
) -> Network:
    """Return a net that was trained on texts."""
    device = _device()
    # It would make a plan for each new width of a batch, which takes longer than the work itself.
    torch.backends.cuda.enable_cudnn_sdp(False)
    torch.manual_seed(aim.seed)
    random = Random(aim.seed)
    some = [text for text in texts for _ in range(text.times)]
    net = Network(
        base, len(names.sides), [len(of) for of in names.of.values()], len(names.steps), len(names.parts)
    ).to(device)
    groups = net.groups(RATE)
    rates = [group["lr"] for group in groups]
    optimiser = torch.optim.AdamW(groups, betas=(0.9, 0.98), fused=device == "cuda")
    steps = ROUNDS * len(_batches(_cut(some, pieces, random), random))
    step = 0
    for round_ in range(ROUNDS):
        if round_ and round_ % _PLACED_EVERY == 0:
            some = _placed(net, some, names, pieces)
            net.train()
        total, count = torch.zeros((), device=device), 0
        turned = [varied(text, random) for text in some]
        for batch in _batches(_cut(turned, pieces, random), random):
            share = min(1.0, step / (steps * _WARM)) * 0.5 * (1 + math.cos(math.pi * min(1.0, step / steps)))
            for group, rate in zip(optimiser.param_groups, rates, strict=True):
                group["lr"] = rate * share
            loss = _loss(net, aim, _tensors(batch, turned, names, device, pieces, random))
            optimiser.zero_grad()
            loss.backward()
            torch.nn.utils.clip_grad_norm_(net.parameters(), _NORM)
            optimiser.step()
            step, count, total = step + 1, count + 1, total + loss.detach()
        print(f"{said}: round {round_ + 1} of {ROUNDS}, loss {float(total) / count:.3f}", flush=True)
    return net


def _placed(net: Network, texts: Sequence[Text], names: Names, pieces: WordPieces) -> list[Text]:
    """Return the texts with the steps and parts that are open where the net thinks they likeliest were told."""
    some = [
        i
        for i, text in enumerate(texts)
        if any(x.open for x in text.stretches) or any(x.told is None for x in text.parts)
    ]
    out = list(texts)
    for i, (_, odds, shares) in zip(some, judged(net, [texts[i] for i in some], names, pieces), strict=True):
        text = texts[i]
        stretches = [replace(x, placed=[]) for x in text.stretches]
        for name in {name for x in stretches for name in x.open if name in names.steps}:
            column = odds[:, names.steps.index(name)]
            if column.max() > _ODDS_PLACED:
                stretches[int(column.argmax())].placed.append(name)
        parts = [replace(x, placed=None) for x in text.parts]
        for one_of in {x.one_of for x in parts if x.one_of is not None}:
            here = [n for n, x in enumerate(parts) if x.one_of == one_of]
            kind = parts[here[0]].kind
            if kind in names.parts:
                column = shares[here, names.parts.index(kind)]
                if column.max() > _SHARE_PLACED:
                    parts[here[int(column.argmax())]].placed = kind
        out[i] = replace(text, stretches=stretches, parts=parts)
    return out


def judged(
    net: Network, texts: Sequence[Text], names: Names, pieces: WordPieces
) -> list[tuple[Any, Any, Any]]:
    """Return for each text the logarithms of the shares of its numbers and words, [number, heads], and the odds of steps.

    The heads are those of `Names.of`, in their order; the steps are [stretch, step], and then come the logarithms of
    the shares of what became of the parts, [part, name].
    """
    device = _device()
    net.eval()
    wide = sum(map(len, names.of.values()))
    out = [
        (
            np.zeros((len(text.numbers) + len(text.words), wide), dtype="float32"),
            np.zeros((len(text.stretches), len(names.steps)), dtype="float32"),
            np.zeros((len(text.parts), len(names.parts)), dtype="float32"),
        )
        for text in texts
    ]
    cut = sorted(_cut(texts, pieces, None), key=lambda piece: len(piece.pieces))
    with torch.no_grad():
        for i in range(0, len(cut), AT_ONCE):
            batch = cut[i : i + AT_ONCE]
            *heads, steps, parts = net(*_tensors(batch, texts, names, device, pieces, None)[0])
            shares = torch.cat([scores.float().log_softmax(1) for scores in heads], dim=1)
            rows: Iterator[Any] = iter(shares.cpu().numpy())
            of_steps: Iterator[Any] = iter(steps.float().cpu().numpy())
            of_parts: Iterator[Any] = iter(parts.float().log_softmax(1).cpu().numpy())
            for piece in batch:
                for n, _, _ in piece.numbers:
                    out[piece.text][0][n] = next(rows)
                for n, _, _ in piece.stretches:
                    out[piece.text][1][n] = next(of_steps)
                for n, _, _ in piece.parts:
                    out[piece.text][2][n] = next(of_parts)
    return out


def _device() -> str:
    return "cuda" if torch.cuda.is_available() else "cpu"


def _cut(texts: Sequence[Text], pieces: WordPieces, random: Random | None) -> list[Piece]:
    """Return the windows of texts; with chance each of another width, beginning elsewhere."""
    out = []
    for i, text in enumerate(texts):
        spans = [(number.start, number.end) for number in text.numbers]
        row = laid_out(text.tokens, text.ends, spans, [number.size for number in text.numbers], pieces)
        stretches = [(row.tokens[x.start], row.tokens[x.end]) for x in text.stretches]
        words = [(row.tokens[x.start], row.tokens[x.end]) for x in text.words]
        parts = [(row.tokens[x.start], row.tokens[x.end]) for x in text.parts]
        for window in windows(row) if random is None else _any_windows(row, random):
            out.append(
                Piece(
                    i,
                    [pieces.begin, *row.pieces[window.first : window.last], pieces.end],
                    [0, *row.types[window.first : window.last], 0],
                    [(n, *window.place(row.numbers[n])) for n in range(window.begin, window.end)]
                    + [
                        (len(text.numbers) + n, *window.place(place))
                        for n, place in enumerate(words)
                        if window.judges(place)
                    ],
                    [(n, *window.place(place)) for n, place in enumerate(stretches) if window.judges(place)],
                    [(n, *window.place(place)) for n, place in enumerate(parts) if window.judges(place)],
                )
            )
    return out


def _any_windows(row: Row, random: Random) -> list[Window]:
    widest = random.randint(_SHORTEST, _WIDEST)
    left = random.randint(24, 80) if widest > 150 else 24
    right = random.randint(4, 20)
    judged = random.randint(20, widest - 24) if len(row.pieces) > 40 else None
    return windows(row, widest, left, right, judged)


def _batches(cut: list[Piece], random: Random) -> list[list[Piece]]:
    """Return windows in batches of about one length each, in any order."""
    random.shuffle(cut)
    wide = AT_ONCE * 16
    some = [
        piece
        for i in range(0, len(cut), wide)
        for piece in sorted(cut[i : i + wide], key=lambda piece: len(piece.pieces))
    ]
    out = [some[i : i + AT_ONCE] for i in range(0, len(some), AT_ONCE)]
    random.shuffle(out)
    return out


def _tensors(
    batch: Sequence[Piece],
    texts: Sequence[Text],
    names: Names,
    device: str,
    pieces: WordPieces,
    random: Random | None,
) -> tuple[tuple[Any, ...], list[Any]]:
    """Return what the net asks for, and what each head should say of the numbers (-100: nothing is known).

    Then come the steps, [stretch, step]: 1 where it is told, 0 where not, below 0 where that is not known; and what
    became of the parts.
    """
    width = max(len(piece.pieces) for piece in batch)
    ids, types, mask = (np.zeros((len(batch), width), dtype=np.int64) for _ in range(3))
    hidden = pieces.number[HIDDEN]
    numbers: list[list[int]] = []
    stretches: list[list[int]] = []
    parts: list[list[int]] = []
    became = []
    known = []
    wanted: dict[str, list[int]] = {head: [] for head in names.of}
    steps = []
    for i, piece in enumerate(batch):
        size = len(piece.pieces)
        ids[i, :size], types[i, :size], mask[i, :size] = piece.pieces, piece.types, 1
        if random is not None:
            for j in range(1, size - 1):
                if not types[i, j] and random.random() < _HIDDEN:
                    ids[i, j] = hidden
        text = texts[piece.text]
        for n, start, end in piece.numbers:
            number = text.numbers[n] if n < len(text.numbers) else text.words[n - len(text.numbers)]
            numbers.append([i, start, end])
            known.append(number.known)
            for head, told in {"class": number.target, "way": number.way, **number.where}.items():
                wanted[head].append(names.of[head].index(told) if told in names.of[head] else -100)
            for head in names.where.keys() - number.where.keys():
                wanted[head].append(-100)
        for n, start, end in piece.stretches:
            stretches.append([i, start, end])
            steps.append(_told(texts[piece.text].stretches[n], names))
        for n, start, end in piece.parts:
            parts.append([i, start, end])
            told = texts[piece.text].parts[n].told or texts[piece.text].parts[n].placed
            became.append(names.parts.index(told) if told in names.parts else -100)

    def tensor(values: Any) -> Any:
        return torch.as_tensor(np.asarray(values)).to(device)

    def places(of: list[list[int]]) -> tuple[Any, ...]:
        return tuple(tensor(np.array(of, dtype=np.int64).reshape(-1, 3)[:, i]) for i in range(3))

    sides = tensor(sides_of(known, names.sides))
    asked = (
        tensor(ids),
        tensor(types),
        tensor(mask),
        places(numbers),
        sides,
        places(stretches),
        places(parts),
    )
    of_steps = np.array(steps, dtype=np.float32).reshape(-1, len(names.steps))
    of_heads = (tensor(np.array(wanted[head], dtype=np.int64)) for head in names.of)
    return asked, [*of_heads, tensor(of_steps), tensor(np.array(became, dtype=np.int64))]


def _told(stretch: Stretch, names: Names) -> list[float]:
    told = {*stretch.steps, *stretch.placed}
    return [1.0 if name in told else -1.0 if name in stretch.open else 0.0 for name in names.steps]


def _twice(asked: tuple[Any, ...]) -> tuple[Any, ...]:
    """Return what is asked twice in one batch: the two passes drop other parts of the net all the same."""
    *windows, numbers, known, stretches, parts = asked
    many = len(windows[0])

    def again(places: tuple[Any, Any, Any]) -> tuple[Any, ...]:
        where, first, last = places
        return torch.cat([where, where + many]), first.repeat(2), last.repeat(2)

    return (
        *(torch.cat([x, x]) for x in windows), again(numbers), torch.cat([known, known]), again(stretches), again(parts),
    )  # fmt: skip


def _loss(net: Network, aim: Aim, of: tuple[tuple[Any, ...], list[Any]]) -> Any:
    asked, (*wanted, steps, parts) = of
    device = asked[0].device.type
    with torch.autocast(device, torch.bfloat16, enabled=device == "cuda"):
        both = [said.chunk(2) for said in net(*_twice(asked))]
    *first, one_step, one_part = (said[0] for said in both)
    *second, other_step, other_part = (said[-1] for said in both)
    missed: Any = 0.0
    for i, told in enumerate(wanted):
        # What counts most is held to its label in both passes.
        passes, weight = ((first, second), (1.0, _WAY)[i] / 2) if i < 2 else ((first,), aim.where)
        if i == len(wanted) - 1:
            passes, weight = (first, second), _STATE / 2
        missed = missed + weight * sum(_missed(said[i], told) for said in passes)
    if len(steps):
        for said in (one_step, other_step):
            each = functional.binary_cross_entropy_with_logits(
                said.float(), steps.clamp(min=0), reduction="none"
            )
            missed = missed + aim.steps / 2 * (each * (steps >= 0)).sum() / len(steps)
    for said in (one_part, other_part):
        missed = missed + aim.parts / 2 * _missed(said, parts)
    if not len(first[0]):
        return missed
    scores, again = first[0].float(), second[0].float()
    one, other = scores.log_softmax(1), again.log_softmax(1)
    apart = functional.kl_div(one, other, log_target=True, reduction="batchmean")
    apart = apart + functional.kl_div(other, one, log_target=True, reduction="batchmean")
    return missed + apart / 2


def _missed(said: Any, told: Any) -> Any:
    """Return the mean loss of what is known, 0 where nothing is: without waiting for the card to say which."""
    return functional.cross_entropy(said.float(), told, reduction="sum") / (told >= 0).sum().clamp(min=1)


__all__ = ["AIMS", "Aim", "Names", "judged", "names_of", "trained"]
