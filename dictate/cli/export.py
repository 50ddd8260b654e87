"""`dictate export`: write records for the billing system, the customer, the log and the claim."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import click

from dictate.errors import RecordError, UsageError

if TYPE_CHECKING:
    from dictate.record.visit import Record

FORMATS = ("json", "csv", "ubl", "html", "pdf", "log", "claim", "vtt")


@click.command()
@click.argument("visits", nargs=-1, metavar="VISIT...")
@click.option("--to", "fmt", type=click.Choice(FORMATS), help="What to write.")
@click.option("--out", type=click.Path(path_type=Path), metavar="PATH", help="A file, or a folder for many.")
@click.option("--draft", is_flag=True, help="Write although questions are open, and mark the paper so.")
@click.option("--profile", default="lines", show_default=True, help="For csv: a name or a file.")
@click.option("--price-book", type=click.Path(path_type=Path), help="CSV: code,name,price,said,unit,type.")
@click.option("--config", "config_file", type=click.Path(path_type=Path), help="The shop's settings file.")
@click.option("--date", metavar="DATE", help="The visits' date where none was said (2026-03-04).")
@click.option("--check-profile", metavar="FILE", help="Check an export profile, say what is wrong, and stop.")
def command(
    visits: tuple[str, ...],
    fmt: str | None,
    out: Path | None,
    draft: bool,
    profile: str,
    price_book: Path | None,
    config_file: Path | None,
    date: str | None,
    check_profile: str | None,
) -> None:
    """Write visits: a folder of 'dictate note', a record.json, or an id of the ledger.

    Example: dictate export visit --to csv --out bill.csv
    """
    if check_profile is not None:
        _check_profile(check_profile)
        return
    if not visits or fmt is None or out is None:
        raise UsageError("export needs VISIT, --to and --out.", "See 'dictate export --help'.")
    if date is not None:
        _check_date(date)
    from dictate.config import load as load_config
    from dictate.export import price_book as books
    from dictate.export import profile as profiles
    from dictate.export.export import Job, export
    from dictate.pipeline import claim_fields

    job = Job(
        format=fmt,
        out=out,
        config=load_config(config_file),
        draft=draft,
        profile=profiles.read(profile) if fmt == "csv" else None,
        book=books.read(price_book) if price_book else None,
        completeness=claim_fields,
    )
    for path in export(lambda: _records(visits, date), len(visits), job):
        click.echo(str(path))


def _records(visits: tuple[str, ...], date: str | None) -> Iterator[Record]:
    from dictate.pipeline import current

    for visit in visits:
        path = Path(visit)
        record = current(path) if path.exists() or "/" in visit else _from_ledger(visit)
        if date is not None and record.visit.date is None:
            record.visit.date = date
        yield record


def _check_date(date: str) -> None:
    import datetime

    try:
        datetime.date.fromisoformat(date)
    except ValueError:
        raise UsageError(f"--date {date!r} is no date.", "Write it like 2026-03-04.") from None


def _from_ledger(visit: str) -> Record:
    from dictate.ledger import find_visit

    return find_visit(visit)


def _check_profile(name: str) -> None:
    from dictate.export import profile as profiles

    if name in profiles.built_in():
        found = profiles.read(name)
    else:
        try:
            text = Path(name).read_text(encoding="utf-8")
        except (OSError, UnicodeDecodeError) as error:
            raise UsageError(f"{name} cannot be read: {error}.", "Name a profile file in UTF-8.") from None
        wrong = profiles.errors(text, name)
        for line in wrong:
            click.echo(line)
        if wrong:
            raise RecordError(f"{name}: {len(wrong)} wrong.", "Mend the lines above.")
        found = profiles.parse(text, name)
    click.echo(f"{found.name}: {len(found.columns)} columns, {found.layout}: in order.")
    click.echo("source fields: " + ", ".join(profiles.SOURCES))
