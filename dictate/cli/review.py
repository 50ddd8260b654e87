"""`dictate review`: close the gaps of a record on a local page, or in the terminal."""

from __future__ import annotations

import click


@click.command()
@click.argument("visit", required=False, metavar="[VISIT|FOLDER]")
@click.option("--by", metavar="NAME", help="Who answers; it goes into the log. Default: your login name.")
@click.option("--terminal", is_flag=True, help="Walk through the questions here, without a browser.")
@click.option("--no-browser", is_flag=True, help="Print the address and open no browser.")
@click.option(
    "--port", type=click.IntRange(0, 65535), default=0, help="The port of the page; 0 takes a free one."
)
def command(visit: str | None, by: str | None, terminal: bool, no_browser: bool, port: int) -> None:
    """Review a visit, a folder of visits, an id of the ledger, or nothing for the ledger's latest visit.

    The page answers on this machine only and needs no network. Stop it with Ctrl-C.

    Example: dictate review visit --by "A. Sample"
    """
    from dictate.review.answers import login
    from dictate.review.shelf import shelf_of

    shelf = shelf_of(visit, login(by))
    if terminal:
        from dictate.review.terminal import walk

        walk(shelf)
        return
    from dictate.review.server import serve

    def announce(address: str) -> None:
        click.echo(f"Review as {shelf.by}: {address}")
        click.echo("The address works once, in one browser. Stop with Ctrl-C.", err=True)

    serve(shelf, port=port, browser=not no_browser, announce=announce)
