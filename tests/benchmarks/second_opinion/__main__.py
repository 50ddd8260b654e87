"""Train the second opinion on the labelled narrations, and say how good it is on narrations it has not seen.

    python -m tests.benchmarks.second_opinion            cross-validated figures
    python -m tests.benchmarks.second_opinion --write    train on all and write the weights

Needs scikit-learn (`pip install .[bench]`). Narrations of `develop/` only; a fold holds whole narrations. Each
number of a text is one case: its quantity ("none" when no label holds it, "movement" for an amount of
refrigerant) and how it is meant (measured, retracted, "not now" for targets, ratings and former visits, "none").
One class for each quantity with each meaning; a net of one hidden layer, which is trained only a few times over
the cases, so that it learns the common and not the single case. The sentences of the table tests (`told.py`) are
learned from as well. Beside the net stand the figures of the text encoder (`tests/benchmarks/encoder/`), as it
judged each narration when it was not trained on it, and of both together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

import dictate.mentions.second_opinion
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import ENCODER, MEASURED, NONE, Opinion, features
from dictate.mentions.second_opinion.net import Net
from dictate.mentions.second_opinion.opinion import BETWEEN, Classes, mixed
from tests.benchmarks.encoder.stored import stored
from tests.benchmarks.second_opinion.told import told
from tests.narrations.labels import Labelled, all_of

OUT = Path(dictate.mentions.second_opinion.__file__).with_name("weights.npz")
LEAST = 3
"""A feature that fewer numbers have is left out."""
NETS, UNITS, ROUNDS, PENALTY = 2, 24, 6, 1e-3
"""How many nets are trained from different beginnings, the units of the hidden layer of each, rounds over all cases,
the L2 penalty; with half or twice as many units or rounds the cross-validated figures hardly differ."""


TIMES = 2
"""How often a sentence of a test is learned from in each round: it stands alone, a number of a visit does not."""


@dataclass
class Case:
    """One number of a labelled narration."""

    narration: str
    seen: dict[str, float]
    quantity: str
    meaning: str
    bare: bool


def cases(labelled: Labelled) -> list[Case]:
    """Return the numbers of a narration with what their labels say."""
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    offsets = [0]
    for segment in narration.segments:
        offsets.append(offsets[-1] + len(segment.words))

    def word(token: int) -> int:
        return offsets[narration.tokens[token].segment] + narration.tokens[token].word

    described = features(narration)
    spans = [(word(x.start), word(x.end - 1), x.value) for x, _ in described]
    out = []
    for (first, last, value), (_, seen) in zip(spans, described, strict=True):
        quantity = meaning = NONE
        rows = [r for r in labelled.readings if r.first <= last and first <= r.last]
        equal = [r for r in rows if _same(r.get("value"), value)]
        equal.sort(key=lambda r: r.last - r.first)
        row = equal[0] if equal else None
        if row is None and rows and rows[0].get("value"):  # a nought has no other number: "dead on all three"
            inside = [v for a, b, v in spans if a >= rows[0].first and b <= rows[0].last]
            if not any(_same(rows[0].get("value"), v) for v in inside):
                row = rows[0]  # a value of several numbers: "sixteen minutes forty"
        if row is not None:
            role = (row.options("role") or [MEASURED])[0]
            quantity = (row.options("quantity") or [NONE])[0]
            meaning = role if role in {MEASURED, "retracted"} else "not now"
        elif any(m.first <= last and first <= m.last for m in labelled.movements):
            quantity = meaning = "movement"
        out.append(Case(labelled.name, seen, quantity, meaning, "unit:bare" in seen))
    return out


def unseen(labelled: Labelled) -> Any:
    """Return what an encoder that was not trained on a narration says of its numbers: [number, class]."""
    return stored().of(labelled.name, Narration(list(segments_of(labelled.lines, "c1"))))["class"]


def sentences() -> list[Case]:
    """Return the numbers of the table tests, to be learned from beside those of the narrations."""
    some = [Case("told", seen, quantity, meaning, "unit:bare" in seen) for seen, quantity, meaning in told()]
    return some * TIMES


def _same(wanted: float | None, value: float) -> bool:
    return wanted is not None and abs(abs(wanted) - abs(value)) <= 1e-6 * max(1.0, abs(value))


class Trained:
    """A net fitted to some cases."""

    def __init__(self, train: list[Case]) -> None:
        import warnings

        import numpy as np
        from sklearn.exceptions import ConvergenceWarning
        from sklearn.feature_extraction import DictVectorizer
        from sklearn.neural_network import MLPClassifier

        vectorizer = DictVectorizer(dtype=np.float32)
        table = vectorizer.fit_transform([c.seen for c in train])
        kept = np.flatnonzero(np.asarray((table > 0).sum(axis=0)).ravel() >= LEAST)
        classes = [c.quantity + BETWEEN + c.meaning for c in train]
        nets = [
            MLPClassifier((UNITS,), alpha=PENALTY, max_iter=ROUNDS, batch_size=64, random_state=i)
            for i in range(NETS)
        ]
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", ConvergenceWarning)  # so few rounds are meant
            for net in nets:
                net.fit(table[:, kept], classes)
        fitted = nets[0]
        # Nets side by side are one net, and the mean of what they say errs less than each of them.
        hidden = np.concatenate([n.coefs_[0] for n in nets], axis=1)
        hidden_bias = np.concatenate([n.intercepts_[0] for n in nets])
        out = np.concatenate([n.coefs_[1] for n in nets]) / NETS
        out_bias = np.mean([n.intercepts_[1] for n in nets], axis=0)
        scale = np.abs(hidden).max(axis=0) / 127
        self.data: dict[str, Any] = {
            "features": _text(vectorizer.get_feature_names_out()[kept]),
            "classes": _text(fitted.classes_),
            "hidden": np.round(hidden / scale).astype(np.int8),
            "scale": scale.astype(np.float32),
            "hidden_bias": hidden_bias.astype(np.float32),
            "out": out.astype(np.float32),
            "out_bias": out_bias.astype(np.float32),
        }
        self.net = Net(self.data)

    def log_shares(self, some: list[Case]) -> Any:
        """Return what the net says of some cases: [case, class], logarithms of shares."""
        rows = self.net.rows
        return self.net.log_shares(
            [{rows[name]: w for name, w in c.seen.items() if name in rows} for c in some]
        )

    def opinions(self, some: list[Case], by_encoder: Any, weight: float = ENCODER) -> list[Opinion]:
        """Return the opinion on some cases of the net and of the encoder, which says [case, class] of them."""
        joined = mixed(self.net.classes, self.log_shares(some), stored().names["class"], by_encoder, weight)
        return Classes(self.net.classes).opinions(joined)

    def write(self, path: Path) -> None:
        """Write the weights; rows and columns in a fixed order, so that a run repeats itself."""
        import numpy as np

        np.savez_compressed(path, **self.data)


def _text(names: Any) -> Any:
    import numpy as np

    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


@click.command()
@click.option("--folds", default=5, show_default=True)
@click.option("--write", is_flag=True, help="Train on all narrations and write the weights.")
def main(folds: int, write: bool) -> None:
    """Train and judge the second opinion."""
    by_narration = [cases(n) for n in all_of("develop")]
    every = [c for one in by_narration for c in one]
    if write:
        Trained(every + sentences()).write(OUT)
        click.echo(
            f"{len(every)} numbers of {len(by_narration)} narrations -> {OUT.name}, {OUT.stat().st_size // 1000} kB"
        )
        return
    by_encoder = [unseen(n) for n in all_of("develop")]
    _judge(by_narration, by_encoder, folds)


def _judge(by_narration: list[list[Case]], by_encoder: list[Any], folds: int) -> None:
    import numpy as np

    beside = sentences()
    right: dict[tuple[str, str], int] = {}
    of: dict[str, int] = {}
    missed: dict[str, float] = {}
    for k in range(folds):
        test = [c for one in by_narration[k::folds] for c in one]
        model = Trained([c for i, one in enumerate(by_narration) if i % folds != k for c in one] + beside)
        told = np.concatenate(by_encoder[k::folds])
        for who, weight in (("net", 0.0), ("encoder", 1.0), ("both", ENCODER)):
            opinions = model.opinions(test, told, weight)
            for c, opinion in zip(test, opinions, strict=True):
                good = opinion.best == c.quantity
                now = (sum(opinion.now.values()) >= 0.5) == (c.meaning == MEASURED)
                missed[who] = missed.get(who, 0.0) - math.log(
                    max(opinion.quantities.get(c.quantity, 0), 1e-6)
                )
                for key, counts, fine in (
                    ("quantity", True, good),
                    ("quantity of a value", c.quantity != NONE, good),
                    ("bare", c.quantity != NONE and c.bare, good),
                    ("measured or not", True, now),
                ):
                    of[key] = of.get(key, 0) + (counts and who == "net")
                    right[who, key] = right.get((who, key), 0) + (counts and fine)
    for key, n in of.items():
        shown = "   ".join(f"{who} {100 * right[who, key] / n:5.2f} %" for who in missed)
        click.echo(f"{key:24} {shown}   of {n}")
    shown = "   ".join(f"{who} {loss / of['quantity']:7.4f}" for who, loss in missed.items())
    click.echo(f"{'log loss of the quantity':24} {shown}")


if __name__ == "__main__":
    main()
