"""`dictate rules`: list the checks, or explain one."""

from __future__ import annotations

import click

from dictate.errors import UsageError


@click.command("rules")
@click.argument("ids", nargs=-1, metavar="[ID]...")
@click.option("--tag", help="Only rules of this basis: published, common practice, from memory.")
@click.option("--json", "as_json", is_flag=True, help="Print the pages as JSON.")
def command(ids: tuple[str, ...], tag: str | None, as_json: bool) -> None:
    """List the checks, or explain those named by ID.

    An ID may end in a star: `dictate rules 'winding.*'`.
    """
    from fnmatch import fnmatchcase

    from dictate.checks.pages import TITLES, page
    from dictate.checks.run import catalogue

    rules = list(catalogue())
    if tag is not None:
        tags = sorted({r.tag for r in rules})
        if tag not in tags:
            raise UsageError(f"no rule has the basis {tag!r}.", f"Use one of: {', '.join(tags)}.")
        rules = [r for r in rules if r.tag == tag]
    if ids:
        chosen = [r for r in rules if any(fnmatchcase(r.id, wanted) for wanted in ids)]
        for wanted in ids:
            if not any(fnmatchcase(r.id, wanted) for r in rules):
                area = wanted.split(".")[0]
                near = [r.id for r in rules if r.id.startswith(area)] or ["see `dictate rules`"]
                raise UsageError(f"there is no rule {wanted!r}.", f"Near it: {', '.join(near[:6])}.")
        rules = chosen
    if as_json:
        import json

        keys = ("id", "checks", "applies", "source", "tag", "question", "caution", "blocking", "folder")
        click.echo(
            json.dumps([{k: getattr(r, k) for k in keys} for r in rules], indent=1, ensure_ascii=False)
        )
        return
    if ids:
        click.echo("\n\n".join(page(r) for r in rules))
        return
    width = max(len(r.id) for r in rules)
    for folder in dict.fromkeys(r.folder for r in rules):
        click.echo(f"\n{TITLES.get(folder, folder)}")
        for r in (r for r in rules if r.folder == folder):
            click.echo(f"  {r.id:<{width}}  {r.checks}")
    click.echo(f"\n{len(rules)} rules; `dictate rules ID` explains one.")
