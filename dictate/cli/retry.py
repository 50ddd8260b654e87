"""`dictate retry`: put failed recordings back in the queue."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("clips", nargs=-1)
@click.option("--ledger", "folder", type=click.Path(path_type=Path), help="Where the ledger lies.")
def command(clips: tuple[str, ...], folder: Path | None) -> None:
    """Put back the failed CLIPS (file names or the start of a hash), or all of them."""
    from dictate.ledger import default_folder
    from dictate.ledger.store import Ledger

    with Ledger(folder or default_folder()) as ledger:
        count = ledger.retry(clips)
    click.echo(f"{count} put back. Next: dictate watch FOLDER")
