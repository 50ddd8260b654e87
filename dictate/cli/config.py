"""`dictate config`: every setting, its value, and where that value comes from."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click


@click.command()
@click.option("--config", "file", type=click.Path(path_type=Path), help="Read this settings file as well.")
@click.option("--json", "as_json", is_flag=True, help="Print the settings as JSON.")
def command(file: Path | None, as_json: bool) -> None:
    """Show each setting and where its value comes from."""
    from dictate.config import load

    loaded = load(file)
    data: dict[str, Any] = loaded.settings.model_dump(mode="json")
    if as_json:
        click.echo(json.dumps({"settings": data, "from": loaded.origin}, indent=1, ensure_ascii=False))
        return
    for kind, path, there in loaded.files:
        click.echo(f"{kind}: {path}" + ("" if there else " (not there)"))
    for table, values in data.items():
        if isinstance(values, dict):
            for key, value in values.items():
                origin = loaded.origin.get(f"{table}.{key}", "default")
                click.echo(f"{table}.{key} = {value if value is not None else 'not set'}  ({origin})")
        else:
            names = ", ".join(str(v["name"]) for v in values) or "none"
            click.echo(f"{table}: {names}  ({loaded.origin.get(table, 'default')})")
