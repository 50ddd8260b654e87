"""`dictate watch`: recordings that arrive in a folder become visits."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--ledger", type=click.Path(path_type=Path), metavar="DIR", help="Where the ledger lies.")
@click.option("--workers", type=click.IntRange(1), help="Listening processes; as many as fit if left out.")
@click.option("--once", is_flag=True, help="Do what is there now, then stop.")
@click.option("--on", "scheduler", metavar="ADDRESS", help="Listen on a Dask cluster: tcp://host:8786.")
@click.option("--config", "config_file", type=click.Path(path_type=Path), help="The shop's settings file.")
def command(
    folder: Path,
    ledger: Path | None,
    workers: int | None,
    once: bool,
    scheduler: str | None,
    config_file: Path | None,
) -> None:
    """Pick up recordings from FOLDER as they arrive, and make their records. Originals stay untouched.

    Example: dictate watch ~/Recordings
    """
    from dictate.config import load
    from dictate.errors import InputError
    from dictate.ledger import default_folder
    from dictate.ledger.watch import Watcher, real_listen, workers_that_fit

    if not folder.is_dir():
        raise InputError(f"{folder} is not a folder.", "Name the folder that recordings arrive in.")
    settings = load(config_file).settings
    count = workers_that_fit(workers)
    make = real_listen(settings.listen.speed, settings.listen.model, threads=1 if count > 1 else 0)

    def say(line: str) -> None:
        click.echo(line, err=True)

    watcher = Watcher(folder, ledger or default_folder(), settings, make, count, say)
    if scheduler is None:
        watcher.run(once=once)
    else:
        watcher.run_on(scheduler, once=once)
