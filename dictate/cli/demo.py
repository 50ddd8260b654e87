"""`dictate demo`: the main job on the recording that comes along."""

from __future__ import annotations

from pathlib import Path

import click

from dictate.errors import InputError

RECORDING = "freezer-leak.m4a"


@click.command()
@click.option("--json", "as_json", is_flag=True, help="Print only the record, as JSON, on stdout.")
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Also write the files here.")
@click.option(
    "--speed",
    type=click.Choice(["careful", "fast"]),
    default="careful",
    show_default=True,
    help="As for note.",
)
def command(as_json: bool, out: Path | None, speed: str) -> None:
    """Decode the sample recording with the real model and make its record; no network is needed."""
    from dictate.cli.note import run
    from dictate.pipeline import Options

    run((sample(),), Options(speed=speed, fresh=True), as_json=as_json, out=out, strict=False)


def sample() -> Path:
    """Return the demo recording, of the checkout or of the installed package. Raises InputError."""
    package = Path(__file__).resolve().parent.parent
    for folder in (package / "_data" / "audio_samples", package.parent / "audio_samples"):
        if (folder / RECORDING).is_file():
            return folder / RECORDING
    raise InputError("the demo recording is not here.", "Install the package again, or name your own file.")
