"""`dictate backup`: copy the ledger while it is in use."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("to", type=click.Path(path_type=Path))
@click.option("--ledger", "folder", type=click.Path(path_type=Path), help="Where the ledger lies.")
def command(to: Path, folder: Path | None) -> None:
    """Copy the ledger to the file TO; work on it may go on meanwhile."""
    from dictate.ledger import default_folder
    from dictate.ledger.store import Ledger

    with Ledger(folder or default_folder()) as ledger:
        click.echo(str(ledger.backup(to)))
