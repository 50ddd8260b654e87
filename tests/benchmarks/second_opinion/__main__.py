"""Train the second opinion on the labelled narrations, and say how good it is on narrations it has not seen.

    python -m tests.benchmarks.second_opinion            cross-validated figures
    python -m tests.benchmarks.second_opinion --write    train on all and write the weights

Needs scikit-learn (`pip install .[bench]`). Narrations of `develop/` only; a fold holds whole narrations. Each
number of a text is one case: its quantity ("none" when no label holds it, "movement" for an amount of
refrigerant) and how it is meant (measured, retracted, "not now" for targets, ratings and former visits, "none").
Multinomial logistic regression, L2, two models that share their features.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

import dictate.mentions
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import MEASURED, NONE, features
from tests.narrations.labels import Labelled, all_of

OUT = Path(dictate.mentions.__file__).with_name("second_opinion.npz")
LEAST = 3
"""A feature that fewer numbers have is left out."""
STRENGTH = 2.0
"""The inverse of the L2 penalty; between 0.5 and 5 the cross-validated figures hardly differ."""


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
        if row is None and rows and rows[0].get("state") != "open":
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


def _same(wanted: float | None, value: float) -> bool:
    return wanted is not None and abs(abs(wanted) - abs(value)) <= 1e-6 * max(1.0, abs(value))


class Trained:
    """Two fitted models over one set of features."""

    def __init__(self, train: list[Case]) -> None:
        import numpy as np
        from sklearn.feature_extraction import DictVectorizer
        from sklearn.linear_model import LogisticRegression

        self.vectorizer = DictVectorizer(dtype=np.float32)
        table = self.vectorizer.fit_transform([c.seen for c in train])
        self.kept = np.flatnonzero(np.asarray((table > 0).sum(axis=0)).ravel() >= LEAST)
        table = table[:, self.kept]
        self.quantity: Any = LogisticRegression(C=STRENGTH, max_iter=150)
        self.quantity.fit(table, [c.quantity for c in train])
        self.meaning: Any = LogisticRegression(C=STRENGTH, max_iter=150).fit(
            table, [c.meaning for c in train]
        )

    def table(self, some: list[Case]) -> Any:
        """Return the features of some cases as a matrix."""
        return self.vectorizer.transform([c.seen for c in some])[:, self.kept]

    def write(self, path: Path) -> None:
        """Write the weights as signed bytes; rows and columns in a fixed order, so that a run repeats itself."""
        import numpy as np

        names = self.vectorizer.get_feature_names_out()[self.kept]
        weights = np.concatenate([self.quantity.coef_, self.meaning.coef_]).T
        scale = float(np.abs(weights).max()) / 127
        np.savez_compressed(
            path,
            features=_text(names),
            quantities=_text(self.quantity.classes_),
            meanings=_text(self.meaning.classes_),
            weights=np.round(weights / scale).astype(np.int8),
            scale=np.float32(scale),
            bias=np.concatenate([self.quantity.intercept_, self.meaning.intercept_]).astype(np.float32),
        )


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
        Trained(every).write(OUT)
        click.echo(
            f"{len(every)} numbers of {len(by_narration)} narrations -> {OUT.name}, {OUT.stat().st_size // 1000} kB"
        )
        return
    right = {"quantity": 0, "quantity of a value": 0, "bare": 0, "meaning": 0}
    of = dict.fromkeys(right, 0)
    for k in range(folds):
        test = [c for one in by_narration[k::folds] for c in one]
        model = Trained([c for i, one in enumerate(by_narration) if i % folds != k for c in one])
        table = model.table(test)
        for c, q, m in zip(test, model.quantity.predict(table), model.meaning.predict(table), strict=True):
            for key, counts, good in (
                ("quantity", True, q == c.quantity),
                ("quantity of a value", c.quantity != NONE, q == c.quantity),
                ("bare", c.quantity != NONE and c.bare, q == c.quantity),
                ("meaning", True, m == c.meaning),
            ):
                of[key] += counts
                right[key] += counts and good
    for key, n in right.items():
        click.echo(f"{key:24} {100 * n / of[key]:5.1f} %   {n} of {of[key]}")


if __name__ == "__main__":
    main()
