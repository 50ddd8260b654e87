"""Train the text encoder of the second opinion, and say how good it is on narrations it was not trained on.

    python -m tests.benchmarks.encoder            figures of the kept judgements on narrations left out
    python -m tests.benchmarks.encoder --write    train, write the weights and the judgements
    python -m tests.benchmarks.encoder --add      keep the judgements on narrations that came later

Narrations of `develop/` and the table tests. `--write` needs `pip install .[train]`; for each aim it trains
six nets: one on all, which is what the package carries, and five on four fifths of the narrations each, which
judge the last fifth and are thrown away. What the nets of all aims say is taken together. On graphics cards they
are trained side by side (ten minutes on two large ones, where one process does not wait for the other). `--texts` and `--made` part the work, where the card is in a machine without this project's
other libraries; `part` trains some of the nets.
"""

from __future__ import annotations

import math
import pickle
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from multiprocessing import get_context
from pathlib import Path
from typing import Any

import click

from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.second_opinion import MEASURED, NONE, encoder
from dictate.mentions.second_opinion.opinion import BETWEEN, Classes
from dictate.mentions.second_opinion.state_words import state_places
from dictate.mentions.steps.second_opinion.stretches import stretches_of, tokens_of
from tests.benchmarks.encoder import stored
from tests.benchmarks.second_opinion.__main__ import cases
from tests.narrations.labels import all_of

OUT = Path(encoder.__file__).with_name("weights")
FOLDS = 5


def prepared() -> dict[str, Any]:
    """Return all that the training needs: texts, names, the cut-down published model and its vocabulary."""
    from tests.benchmarks.encoder import base
    from tests.benchmarks.encoder.data import texts
    from tests.benchmarks.encoder.train import names_of

    some = texts()
    weights, vocabulary = base.cut_down(*base.published(), some)
    return {"texts": some, "names": names_of(some), "base": weights, "vocabulary": vocabulary}


def train(which: Net, of: dict[str, Any]) -> tuple[dict[str, Any], list[Any]]:
    """Train on all texts but those of a fold; return the weights of the net on all, and what it says of the fold."""
    import torch

    from dictate.mentions.second_opinion.encoder.word_pieces import WordPieces
    from tests.benchmarks.encoder.train import AIMS, judged, trained

    aim, fold = which
    torch.set_num_threads(1 if torch.cuda.is_available() else torch.get_num_threads())
    told = [text for text in of["texts"] if text.told]
    narrations = [text for text in of["texts"] if not text.told]
    learned = [text for i, text in enumerate(narrations) if fold is None or i % FOLDS != fold]
    pieces = WordPieces(of["vocabulary"])
    said = f"aim {aim + 1}, " + ("on all" if fold is None else f"without fold {fold + 1}")
    net = trained([*learned, *told], of["names"], of["base"], pieces, AIMS[aim], said)
    left = [] if fold is None else narrations[fold::FOLDS]
    weights = (
        {name: values.cpu().numpy() for name, values in net.state_dict().items()} if fold is None else {}
    )
    return weights, judged(net, left, of["names"], pieces)


Net = tuple[int, int | None]
"""Which aim a net has, and which fold it is trained without."""
Made = dict[Net, tuple[dict[str, Any], list[Any]]]


def train_some(of: dict[str, Any], which: Sequence[Net]) -> Made:
    """Return the nets on all, and what the others say of each narration that was left out, in their order."""
    import torch

    workers = len(which) if torch.cuda.is_available() else 1
    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        return dict(zip(which, pool.map(train, which, [of] * len(which)), strict=True))


def every() -> list[Net]:
    """Return all nets that are trained."""
    from tests.benchmarks.encoder.train import AIMS

    return [(aim, fold) for aim in range(len(AIMS)) for fold in (None, *range(FOLDS))]


def together(of: dict[str, Any], made: Made) -> tuple[list[dict[str, Any]], list[Any]]:
    """Return the weights of the nets on all by aim, and what those of all aims say of each narration."""
    weights = [made[net][0] for net in every() if net[1] is None]
    judged: list[Any] = [None] * sum(not text.told for text in of["texts"])
    for fold in range(FOLDS):
        by_aim = [made[net][1] for net in every() if net[1] == fold]
        judged[fold::FOLDS] = [_mean(of["names"], some) for some in zip(*by_aim, strict=True)]
    return weights, judged


def _mean(names: Any, judged: Sequence[tuple[Any, Any, Any]]) -> tuple[Any, Any, Any]:
    """Return the mean of what nets say of a narration: of the scores, so shares are made shares again."""
    import numpy as np

    numbers, odds, parts = (np.mean(some, axis=0) for some in zip(*judged, strict=True))
    begin = 0
    for of_head in names.of.values():
        numbers[:, begin : begin + len(of_head)] = _shares(numbers[:, begin : begin + len(of_head)])
        begin += len(of_head)
    return numbers, odds, _shares(parts)


def _shares(scores: Any) -> Any:
    import numpy as np

    return scores - np.logaddexp.reduce(scores, axis=1, keepdims=True)


def write(of: dict[str, Any], made: Made) -> None:
    """Write the weights into the package, and the judgements beside this file."""
    import numpy as np
    import torch

    from tests.benchmarks.encoder import export
    from tests.benchmarks.encoder.network import Network

    names = of["names"]
    weights, said = together(of, made)
    nets = []
    for some in weights:
        net = Network(
            of["base"],
            len(names.sides),
            [len(told) for told in names.of.values()],
            len(names.steps),
            len(names.parts),
        )
        net.load_state_dict({name: torch.from_numpy(values) for name, values in some.items()})
        nets.append(net)
    size = export.write(nets, names, of["vocabulary"], OUT)
    narrations = [text for text in of["texts"] if not text.told]
    keys = [number.key for text in narrations for number in text.numbers]
    judged = np.concatenate(
        [shares[: len(text.numbers)] for text, (shares, *_) in zip(narrations, said, strict=True)]
    )
    words = np.concatenate(
        [shares[len(text.numbers) :] for text, (shares, *_) in zip(narrations, said, strict=True)]
    )
    parted, of_words, begin = {}, {}, 0
    for head, of_head in names.of.items():
        parted[head] = judged[:, begin : begin + len(of_head)]
        of_words[head] = words[:, begin : begin + len(of_head)]
        begin += len(of_head)
    word_keys = [
        key
        for text in narrations
        for key in stored.keys_of_places(text.name, text.tokens, [(x.start, x.end) for x in text.words])
    ]
    stretches = [
        key for text in narrations for key in stored.keys_of_stretches(text.name, text.tokens, text.places)
    ]
    stored.write(
        names.of,
        keys,
        parted,
        names.steps,
        stretches,
        np.concatenate([odds for _, odds, _ in said]),
        word_keys,
        of_words,
    )
    click.echo(f"{len(keys)} numbers of {len(narrations)} narrations -> {OUT.name}, {size / 1e6:.1f} MB")


def add() -> None:
    """Keep what the encoder of the package says of narrations that it was not trained on: none of which is kept yet."""
    import numpy as np

    kept = stored.stored()
    keys, shares = list(kept.keys), {head: [kept.shares(head)] for head in kept.names}
    of_steps, odds = list(kept.step_keys), [kept.odds()]
    word_keys, of_words = list(kept.word_keys), {head: [kept.word_shares(head)] for head in stored.OF_WORDS}
    for labelled in all_of("develop"):
        narration = Narration(list(segments_of(labelled.lines, "c1")))
        own = stored.keys_of(labelled.name, narration)
        if own and not any(key in kept.place for key in own):
            keys += own
            read = encoder.read(narration, [1.0] * len(own))
            for head, rows in encoder.log_shares(narration, read).items():
                shares[head].append(rows)
            places = state_places(narration)
            word_keys += stored.keys_of_places(labelled.name, narration.lowers, places)
            judged = encoder.log_shares_of_words(read, places)
            for head, some in of_words.items():
                some.append(judged[head])
            words = words_of(narration)
            stretches = tokens_of(words, stretches_of(words))
            of_steps += stored.keys_of_stretches(labelled.name, narration.lowers, stretches)
            odds.append(np.nan_to_num(encoder.log_odds_of_steps(read, stretches), nan=stored.NEVER))
    click.echo(f"{len(keys) - len(kept.keys)} numbers added")
    stored.write(
        kept.names, keys, {head: np.concatenate(rows) for head, rows in shares.items()},
        kept.steps, of_steps, np.concatenate(odds),
        word_keys, {head: np.concatenate(some) for head, some in of_words.items()},
    )  # fmt: skip


def figures() -> None:
    """Print how good the kept judgements are."""
    kept = stored.stored()
    classes = Classes(kept.names["class"])
    of = dict.fromkeys(("quantity", "quantity of a value", "bare", "measured or not"), 0)
    right = dict(of)
    lost, loss, told = 0, 0.0, 0
    for labelled in all_of("develop"):
        shares = kept.of(labelled.name, Narration(list(segments_of(labelled.lines, "c1"))))["class"]
        opinions = classes.opinions(shares)
        for c, opinion, row in zip(cases(labelled), opinions, shares, strict=True):
            if math.isnan(row[0]):
                lost += 1
                continue
            told += 1
            place = c.quantity + BETWEEN + c.meaning
            loss -= row[classes.names.index(place)] if place in classes.names else math.log(1e-6)
            good = opinion.best == c.quantity
            now = (sum(opinion.now.values()) >= 0.5) == (c.meaning == MEASURED)
            for key, counts, fine in (
                ("quantity", True, good),
                ("quantity of a value", c.quantity != NONE, good),
                ("bare", c.quantity != NONE and c.bare, good),
                ("measured or not", True, now),
            ):
                of[key] += counts
                right[key] += counts and fine
    for key, n in of.items():
        click.echo(f"{key:24} {100 * right[key] / n:5.2f} %   {right[key]} of {n}")
    click.echo(f"log loss of the class    {loss / told:.4f}   without a judgement: {lost} numbers")


@click.command()
@click.option("--write", "writes", is_flag=True, help="Train and write the weights and the judgements.")
@click.option("--add", "adds", is_flag=True, help="Keep the judgements on narrations that came later.")
@click.option(
    "--texts", type=click.Path(path_type=Path), help="Only prepare, into this file; or train from it."
)
@click.option(
    "--made",
    type=click.Path(path_type=Path),
    multiple=True,
    help="Write from these files, which training made.",
)
def main(writes: bool, adds: bool, texts: Path | None, made: tuple[Path, ...]) -> None:
    """Train and judge the encoder."""
    if adds:
        add()
        return
    if texts is not None and not texts.exists():
        texts.write_bytes(pickle.dumps(prepared()))
        return
    if not writes:
        figures()
        return
    of = prepared() if texts is None else pickle.loads(texts.read_bytes())
    if made:
        write(of, {net: it for one in made for net, it in pickle.loads(one.read_bytes()).items()})
    else:
        write(of, train_some(of, every()))


def part(texts: Path, made: Path, which: Sequence[Net]) -> None:
    """Train some nets from a file into a file: for a machine with a graphics card."""
    made.write_bytes(pickle.dumps(train_some(pickle.loads(texts.read_bytes()), which)))


if __name__ == "__main__":
    main()
