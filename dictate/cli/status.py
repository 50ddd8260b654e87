"""`dictate status`: what is waiting, running, done and failed, and the next thing to do."""

from __future__ import annotations

import json
from pathlib import Path

import click


@click.command()
@click.option("--ledger", "folder", type=click.Path(path_type=Path), help="Where the ledger lies.")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
@click.option("--all", "everything", is_flag=True, help="List the clips that are done, too.")
def command(folder: Path | None, as_json: bool, everything: bool) -> None:
    """List the clips by state, with reasons and what to do next."""
    from dictate.ledger import default_folder
    from dictate.ledger.store import Ledger

    with Ledger(folder or default_folder()) as ledger:
        count, clips = ledger.count(), ledger.clips()
    shown = [c for c in clips if everything or c.state != "done"]
    if as_json:
        rows = [
            {"clip": c.sha256, "path": str(c.path), "visit": c.visit, "state": c.state, "tries": c.tries,
             "error": c.error, "next": c.advice}
            for c in shown
        ]  # fmt: skip
        click.echo(json.dumps({"count": count, "clips": rows}, indent=1, ensure_ascii=False))
        return
    click.echo(", ".join(f"{number} {state}" for state, number in count.items()))
    for clip in shown:
        click.echo(f"{clip.state:9} {clip.path} ({clip.visit})")
        if clip.error:
            click.echo(f"          {clip.error} {clip.advice or ''}".rstrip())
