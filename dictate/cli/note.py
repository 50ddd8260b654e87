"""`dictate note`: the recordings of one visit become its record."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dictate.errors import ExitCode, UsageError

if TYPE_CHECKING:
    from dictate.pipeline import Options, Progress
    from dictate.record.visit import Record


@click.command()
@click.argument("paths", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="PATH...")
@click.option("--json", "as_json", is_flag=True, help="Print only the record, as JSON, on stdout.")
@click.option("--out", type=click.Path(path_type=Path), metavar="DIR", help="Also write the files here.")
@click.option("--model", metavar="NAME_OR_PATH", help="A name of 'dictate models', or a folder.")
@click.option(
    "--speed",
    type=click.Choice(["careful", "fast"]),
    help="careful (the default) listens several ways and marks doubt; fast decodes once.",
)
@click.option("--us-law", is_flag=True, help="The visit is in the USA: apply its refrigerant rules.")
@click.option("--strict", is_flag=True, help="Exit with 10 when anything is open.")
@click.option("--fresh", is_flag=True, help="Listen again, without what was kept from a former run.")
@click.option("--allow-download", is_flag=True, help="Let a model that is not here be fetched.")
@click.option("--config", "config_file", type=click.Path(path_type=Path), help="The shop's settings file.")
@click.option(
    "--add-to", type=click.Path(path_type=Path), metavar="VISIT", help="The PATHs are spoken answers to it."
)
@click.option("--by", metavar="NAME", help="Who answers, with --add-to.")
@click.option("--no-sound", is_flag=True, help="Write no copy of the sound into DIR.")
@click.option("-q", "--quiet", is_flag=True, help="No progress on stderr.")
def command(
    paths: tuple[Path, ...],
    as_json: bool,
    out: Path | None,
    model: str | None,
    speed: str | None,
    us_law: bool,
    strict: bool,
    fresh: bool,
    allow_download: bool,
    config_file: Path | None,
    add_to: Path | None,
    by: str | None,
    no_sound: bool,
    quiet: bool,
) -> None:
    """Turn the recordings (or transcripts) of one visit into its service record.

    All the PATHs of one call are one visit. Nothing leaves this machine.

    Example: dictate note visit.m4a --out visit
    """
    from dictate.config import load
    from dictate.pipeline import Options

    flags = {"listen.model": model, "listen.speed": speed}
    settings = load(config_file, flags=flags).settings
    options = Options(
        model=settings.listen.model,
        speed=settings.listen.speed,
        allow_download=allow_download,
        fresh=fresh,
        facts={"jurisdiction": "US"} if us_law else {},
        settings=settings,
    )
    if add_to is not None:
        if out is not None:
            raise UsageError("--add-to writes into the visit's own folder.", "Leave --out out.")
        _add(paths, options, add_to, by, as_json=as_json, quiet=quiet)
        return
    run(paths, options, as_json=as_json, out=out, strict=strict, sound=not no_sound, quiet=quiet)


def _add(
    paths: tuple[Path, ...], options: Options, visit: Path, by: str | None, *, as_json: bool, quiet: bool
) -> None:
    """Hear spoken answers, put them into the visit's log, and say what was taken from them."""
    from dictate.export.summary import summary
    from dictate.pipeline import current
    from dictate.record.file import to_json
    from dictate.review.answers import login, spoken

    folder = visit
    if not visit.exists() and len(visit.parts) == 1:
        from dictate.ledger import visit_folder

        folder = visit_folder(str(visit))
    took = spoken(folder, paths, login(by), options, progress=None if quiet else progress_on_stderr())
    record = current(folder)
    click.echo(to_json(record) if as_json else summary(record), nl=False)
    if not quiet:
        click.echo(f"Taken from the answer: {'; '.join(took)}", err=True)


def run(
    paths: tuple[Path, ...],
    options: Options,
    *,
    as_json: bool,
    out: Path | None,
    strict: bool,
    sound: bool = True,
    quiet: bool = False,
) -> None:
    """Make the record, print it, write it, and leave with the promised exit code."""
    from dictate.export.folder import prepare, write_folder
    from dictate.export.summary import summary
    from dictate.export.wording import is_open
    from dictate.pipeline import record_of
    from dictate.record.file import to_json

    if out is not None:
        _refuse_inside(out, paths)
        prepare(out)
    record = record_of(paths, options, progress=None if quiet else progress_on_stderr())
    click.echo(to_json(record) if as_json else summary(record), nl=False)
    if out is not None:
        write_folder(record, out)
        if sound:
            _write_sound(record, paths, out)
        if not quiet:
            click.echo(f"Written to {out}. Next: dictate review {out}", err=True)
    for problem in record.problems:
        click.echo(f"dictate: {problem.file}: {problem.error} {problem.advice}".rstrip(), err=True)
    if record.problems:
        sys.exit(int(ExitCode.INPUT))
    if strict and (any(is_open(c) for c in record.checks) or any(r.review for r in record.readings)):
        sys.exit(int(ExitCode.OPEN))


def _refuse_inside(out: Path, paths: tuple[Path, ...]) -> None:
    if out.exists() and not out.is_dir():
        raise UsageError(f"--out {out} is a file.", "Name a folder.")
    for path in paths:
        if path.resolve() == out.resolve():
            raise UsageError(f"--out {out} is also an input.", "Name another folder.")


def _write_sound(record: Record, paths: tuple[Path, ...], out: Path) -> None:
    """Keep a copy of the sound that every browser plays, with the times that the recogniser read."""
    from dictate.record.file import writing
    from dictate.speech import review_copy

    by_hash = {clip.sha256: clip for clip in record.clips if clip.duration_s is not None}
    with writing(out):
        for path in paths:
            review_copy(path, by_hash, out / "sound")


def progress_on_stderr() -> Progress:
    """Return a progress printer: one moving line on a terminal, a line per tenth elsewhere."""
    terminal = sys.stderr.isatty()
    shown: dict[str, int] = {}

    def show(what: str, done: float, left_s: float) -> None:
        tenth = int(done * 10)
        if not terminal and shown.get(what) == tenth:
            return
        shown[what] = tenth
        left = f", about {left_s:.0f} s left" if left_s == left_s and done < 1 else ""
        line = f"{what}: {done:4.0%}{left}"
        click.echo(f"\r\x1b[K{line}" if terminal else line, err=True, nl=not terminal or done >= 1)

    return show
