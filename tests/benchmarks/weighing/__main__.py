"""Fit the weights of the evidence for what bare numbers are values of, and say how well they decide.

    python -m tests.benchmarks.weighing            figures on narrations that no weight was fitted on
    python -m tests.benchmarks.weighing --write    fit on all and write the weights into weighing.toml

Needs scikit-learn (`pip install .[bench]`). Narrations of `develop/` only. The second opinion is one of the
pieces of evidence, and on what it was trained on it is surer than it may be: so it is trained once for each
fold, on the other folds, and every narration is read with an opinion that has not seen it. Each bare number
that the rules took, and that the opinion did not bear out, is one case: its candidate quantities with their
evidence, and the quantity of its label. A conditional logit over the candidates, with an L2 penalty.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import patch

import click

import dictate.vocabulary
from dictate.mentions import weighing
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.readings import find_readings
from dictate.mentions.second_opinion import Opinion, features
from tests.benchmarks.second_opinion.__main__ import Trained, cases, sentences, unseen
from tests.narrations.labels import all_of

OUT = Path(dictate.vocabulary.__file__).with_name("weighing.toml")
FOLDS = 4
LEAST = 4
"""Evidence that was seen less often weighs nothing."""
PENALTY = 5.0
SMALLEST = 0.05
"""A weight below this is left out of the file."""


@dataclass
class Doubt:
    """One bare number: the evidence of each candidate, what the rules took it for, and what it is."""

    narration: int
    evidence: dict[str, dict[str, float]]
    rule: str
    true: str


def doubts() -> list[Doubt]:
    """Return the bare numbers of all narrations that the second opinion did not bear out."""
    labelled = all_of("develop")
    numbers = [cases(x) for x in labelled]
    beside = sentences()
    out: list[Doubt] = []
    for fold in range(FOLDS):
        model = Trained([c for i, one in enumerate(numbers) if i % FOLDS != fold for c in one] + beside)
        for i in range(fold, len(labelled), FOLDS):
            if not numbers[i]:
                continue
            opinions = model.opinions(numbers[i], unseen(labelled[i]), 0.0)
            out += _read(i, labelled[i].lines, opinions, [c.quantity for c in numbers[i]])
    return out


def _read(which: int, lines: list[str], opinions: list[Opinion], true: list[str]) -> list[Doubt]:
    narration = Narration(list(segments_of(lines, "c1")))
    starts = [number.start for number, _ in features(narration)]
    narration.found["opinion of the net"] = dict(zip(starts, opinions, strict=True))
    told = dict(zip(starts, true, strict=True))
    out: list[Doubt] = []

    def weighed(self: Any, v: Any, link: Any, group: Any) -> None:
        opinion = self._row_opinion(v, group)
        if opinion is not None and opinion.get(link.quantity, 0.0) < weighing.AGREED:
            evidence = self._evidence(v, link, opinion)
            out.append(Doubt(which, evidence, link.quantity, told[v.numbers[0].start]))

    with patch.object(weighing.Weighing, "_weighed", weighed):
        find_readings(narration)
    return out


def fit(known: list[Doubt]) -> dict[str, float]:
    """Return the weight of each piece of evidence."""
    import numpy as np
    from scipy.optimize import minimize
    from scipy.sparse import csr_matrix

    seen: dict[str, int] = {}
    for d in known:
        for evidence in d.evidence.values():
            for name in evidence:
                seen[name] = seen.get(name, 0) + 1
    names = sorted(n for n, times in seen.items() if times >= LEAST)
    place = {n: i for i, n in enumerate(names)}
    rows: list[int] = []
    columns: list[int] = []
    amounts: list[float] = []
    begins: list[int] = []
    right: list[int] = []
    row = 0
    for d in known:
        if d.true not in d.evidence:
            continue
        begins.append(row)
        for quantity, evidence in d.evidence.items():
            if quantity == d.true:
                right.append(row)
            for name, much in evidence.items():
                if name in place:
                    rows.append(row)
                    columns.append(place[name])
                    amounts.append(much)
            row += 1
    table = csr_matrix((amounts, (rows, columns)), shape=(row, len(names)))
    case = np.repeat(np.arange(len(begins)), np.diff([*begins, row]))
    penalty = np.full(len(names), PENALTY)
    for name in ("opinion", "rule"):
        penalty[place[name]] = 0.01

    def loss(weights: Any) -> tuple[float, Any]:
        scores = table @ weights
        highest = np.maximum.reduceat(scores, begins)
        grown = np.exp(scores - highest[case])
        whole = np.add.reduceat(grown, begins)
        missed = -(scores[right] - highest - np.log(whole)).sum() + 0.5 * (penalty * weights**2).sum()
        slope = table.T @ (grown / whole[case]) - np.asarray(table[right].sum(axis=0)).ravel()
        return float(missed), slope + penalty * weights

    found = minimize(loss, np.zeros(len(names)), jac=True, method="L-BFGS-B", options={"maxiter": 400}).x
    return dict(zip(names, found.tolist(), strict=True))


def shares(weights: dict[str, float], d: Doubt) -> dict[str, float]:
    """Return the share of each candidate, 0 to 1."""
    scores = {
        q: sum(weights.get(n, 0.0) * much for n, much in evidence.items())
        for q, evidence in d.evidence.items()
    }
    highest = max(scores.values())
    grown = {q: math.exp(s - highest) for q, s in scores.items()}
    return {q: g / sum(grown.values()) for q, g in grown.items()}


def _write(weights: dict[str, float]) -> int:
    front = OUT.read_text(encoding="utf-8").split("[weights]\n")[0]
    kept = {n: round(w, 2) for n, w in sorted(weights.items()) if abs(w) >= SMALLEST}
    OUT.write_text(front + "[weights]\n" + "".join(f'"{n}" = {w}\n' for n, w in kept.items()), "utf-8")
    return len(kept)


@click.command()
@click.option("--write", is_flag=True, help="Fit on all narrations and write the weights.")
def main(write: bool) -> None:
    """Fit the weights and judge them."""
    every = doubts()
    if write:
        click.echo(f"{len(every)} numbers in doubt -> {_write(fit(every))} weights in {OUT.name}")
        return
    rule = weighed = switched = better = worse = values = 0
    for fold in range(FOLDS):
        weights = fit([d for d in every if d.narration % FOLDS != fold])
        for d in (d for d in every if d.narration % FOLDS == fold and d.true not in {"none", "movement"}):
            share = shares(weights, d)
            best = max(share, key=share.__getitem__)
            values += 1
            rule += d.rule == d.true
            weighed += best == d.true
            if best != d.rule and best in weighing.BY_WORDS and share[best] >= weighing.TAKEN:
                switched += 1
                better += best == d.true
                worse += d.rule == d.true
    click.echo(f"values in doubt {values}: the rules right {rule}, all evidence right {weighed}")
    click.echo(f"another quantity taken {switched} times: mended {better}, spoiled {worse}")


if __name__ == "__main__":
    main()
