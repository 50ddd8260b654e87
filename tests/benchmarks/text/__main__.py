"""Score the reading of typed narrations: `python -m tests.benchmarks.text --help`."""

from __future__ import annotations

import json
import traceback
from dataclasses import asdict
from pathlib import Path
from typing import Any

import click

from tests.benchmarks.text.found import Answer, ours
from tests.benchmarks.text.long_visit import LongVisit, long_visit
from tests.benchmarks.text.score import Score, score, total
from tests.narrations.labels import SETS, Labelled, all_of

MAIN = (
    "found", "right value and unit", "quantity", "component", "point", "component and point", "role",
    "relation", "stage", "equipment", "reference", "derived", "unit assumed", "right values without a reason",
    "doubtful right or flagged", "other roles found", "movements right", "movement machine",
    "right movements without a reason", "steps found", "parts", "part numbers", "machine type",
    "machine model", "machine serial", "machine refrigerant", "labour", "checks raised", "checks kept quiet",
)  # fmt: skip
COUNTS = (
    "wrong without a reason", "wrong values", "role traps taken", "invented on a trap", "invented", "doubled",
    "wrong value in another role", "movements invented", "steps wrongly done",
    "steps wrongly planned or not done", "parts not labelled", "machines too many", "crashes",
)  # fmt: skip


def table(title: str, s: Score, narrations: int, visit: LongVisit | None = None) -> str:
    """Lay one score out as text, with the time that one long visit takes where it was measured."""
    lines = [f"{title}: {narrations} narrations, {s.words} words"]
    for key in MAIN:
        if key in s.pairs:
            right, of = s.pairs[key]
            lines.append(f"  {key:34} {100 * right / of:6.1f} %   {right} of {of}")
    lines += [f"  {key:34} {s.counts[key]:6}" for key in COUNTS]
    if s.words:
        lines.append(f"  {'seconds for 1,000 words':34} {1000 * s.seconds / s.words:9.2f}")
    if visit is not None:
        what = f"seconds for a visit of {visit.words:,} words"
        lines.append(f"  {what:41} {visit.first:5.2f} the first time, {visit.second:.2f} again")
    return "\n".join(lines)


def run(narrations: list[Labelled]) -> tuple[dict[str, Score], list[str]]:
    """Read and score every narration with our pipeline."""
    out: dict[str, Score] = {}
    gaps: list[str] = []
    for labelled in narrations:
        try:
            answer = ours(labelled)
        except Exception:
            answer = Answer([])
            one = score(labelled, answer)
            one.counts["crashes"] += 1
            one.lines = [traceback.format_exc()]
            out[labelled.name] = one
            continue
        gaps += [gap for gap in answer.missing_stages if gap not in gaps]
        out[labelled.name] = score(labelled, answer)
    return out, gaps


@click.command()
@click.option("--set", "which", type=click.Choice([*SETS, "all"]), default="all", show_default=True)
@click.option("--show", is_flag=True, help="List every miss and error, held-out narrations included.")
@click.option("--only", default=None, help="Score only the narrations whose name contains this.")
@click.option("--peers", is_flag=True, help="Run the general libraries on the same text as well.")
@click.option("--write", is_flag=True, help="Write RESULTS.md in this folder (needs --peers).")
@click.option(
    "--json", "json_path", type=click.Path(path_type=Path), default=None, help="Write the figures here."
)
def main(which: str, show: bool, only: str | None, peers: bool, write: bool, json_path: Path | None) -> None:
    """Score the labelled narrations; misses are listed for develop, totals alone for held_out."""
    figures: dict[str, dict[str, Any]] = {}
    report: list[str] = []
    warm = False
    for name in SETS if which == "all" else (which,):
        narrations = [n for n in all_of(name) if not only or only in n.name]
        if not narrations:
            continue
        if not warm:
            run(narrations[:1])  # start-up: vocabulary and libraries load here and are not timed
            warm = True
        scores, gaps = run(narrations)
        for gap in gaps:
            click.echo(f"(not there yet: {gap})", err=True)
        if name == "develop" or show:
            for key, one in scores.items():
                if one.lines:
                    click.echo(f"--- {name}/{key}")
                    click.echo("\n".join("    " + line for line in one.lines))
        whole = total(scores.values())
        visit = long_visit(narrations)
        laid_out = table(name, whole, len(scores), visit)
        click.echo(laid_out)
        figures[name] = {
            "pairs": dict(whole.pairs),
            "counts": dict(whole.counts),
            "seconds": whole.seconds,
            "words": whole.words,
            "long visit": asdict(visit) if visit is not None else None,
        }
        if peers:
            from tests.benchmarks.text.peers import compare

            report += [f"## {name}", "", *compare(narrations, whole), "", "```text", laid_out, "```", ""]
    if write and any(f["counts"].get("crashes") for f in figures.values()):
        raise click.ClickException("the pipeline crashed: RESULTS.md is left as it was.")
    if write and report:
        from tests.benchmarks.text.results import write_results

        write_results(report)
    if json_path:
        json_path.write_text(json.dumps(figures, indent=1), encoding="utf-8")


if __name__ == "__main__":
    main()
