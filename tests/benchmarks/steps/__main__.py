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
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest.mock import patch

import click

import dictate.mentions.steps
import dictate.mentions.steps.second_opinion
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.patterns import words_of
from dictate.mentions.steps.second_opinion import SURE, UNLIKE
from dictate.mentions.steps.second_opinion.stretches import features, stretches_of
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
    told: set[str] = field(default_factory=set)

    @property
    def missed(self) -> set[str]:
        """Labelled steps that the phrases did not find."""
        return self.labelled - self.told


def visit(labelled: Labelled) -> Visit:
    """Read a narration without the second opinion."""
    return _read(labelled.name, labelled.lines, {(r.get("step"), r.get("status")) for r in labelled.steps})


def sentences() -> list[Visit]:
    """Return the sentences of the table tests, each a visit of its own."""
    return [_read("told", [text], steps) for text, steps in told()]


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
    one = Visit(name, [], wanted, [set() for _ in rows])
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


def train(visits: list[Visit]) -> dict[str, Any]:
    """Return the weights fitted to some visits, as the package keeps them."""
    import numpy as np
    from sklearn.exceptions import ConvergenceWarning
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    vectorizer = DictVectorizer(dtype=np.float32)
    table = vectorizer.fit_transform([seen for v in visits for seen in v.seen])
    kept = np.flatnonzero(np.asarray((table > 0).sum(axis=0)).ravel() >= LEAST_FEATURE)
    table = table[:, kept]
    names = vectorizer.get_feature_names_out()[kept]
    told = [names for v in visits for names in v.found]
    count: dict[str, int] = {}
    for one in told:
        for name in one:
            count[name] = count.get(name, 0) + 1
    classes = sorted(name for name, n in count.items() if n >= LEAST_CLASS)
    missed = [v.missed for v in visits for _ in v.seen]
    begins = np.cumsum([0] + [len(v.seen) for v in visits])

    def fit(rows: Any, target: Any) -> Any:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", ConvergenceWarning)
            model = LogisticRegression(C=INVERSE_PENALTY, l1_ratio=1, solver="liblinear", random_state=0)
            return model.fit(table[rows], target[rows])

    rows_out, columns_out, weights_out, bias = [], [], [], []
    for column, name in enumerate(classes):
        target = np.array([name in one for one in told])
        unsure = np.array([name in one for one in missed])
        if unsure.any():
            chance = fit(np.flatnonzero(~unsure), target).predict_proba(table)[:, 1]
            for a, b, v in zip(begins, begins[1:], visits, strict=False):
                if name in v.missed and chance[a:b].max() > PLACED:
                    target[a + int(chance[a:b].argmax())] = True
        model = fit(np.arange(len(told)), target)
        (own,) = np.flatnonzero(abs(model.coef_[0]) > 1e-3)[None]
        rows_out += own.tolist()
        columns_out += [column] * len(own)
        weights_out += model.coef_[0][own].tolist()
        bias.append(float(model.intercept_[0]))
    used, rows_out = np.unique(rows_out, return_inverse=True)
    return {
        "features": _text(names[used]),
        "classes": _text(classes),
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
                out["missed, taken"] += best >= SURE
            elif name not in v.told:
                out["no step, taken"] += best >= SURE
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
    visits = [visit(n) for n in all_of("develop")]
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
