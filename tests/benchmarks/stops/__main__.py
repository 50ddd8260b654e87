"""Train the unsaid full stops on the labelled narrations, and say how good they are on ones they have not seen.

    python -m tests.benchmarks.stops            figures on every fifth narration
    python -m tests.benchmarks.stops --write    train on all and write the weights

Needs scikit-learn (`pip install .[bench]`). The marks of narrations in `develop/` are the truth; text without marks is
left out. One logistic regression for a full stop, one for any mark; L1, so that few weights are left.
"""

from __future__ import annotations

import warnings
from pathlib import Path
from typing import Any

import click

import dictate.mentions.unsaid_stops
from dictate.mentions.unsaid_stops.gaps import bare, features
from dictate.mentions.unsaid_stops.weights import Weights
from tests.narrations.labels import all_of

OUT = Path(dictate.mentions.unsaid_stops.__file__).with_name("weights.npz")
LEAST = 4
"""Gaps that must have a feature for it to be learned."""
INVERSE_PENALTY = 1.0
DENSE = 12
"""Words for one mark: text with fewer marks has lost some."""
Text = tuple[list[str], list[str]]
"""The words of a narration, and the mark behind each."""


def texts() -> list[Text]:
    """Return the narrations that have their marks."""
    out = []
    for labelled in all_of("develop"):
        written = labelled.text.split()
        marks = [_mark(w) for w in written]
        if len(written) <= DENSE * sum(m != "" for m in marks):
            out.append(([bare(w) for w in written], marks))
    return out


def _mark(word: str) -> str:
    last = word.rstrip("\"')")[-1:]
    return "." if last and last in ".?!" else "," if last and last in ",;:" else ""


def train(some: list[Text]) -> dict[str, Any]:
    """Return the weights fitted to some texts, as the package keeps them."""
    import numpy as np
    from sklearn.exceptions import ConvergenceWarning
    from sklearn.feature_extraction.text import CountVectorizer
    from sklearn.linear_model import LogisticRegression

    seen = [list(features(words, i)) for words, _ in some for i in range(len(words) - 1)]
    marks = np.array([mark for _, all_marks in some for mark in all_marks[:-1]])
    vectorizer = CountVectorizer(analyzer=lambda x: x, min_df=LEAST, dtype=np.float32)
    table = vectorizer.fit_transform(seen)
    names = vectorizer.get_feature_names_out()
    columns, bias = [], []
    for target in (marks == ".", marks != ""):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", ConvergenceWarning)
            model = LogisticRegression(C=INVERSE_PENALTY, l1_ratio=1, solver="liblinear", random_state=0)
            model.fit(table, target)
        columns.append(model.coef_[0])
        bias.append(float(model.intercept_[0]))
    weights = np.stack(columns, axis=1)
    used = np.flatnonzero(abs(weights).max(axis=1) > 1e-3)
    return {
        "features": np.frombuffer("\n".join(names[used]).encode("utf-8"), dtype=np.uint8),
        "weights": weights[used].astype(np.float32),
        "bias": np.array(bias, np.float32),
    }


@click.command()
@click.option("--write", is_flag=True, help="Train on all narrations and write the weights.")
def main(write: bool) -> None:
    """Train and judge the unsaid full stops."""
    import numpy as np

    every = texts()
    if write:
        data = train(every)
        np.savez_compressed(OUT, **data)
        click.echo(
            f"{len(data['weights'])} weights of {len(every)} narrations -> {OUT.stat().st_size // 1000} kB"
        )
        return
    weights = Weights(train([t for i, t in enumerate(every) if i % 5]))
    for name, wanted in (("full stop", "."), ("any mark", ".,")):
        said = meant = both = 0
        for words, marks in every[::5]:
            found = {i for i, mark in weights.marks(words) if mark in wanted}
            true = {i for i, mark in enumerate(marks[:-1]) if mark and mark in wanted}
            said, meant, both = said + len(found), meant + len(true), both + len(found & true)
        click.echo(
            f"{name:10} right {100 * both / said:5.1f} % of {said}, found {100 * both / meant:5.1f} % of {meant}"
        )


if __name__ == "__main__":
    main()
