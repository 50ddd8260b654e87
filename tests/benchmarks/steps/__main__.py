"""Train the second opinion on steps on the labelled narrations, and say how good it is on ones it has not seen.

    python -m tests.benchmarks.steps            cross-validated figures
    python -m tests.benchmarks.steps --write    train on all and write the weights

Needs scikit-learn (`pip install .[bench]`). Narrations of `develop/` only; a fold holds whole narrations. The labels
say which steps a visit has and not where they were said: a step is learned from the stretches in which the phrases
found it, and one that the phrases missed from the stretch that a first training thinks likeliest. A penalty on the
size of the weights (L1) leaves most of them out.
"""

from __future__ import annotations

import warnings
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest.mock import patch

import click

import dictate.mentions.steps
import dictate.mentions.steps.second_opinion
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.steps.second_opinion import SURE_OF_OTHERS, UNLIKE
from dictate.mentions.steps.second_opinion.stretches import features, stretches_of, tokens_of
from dictate.mentions.steps.second_opinion.weights import BETWEEN, Weights
from tests.benchmarks.steps.told import told
from tests.narrations.labels import Labelled, all_of

OUT = Path(dictate.mentions.steps.second_opinion.__file__).with_name("weights.npz")
LEAST_FEATURE, LEAST_CLASS = 3, 12
"""Stretches that must hold a feature, and that must tell a step with its status, for it to be learned."""
INVERSE_PENALTY = 3.0
PLACED = 0.1
"""A missed step is placed in a stretch that is at least so likely to tell it."""


class _Everything:
    def __contains__(self, name: object) -> bool:
        return True


@dataclass
class Visit:
    """One labelled narration: what its stretches hold, and which steps were found in which of them."""

    name: str
    seen: list[dict[str, float]]
    labelled: set[str]
    found: list[set[str]]
    tokens: list[tuple[int, int]]
    """The tokens [start, end) of each stretch."""
    told: set[str] = field(default_factory=set)

    @property
    def missed(self) -> set[str]:
        """Labelled steps that the phrases did not find."""
        return self.labelled - self.told


def visit(labelled: Labelled) -> Visit:
    """Read a narration without the second opinion."""
    return _read(labelled.name, labelled.lines, {(r.get("step"), r.get("status")) for r in labelled.steps})


def sentence(text: str, steps: set[tuple[str, str]]) -> Visit:
    """Read a sentence with its steps, as a visit of its own."""
    return _read("told", [text], steps)


def sentences() -> list[Visit]:
    """Return the sentences of the table tests, each a visit of its own."""
    return [sentence(text, steps) for text, steps in told()]


def _read(name: str, lines: list[str], labelled: set[tuple[str, str]]) -> Visit:
    segments = list(segments_of(lines, "c1"))
    narration = Narration(segments)
    words = words_of(narration)
    rows = stretches_of(words)
    with patch.object(dictate.mentions.steps, "with_second_opinion", lambda _w, _s, found: found):
        mentions = dictate.mentions.find(segments)
    first = {}
    for token in narration.tokens:
        first.setdefault((token.segment, token.word), token.index)
    wanted = {BETWEEN.join(step) for step in labelled}
    one = Visit(name, [], wanted, [set() for _ in rows], tokens_of(words, rows))
    for k in range(len(rows)):
        one.seen.append({name: weight for name, weight, _ in features(rows, k, _Everything())})
    for step in mentions.steps:
        step_name = BETWEEN.join((step.step, step.status))
        one.told.add(step_name)
        if step.at.segment is None or step_name not in wanted:
            continue
        a = words.word_of_token(first[(step.at.segment, step.at.first_word or 0)])
        b = words.word_of_token(first[(step.at.segment, step.at.last_word or 0)])
        for row, names in zip(rows, one.found, strict=True):
            if row.start <= b and a < row.end:
                names.add(step_name)
    return one


class Table:
    """The stretches of some visits as a table of their features, and the steps that are learned."""

    def __init__(self, visits: list[Visit]) -> None:
        import numpy as np
        from sklearn.feature_extraction import DictVectorizer

        self.visits = visits
        vectorizer = DictVectorizer(dtype=np.float32)
        table = vectorizer.fit_transform([seen for v in visits for seen in v.seen])
        kept = np.flatnonzero(np.asarray((table > 0).sum(axis=0)).ravel() >= LEAST_FEATURE)
        self.table = table[:, kept]
        self.names = vectorizer.get_feature_names_out()[kept]
        self._told = [names for v in visits for names in v.found]
        self._missed = [v.missed for v in visits for _ in v.seen]
        self.begins = np.cumsum([0] + [len(v.seen) for v in visits]).tolist()
        count: dict[str, int] = {}
        for one in self._told:
            for name in one:
                count[name] = count.get(name, 0) + 1
        self.classes = sorted(name for name, n in count.items() if n >= LEAST_CLASS)

    def fit(self, rows: Any, target: Any) -> Any:
        """Return a model of whether a step is told, fitted to some rows."""
        from sklearn.exceptions import ConvergenceWarning
        from sklearn.linear_model import LogisticRegression

        with warnings.catch_warnings():
            warnings.simplefilter("ignore", ConvergenceWarning)
            model = LogisticRegression(C=INVERSE_PENALTY, l1_ratio=1, solver="liblinear", random_state=0)
            return model.fit(self.table[rows], target[rows])

    def target(self, name: str) -> Any:
        """Return in which stretches a step is told: where phrases found it, and where a missed one likeliest was."""
        import numpy as np

        target = np.array([name in one for one in self._told])
        unsure = np.array([name in one for one in self._missed])
        if unsure.any():
            chance = self.fit(np.flatnonzero(~unsure), target).predict_proba(self.table)[:, 1]
            for a, b, v in zip(self.begins, self.begins[1:], self.visits, strict=False):
                if name in v.missed and chance[a:b].max() > PLACED:
                    target[a + int(chance[a:b].argmax())] = True
        return target


def placed(visits: list[Visit]) -> list[list[set[str]]]:
    """Return the steps that each stretch of each visit tells, missed ones where they likeliest were told."""
    table = Table(visits)
    out: list[list[set[str]]] = [[set() for _ in v.seen] for v in visits]
    for name in table.classes:
        target = table.target(name)
        for a, b, stretches in zip(table.begins, table.begins[1:], out, strict=False):
            for here, stretch in zip(target[a:b], stretches, strict=True):
                if here:
                    stretch.add(name)
    return out


def train(visits: list[Visit]) -> dict[str, Any]:
    """Return the weights fitted to some visits, as the package keeps them."""
    import numpy as np

    table = Table(visits)
    rows_out, columns_out, weights_out, bias = [], [], [], []
    for column, name in enumerate(table.classes):
        target = table.target(name)
        model = table.fit(np.arange(len(target)), target)
        (own,) = np.flatnonzero(abs(model.coef_[0]) > 1e-3)[None]
        rows_out += own.tolist()
        columns_out += [column] * len(own)
        weights_out += model.coef_[0][own].tolist()
        bias.append(float(model.intercept_[0]))
    used, rows_out = np.unique(rows_out, return_inverse=True)
    return {
        "features": _text(table.names[used]),
        "classes": _text(table.classes),
        "rows": rows_out.astype(np.int32),
        "columns": np.array(columns_out, np.int16),
        "weights": np.array(weights_out, np.float32),
        "bias": np.array(bias, np.float32),
    }


def _text(names: Any) -> Any:
    import numpy as np

    return np.frombuffer("\n".join(names).encode("utf-8"), dtype=np.uint8)


def report(visits: list[Visit], data: dict[str, Any]) -> dict[str, int]:
    """Count what the weights alone make of visits they were not trained on; the grammar of tense has no say."""
    weights = Weights(data)
    names = [BETWEEN.join(c) for c in weights.classes]
    out = dict.fromkeys(("missed", "missed, taken", "no step, taken", "told", "told, doubted"), 0)
    for v in visits:
        chance = [_chances(weights, seen) for seen in v.seen]
        for j, name in enumerate(names):
            best = max(c[j] for c in chance)
            where = [c[j] for c, found in zip(chance, v.found, strict=True) if name in found]
            if name in v.missed:
                out["missed"] += 1
                out["missed, taken"] += best >= SURE_OF_OTHERS
            elif name not in v.told:
                out["no step, taken"] += best >= SURE_OF_OTHERS
            elif name in v.labelled:
                out["told"] += 1
                out["told, doubted"] += max(where, default=1.0) < UNLIKE
    return out


def _chances(weights: Weights, seen: dict[str, float]) -> list[float]:
    from math import exp

    sums = weights.bias.copy()
    for name, weight in seen.items():
        for column, own in weights.of.get(name, ()):
            sums[column] += weight * own
    return [1 / (1 + exp(-max(s, -30.0))) for s in sums]


@click.command()
@click.option("--folds", default=4, show_default=True)
@click.option("--write", is_flag=True, help="Train on all narrations and write the weights.")
def main(folds: int, write: bool) -> None:
    """Train and judge the second opinion on steps."""
    with ProcessPoolExecutor() as pool:
        visits = list(pool.map(visit, all_of("develop"), chunksize=16))
    beside = sentences()
    if write:
        import numpy as np

        data = train(visits + beside)
        np.savez_compressed(OUT, **data)
        click.echo(
            f"{len(data['bias'])} steps with their status, {len(data['weights'])} weights of {len(visits)} narrations "
            f"-> {OUT.name}, {OUT.stat().st_size // 1000} kB"
        )
        return
    whole: dict[str, int] = {}
    for k in range(folds):
        data = train([v for i, v in enumerate(visits) if i % folds != k] + beside)
        for key, n in report(visits[k::folds], data).items():
            whole[key] = whole.get(key, 0) + n
    for key, n in whole.items():
        click.echo(f"{key:20} {n}")


if __name__ == "__main__":
    main()
