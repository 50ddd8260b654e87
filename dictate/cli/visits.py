"""`dictate visits`: list and search the visits, sum up refrigerant, move a clip to its visit."""

from __future__ import annotations

import json
from pathlib import Path

import click


@click.command()
@click.argument("words", required=False)
@click.option("--ledger", "folder", type=click.Path(path_type=Path), help="Where the ledger lies.")
@click.option("--machine", help="A name, type, model or serial of a machine.")
@click.option("--refrigerant", help="Such as R-404A.")
@click.option("--since", metavar="DATE", help="From this day on (2026-03-04).")
@click.option("--until", metavar="DATE", help="Up to this day.")
@click.option("--open", "open_only", is_flag=True, help="Only visits with open questions.")
@click.option("--return", "return_only", is_flag=True, help="Only visits with planned work.")
@click.option("--totals", is_flag=True, help="Sum up refrigerant recovered and charged.")
@click.option("--leak-rates", is_flag=True, help="The machines' annualised leak rates.")
@click.option("--move", nargs=2, metavar="CLIP VISIT", help="Put a clip (hash) into another visit (key).")
@click.option("--json", "as_json", is_flag=True, help="Print it as JSON.")
def command(
    words: str | None,
    folder: Path | None,
    machine: str | None,
    refrigerant: str | None,
    since: str | None,
    until: str | None,
    open_only: bool,
    return_only: bool,
    totals: bool,
    leak_rates: bool,
    move: tuple[str, str] | None,
    as_json: bool,
) -> None:
    """List the visits that fit, newest first. WORDS look in site, customer, technician and id."""
    from dataclasses import asdict

    from dictate.ledger import default_folder, search
    from dictate.ledger.store import Ledger

    with Ledger(folder or default_folder()) as ledger:
        if move is not None:
            ledger.move(*move)
            click.echo("Moved; both visits are written up again at the next 'dictate watch'.")
            return
        if totals:
            rows = search.totals(ledger, since, until)
        elif leak_rates:
            rows = [asdict(r) for r in search.leak_rates(ledger)]
        else:
            wanted = search.Wanted(words, machine, refrigerant, since, until, open_only, return_only)
            rows = search.visits(ledger, wanted)
    if as_json:
        click.echo(json.dumps(rows, indent=1, ensure_ascii=False))
        return
    for row in rows:
        click.echo(_line(row))
    if not rows:
        click.echo("none")


def _line(row: dict[str, object]) -> str:
    if "direction" in row:
        weight = f"{row['grams']:.0f} g" if row["grams"] is not None else "no amount stated"
        counted = f"{row['movements']} movements, {row['not_stated']} without an amount"
        return f"{row['refrigerant']} {row['direction']}: {weight} ({counted})"
    if "percent" in row:
        basis = "first calculation, 365 days" if row["first_calculation"] else f"{row['days']} days"
        rate = f"{row['percent']:.1f} % a year ({basis})"
        return f"{row['name']} {row['serial']}: {rate}; the owner's calculation rules"
    opened = f"{row['open']} open" if row["open"] else "nothing open"
    back = ", return visit planned" if row["return_visit"] else ""
    place = row["site"] or row["customer"] or row["key"]
    return (
        f"{row['id']}  {row['date'] or 'no date'}  {place}: {row['machines'] or 'no machine'}; {opened}{back}"
    )
