"""Fit the weights of the evidence that a value is wrong, and say how many wrong values are asked about.

    python -m tests.benchmarks.trust            figures on narrations that no weight was fitted on
    python -m tests.benchmarks.trust --write    fit on all and write the weights into trust.toml

Needs scikit-learn (`pip install .[bench]`). Narrations of `develop/` only; each is read with a second opinion
that was trained on the others, for on what it was trained on it is surer than it may be. Each measured value
that was taken is one case: its evidence, and whether a label says the same. Logistic regression, L2. The
readers were built on these narrations, so the values here are right more often than those of new ones.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

import click

import dictate.vocabulary
from dictate.mentions import doubts, find, second_opinion
from dictate.mentions.doubts import trust
from dictate.mentions.doubts.talk import Case
from dictate.mentions.narration import Narration, segments_of
from dictate.record.visit import Reading
from tests.benchmarks.encoder.stored import stored
from tests.benchmarks.second_opinion.__main__ import Trained, cases, sentences
from tests.benchmarks.text.found import Found
from tests.benchmarks.text.score import assign, overlap, right_value
from tests.narrations.labels import Labelled, all_of

OUT = Path(dictate.vocabulary.__file__).with_name("trust.toml")
FOLDS = 4
STRENGTH = 1.0
"""The inverse of the L2 penalty."""
SMALLEST = 0.02
"""A weight below this is left out of the file."""


@dataclass
class Taken:
    """One measured value: its evidence, whether it is wrong, whether it was asked about anyhow."""

    narration: int
    seen: dict[str, float]
    wrong: bool
    certain: bool


def taken() -> list[Taken]:
    """Return the measured values of all narrations that a label says something of."""
    labelled = all_of("develop")
    numbers = [cases(x) for x in labelled]
    beside = sentences()
    out: list[Taken] = []
    for fold in range(FOLDS):
        net = Trained([c for i, one in enumerate(numbers) if i % FOLDS != fold for c in one] + beside).net
        with patch.object(second_opinion, "trained", lambda net=net: net):
            for i in range(fold, len(labelled), FOLDS):
                narration = Narration(list(segments_of(labelled[i].lines, "c1")))
                told = (stored().names, stored().of(labelled[i].name, narration))
                with patch.object(second_opinion, "by_encoder", lambda narration, told=told: told):
                    out += _read(i, labelled[i])
    return out


def _read(which: int, labelled: Labelled) -> list[Taken]:
    segments = list(segments_of(labelled.lines, "c1"))
    seen: dict[int, dict[str, float]] = {}

    def evidence(case: Case, found: Any) -> dict[str, float]:
        seen[id(case.reading)] = trust.evidence(case, found)
        return seen[id(case.reading)]

    with patch.object(doubts, "evidence", evidence):
        readings = find(segments).readings
    offsets = [0]
    for segment in segments:
        offsets.append(offsets[-1] + len(segment.words))
    found = [_found(r, offsets) for r in readings]
    label_of = {j: labelled.readings[i] for i, j in assign(found, labelled.readings).items()}
    out = []
    for j, (r, f) in enumerate(zip(readings, found, strict=True)):
        if r.role != "measured":
            continue
        row = label_of.get(j)
        if row is None:
            here = (f.first, f.last)
            if any(overlap(here, (m.first, m.last)) for m in labelled.movements) or any(
                overlap(here, (x.first, x.last)) and right_value(f, x) for x in labelled.readings
            ):
                continue
            wrong = True
        elif row.get("doubt"):
            continue
        else:
            wrong = "measured" not in (row.options("role") or ["measured"]) or not right_value(f, row)
        out.append(Taken(which, seen.get(id(r), {}), wrong, id(r) not in seen))
    return out


def _found(r: Reading, offsets: list[int]) -> Found:
    assert r.at.segment is not None and r.at.first_word is not None and r.at.last_word is not None
    base = offsets[r.at.segment]
    return Found(
        base + r.at.first_word, base + r.at.last_word, r.value, r.unit, r.state, r.quantity, r.relation,
        r.role, None, r.component, r.point,
    )  # fmt: skip


def fit(known: list[Taken]) -> dict[str, float]:
    """Return the weight of each piece of evidence, and of "base"."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    vectorizer = DictVectorizer()
    asked = [t for t in known if not t.certain]
    model: Any = LogisticRegression(C=STRENGTH, max_iter=3000)
    model.fit(vectorizer.fit_transform([t.seen for t in asked]), [t.wrong for t in asked])
    weights = dict(zip(vectorizer.get_feature_names_out(), model.coef_[0].tolist(), strict=True))
    return {**weights, "base": float(model.intercept_[0])}


def _write(weights: dict[str, float]) -> int:
    front = OUT.read_text(encoding="utf-8").split("[weights]\n")[0]
    kept = {n: round(w, 3) for n, w in sorted(weights.items()) if abs(w) >= SMALLEST or n == "base"}
    OUT.write_text(front + "[weights]\n" + "".join(f'"{n}" = {w}\n' for n, w in kept.items()), "utf-8")
    return len(kept)


@click.command()
@click.option("--write", is_flag=True, help="Fit on all narrations and write the weights.")
def main(write: bool) -> None:
    """Fit the weights and judge them."""
    every = taken()
    if write:
        click.echo(f"{len(every)} values -> {_write(fit(every))} weights in {OUT.name}")
        return
    shares: list[tuple[float, bool]] = []
    for fold in range(FOLDS):
        weights = fit([t for t in every if t.narration % FOLDS != fold])
        with patch.object(trust, "_weights", lambda weights=weights: weights):
            for t in (t for t in every if t.narration % FOLDS == fold):
                shares.append((1.0 if t.certain else trust.share_of_doubt(t.seen), t.wrong))
    wrong, right = sum(w for _, w in shares), sum(not w for _, w in shares)
    for limit in (0.05, 0.07, 0.1, 0.13, 0.16, 0.2, 0.25, 0.3):
        caught = sum(w for share, w in shares if share >= limit)
        needless = sum(not w for share, w in shares if share >= limit)
        click.echo(
            f"asked from {limit:4.2f} on: {caught} of {wrong} wrong values, "
            f"{needless} of {right} right ones ({100 * needless / right:.1f} %)"
        )


if __name__ == "__main__":
    main()
