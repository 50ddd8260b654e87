"""`dictate doctor`: look over the ledger, the model and the machine."""

from __future__ import annotations

from pathlib import Path

import click

from dictate.errors import RecordError


@click.command()
@click.option("--ledger", "folder", type=click.Path(path_type=Path), help="Where the ledger lies.")
@click.option("--mend", is_flag=True, help="Mend what can be mended.")
def command(folder: Path | None, mend: bool) -> None:
    """Say what is in order, what is not, and how to mend it."""
    from dictate.ledger import default_folder
    from dictate.ledger.doctor import examine

    wrong = 0
    for finding in examine(folder or default_folder(), mend=mend):
        wrong += not finding.ok
        click.echo(f"{'in order' if finding.ok else 'WRONG':8}  {finding.name}: {finding.says}")
        if not finding.ok and finding.advice:
            click.echo(f"          {finding.advice}")
    if wrong:
        raise RecordError(f"{wrong} things are wrong.", "Do what stands below each.")
