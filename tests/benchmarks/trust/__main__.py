"""Fit the weights of the evidence that a value is wrong, and say how many wrong values are asked about.

    python -m tests.benchmarks.trust                  figures on narrations that no weight was fitted on
    python -m tests.benchmarks.trust --write          fit on all and write the weights into trust.toml
    python -m tests.benchmarks.trust --keep ka,kb     keep what is taken of sets that were just opened

Needs scikit-learn (`pip install .[bench]`). Each measured value that was taken is one case: its evidence, and
whether a label says the same. The values are those of `kept.py`, taken before anybody had developed on the
narrations: in narrations that the readers were built on, values are right more often than in new ones. Logistic
regression, L2. `--keep` belongs between the opening of a set and the first work on it, while the readers do not
know it; nor do the judges, or an encoder that was not trained on it is asked.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from unittest.mock import patch

import click

import dictate.vocabulary
from dictate.mentions import doubts, find, second_opinion
from dictate.mentions.doubts import trust, trust_evidence
from dictate.mentions.doubts.talk import Case
from dictate.mentions.doubts.trust_terms import terms
from dictate.mentions.narration import Narration, segments_of
from dictate.record.visit import Reading
from tests.benchmarks.encoder.stored import stored
from tests.benchmarks.text.found import Found
from tests.benchmarks.text.score import assign, overlap, right_value
from tests.benchmarks.trust.kept import FILE, Taken, keep, kept
from tests.narrations.labels import Labelled, all_of

OUT = Path(dictate.vocabulary.__file__).with_name("trust.toml")
PARTS = 6
"""For the figures on the kept values."""
STRENGTH = 0.15
"""The inverse of the L2 penalty."""
SMALLEST = 0.02
"""A weight below this is left out of the file."""
SHARES = (0.03, 0.04, 0.05, 0.06, 0.065, 0.07, 0.08, 0.1, 0.12, 0.15, 0.2)


@contextmanager
def _by_encoder_of_others(labelled: Labelled) -> Iterator[None]:
    """Let an encoder judge a narration that was not trained on it, where what such a one says is kept."""
    narration = Narration(list(segments_of(labelled.lines, "c1")))
    if not stored().knows(labelled.name, narration):
        yield
        return
    told = stored().of(labelled.name, narration)

    def words(narration: Narration, places: Sequence[tuple[int, int]]) -> Any:
        return stored().names, stored().words_of(labelled.name, narration, places)

    with (
        patch.object(second_opinion, "by_encoder", lambda narration: (stored().names, told)),
        patch.object(second_opinion, "words_by_encoder", words),
    ):
        yield


def taken(labelled: Labelled) -> list[Taken]:
    """Return the measured values that are taken of a narration and that a label says something of."""
    segments = list(segments_of(labelled.lines, "c1"))
    seen: dict[int, dict[str, float]] = {}

    def evidence(case: Case, *found: Any) -> dict[str, float]:
        seen[id(case.reading)] = trust_evidence.evidence(case, *found)
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
        out.append(Taken(labelled.name, seen.get(id(r), {}), wrong, id(r) not in seen))
    return out


def _found(r: Reading, offsets: list[int]) -> Found:
    assert r.at.segment is not None and r.at.first_word is not None and r.at.last_word is not None
    base = offsets[r.at.segment]
    return Found(
        base + r.at.first_word, base + r.at.last_word, r.value, r.unit, r.state, r.quantity, r.relation,
        r.role, None, r.component, r.point,
    )  # fmt: skip


def fit(values: Sequence[Taken]) -> dict[str, float]:
    """Return the weight of each term, and of "base"."""
    from sklearn.feature_extraction import DictVectorizer
    from sklearn.linear_model import LogisticRegression

    known = [t for t in values if not t.certain]
    vectorizer = DictVectorizer()
    model: Any = LogisticRegression(C=STRENGTH, max_iter=3000)
    model.fit(vectorizer.fit_transform([terms(t.seen) for t in known]), [t.wrong for t in known])
    weights = dict(zip(vectorizer.get_feature_names_out(), model.coef_[0].tolist(), strict=True))
    return {**weights, "base": float(model.intercept_[0])}


def judged(values: Sequence[Taken]) -> list[float]:
    """Return how likely each value is wrong, by weights that were fitted without its narration."""
    part = {name: i % PARTS for i, name in enumerate(sorted({t.narration for t in values}))}
    out = [1.0] * len(values)
    for p in range(PARTS):
        weights = fit([t for t in values if part[t.narration] != p])
        with patch.object(trust, "_weights", lambda weights=weights: weights):
            for i, t in enumerate(values):
                if part[t.narration] == p and not t.certain:
                    out[i] = trust.share_of_doubt(t.seen)
    return out


def _curve(values: Sequence[Taken], shares: Sequence[float], say: Callable[[str], None]) -> None:
    wrong = sum(t.wrong for t in values)
    right = len(values) - wrong
    for limit in SHARES:
        silent = sum(t.wrong and share < limit for t, share in zip(values, shares, strict=True))
        needless = sum(not t.wrong and share >= limit for t, share in zip(values, shares, strict=True))
        say(
            f"  asked from {limit:5.3f} on: {silent:3d} of {wrong} wrong values without a reason, "
            f"{needless:4d} of {right} right ones with one ({100 * needless / right:.1f} %)"
        )


def _write(weights: dict[str, float]) -> int:
    front = OUT.read_text(encoding="utf-8").split("[weights]\n")[0]
    rounded = {n: round(w, 3) for n, w in sorted(weights.items()) if abs(w) >= SMALLEST or n == "base"}
    OUT.write_text(front + "[weights]\n" + "".join(f'"{n}" = {w}\n' for n, w in rounded.items()), "utf-8")
    return len(rounded)


@click.command()
@click.option("--write", is_flag=True, help="Fit on all narrations and write the weights.")
@click.option(
    "--keep", "opened", help="Keep the values of sets that were just opened: their names, by commas."
)
def main(write: bool, opened: str | None) -> None:
    """Fit the weights and judge them."""
    batches = kept() if FILE.exists() else []
    if opened:
        sets = set(opened.split(","))
        found = [x for x in all_of("develop") if re.match("[a-z]*", x.name)[0] in sets]  # type: ignore[index]
        new = []
        for x in found:
            with _by_encoder_of_others(x):
                new += taken(x)
        keep([*batches, new])
        click.echo(f"{len(new)} values of {len(found)} narrations kept, {sum(t.wrong for t in new)} wrong")
        return
    values = [t for batch in batches for t in batch]
    if write:
        click.echo(f"{len(values)} values -> {_write(fit(values))} weights in {OUT.name}")
        return
    shares = judged(values)
    click.echo(f"all {len(values)} kept values:")
    _curve(values, shares, click.echo)
    click.echo("the newest of them:")
    _curve(batches[-1], shares[-len(batches[-1]) :], click.echo)


if __name__ == "__main__":
    main()
