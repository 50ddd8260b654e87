"""Fit the confidence of heard values on the fit set, and write dictate/vocabulary/confidence_model.toml.

    python -m tests.benchmarks.sound.fit --sound DIR --heard careful.jsonl.gz [--write]

Logistic regression with a small ridge penalty, by Newton's method. The threshold is chosen on predictions for
narrations that were left out of the fit, five folds: as strict as it can be while four of five right values at 10 dB
carry no reason. How many wrong ones are then accepted is printed.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import click
import numpy as np
from numpy.typing import NDArray

from dictate.record.transcript import Segment
from tests.benchmarks.sound import plan
from tests.benchmarks.sound.hear import read
from tests.benchmarks.sound.score import auroc, score, spans_of

FEATURES = (
    "log_lowest", "log_mean", "log_lowest_number", "agree", "agree_least", "witness", "all_agree", "support",
    "margin", "close", "snr", "score", "text_doubt", "misfit", "impossible", "unit_assumed", "before", "after",
    "beside", "small", "edge",
)  # fmt: skip
FAST = (
    "log_lowest", "log_mean", "log_lowest_number", "snr", "score", "text_doubt", "misfit", "impossible",
    "unit_assumed", "before", "after", "beside", "small", "edge",
)  # fmt: skip
TARGET = Path(__file__).parents[3] / "dictate" / "vocabulary" / "confidence_model.toml"
SIGNS = {
    "log_lowest": 1, "log_mean": 1, "log_lowest_number": 1, "agree": 1, "agree_least": 1, "witness": 1,
    "all_agree": 1, "support": 1, "margin": 1, "close": -1, "snr": 1, "score": 1, "text_doubt": -1, "misfit": -1,
    "impossible": -1, "unit_assumed": -1, "before": 1, "after": 1, "beside": -1, "small": -1, "edge": -1,
}  # fmt: skip
"""The direction in which each feature can only speak: a weight of the other sign is noise and is set to 0."""


@dataclass
class Sample:
    """One value found: its features, whether it was right, and where it came from."""

    features: dict[str, float]
    right: bool
    flagged_by_text: bool
    narration: str
    condition: str
    text: str


def samples(sound: Path, heard: Path, *, strip: bool) -> list[Sample]:
    """Return every value found in the fit jobs' sounds; `strip` leaves one decode's evidence only."""
    jobs = {j.name: j for j in plan.fit_jobs()}
    out = []
    for line in read(heard):
        job, _, rest = str(line["sound"]).partition("--")
        if job not in jobs or line["mode"] != "careful":
            continue
        segments = [Segment.model_validate(s) for s in line["segments"]]
        if strip:
            segments = [s.model_copy(update={"alternatives": [], "doubts": []}) for s in segments]
        narration = jobs[job].narration
        done = score(line["sound"], "careful", narration, spans_of(sound, job), segments)
        for f in done.found:
            if f.outcome == "text" or not f.features:
                continue
            doubted = bool(f.features.get("text_doubt")) or bool(f.features.get("misfit"))
            out.append(
                Sample(
                    f.features, f.outcome == "right", doubted, narration.name, rest.rsplit(".", 1)[0],
                    f"{f.heard} -> {f.value:g} {f.unit}" if f.value is not None else f.heard,
                )
            )  # fmt: skip
    return out


def matrix(rows: Sequence[Sample], names: Sequence[str]) -> NDArray[np.float64]:
    """Return the features, one row a value, with a leading 1."""
    return np.array([[1.0, *(r.features.get(n, 0.0) for n in names)] for r in rows])


def fit(
    x: NDArray[np.float64], y: NDArray[np.float64], signs: Sequence[int], ridge: float = 1.0
) -> NDArray[np.float64]:
    """Return the weights; features whose weight comes out against its sign are left out, worst first."""
    active = list(range(x.shape[1]))
    while True:
        w = np.zeros(len(active))
        xa = x[:, active]
        penalty = np.diag([0.0] + [ridge] * (len(active) - 1))
        for _ in range(40):
            p = 1 / (1 + np.exp(-np.clip(xa @ w, -30, 30)))
            gradient = xa.T @ (p - y) + penalty @ w
            hessian = (xa * (p * (1 - p))[:, None]).T @ xa + penalty + 1e-9 * np.eye(len(active))
            step = np.linalg.solve(hessian, gradient)
            w -= step
            if np.abs(step).max() < 1e-8:
                break
        against = [(w[i] * signs[a - 1], a) for i, a in enumerate(active) if a and w[i] * signs[a - 1] < 0]
        if not against:
            out = np.zeros(x.shape[1])
            out[active] = w
            return out
        active.remove(min(against)[1])


def out_of_fold(rows: Sequence[Sample], names: Sequence[str], folds: int = 5) -> NDArray[np.float64]:
    """Return each value's probability from a fit that saw no value of its narration."""
    order = sorted({r.narration for r in rows})
    fold = {n: k % folds for k, n in enumerate(order)}
    x, y = matrix(rows, names), np.array([float(r.right) for r in rows])
    which = np.array([fold[r.narration] for r in rows])
    signs = [SIGNS[n] for n in names]
    out = np.zeros(len(rows))
    for k in range(folds):
        w = fit(x[which != k], y[which != k], signs)
        out[which == k] = 1 / (1 + np.exp(-np.clip(x[which == k] @ w, -30, 30)))
    return out


def selective(
    rows: Sequence[Sample], p: NDArray[np.float64], threshold: float, conditions: Sequence[str]
) -> tuple[float, float, float]:
    """Return (accepted and wrong, unflagged, right values flagged) as shares of the values found."""
    chosen = [(r, q) for r, q in zip(rows, p, strict=True) if r.condition in conditions]
    if not chosen:
        return 0.0, 1.0, 0.0
    accepted = [r for r, q in chosen if q >= threshold and not r.flagged_by_text]
    right = sum(r.right for r, _ in chosen)
    kept = sum(r.right for r in accepted)
    return (len(accepted) - kept) / len(chosen), len(accepted) / len(chosen), 1 - kept / max(1, right)


def choose(rows: Sequence[Sample], p: NDArray[np.float64], flagged: float) -> float:
    """Return the highest threshold at which at most this share of the right values at 10 dB carries a reason."""
    for threshold in np.arange(0.99, 0.30, -0.005):
        if selective(rows, p, threshold, ["10dB"])[2] <= flagged:
            return float(round(threshold, 3))
    return 0.3


@click.command()
@click.option("--sound", type=click.Path(path_type=Path, exists=True), required=True)
@click.option("--heard", type=click.Path(path_type=Path, exists=True), required=True)
@click.option(
    "--flagged", default=0.2, show_default=True, help="Share of right values at 10 dB that may be flagged."
)
@click.option("--write", is_flag=True, help="Write the coefficients.")
@click.option("--show", default=0, help="Show so many wrong values that would be accepted.")
@click.option("--machine", default="", help="Class of the machine that decoded the sound, for the file.")
def main(sound: Path, heard: Path, flagged: float, write: bool, show: int, machine: str) -> None:
    """Fit both models and print how well they do on what they did not see."""
    text = [line for line in TARGET.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    for name, names, strip in (("careful", FEATURES, False), ("fast", FAST, True)):
        rows = samples(sound, heard, strip=strip)
        p = out_of_fold(rows, names)
        threshold = choose(rows, p, flagged)
        good = [float(q) for r, q in zip(rows, p, strict=True) if r.right]
        bad = [float(q) for r, q in zip(rows, p, strict=True) if not r.right]
        click.echo(
            f"{name}: {len(rows)} values, {len(bad)} wrong, AUROC {auroc(good, bad):.3f}, threshold {threshold}"
        )
        for condition in ("clean", "10dB", "5dB"):
            ok = [float(q) for r, q in zip(rows, p, strict=True) if r.right and r.condition == condition]
            no = [float(q) for r, q in zip(rows, p, strict=True) if not r.right and r.condition == condition]
            risk, free, lost = selective(rows, p, threshold, [condition])
            click.echo(
                f"  {condition:6} wrong {len(no)}/{len(ok) + len(no)}  AUROC {auroc(ok, no):.3f}  accepted wrong "
                f"{100 * risk:.2f} %  unflagged {100 * free:.1f} %  right but flagged {100 * lost:.1f} %"
            )
        w = fit(matrix(rows, names), np.array([float(r.right) for r in rows]), [SIGNS[n] for n in names])
        weights = {n: round(float(v), 4) for n, v in zip(names, w[1:], strict=True) if abs(v) > 1e-6}
        click.echo(f"  bias {w[0]:.3f} " + json.dumps(weights))
        accepted = sorted(
            (
                (q, r)
                for r, q in zip(rows, p, strict=True)
                if not r.right and q >= threshold and not r.flagged_by_text
            ),
            key=lambda pair: -pair[0],
        )
        for q, r in accepted[:show]:
            click.echo(f"    {q:.3f} {r.condition:6} {r.narration}: {r.text}")
        voices = len({j.voice for j in plan.fit_jobs()})
        fitted = (
            f"{datetime.date.today().isoformat()}; {len(rows)} values of {len({r.narration for r in rows})} narrations, "
            f"{voices} voices, clean, 10 and 5 dB; left-out AUROC {auroc(good, bad):.3f}"
            + (f"; decoded on {machine}" if machine else "")
        )
        inner = ", ".join(f"{n} = {v:g}" for n, v in weights.items())
        text += ["", f"[{name}]", f'fitted = "{fitted}"', f"threshold = {threshold:g}", f"bias = {w[0]:.4f}"]
        text += [f"weights = {{ {inner} }}"]
    if write:
        TARGET.write_text("\n".join(text) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
