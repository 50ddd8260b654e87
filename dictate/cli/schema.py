"""`dictate schema`: print the JSON Schema of the record."""

from __future__ import annotations

import click


@click.command()
def command() -> None:
    """Print the JSON Schema (2020-12) that every record follows."""
    from dictate.record.schema import schema_text

    click.echo(schema_text(), nl=False)
