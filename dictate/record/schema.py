"""The published JSON Schema of the record, generated from the types; a test keeps the file up to date.

Regenerate with `python -m dictate.record.schema`.
"""

from __future__ import annotations

import json
from importlib import resources

from dictate.record.visit import Record

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema_text() -> str:
    """Return the schema as JSON text, in a stable order."""
    schema = Record.model_json_schema(by_alias=True, mode="serialization")
    return json.dumps({"$schema": DIALECT, **schema}, indent=1, ensure_ascii=False, sort_keys=True) + "\n"


def published() -> str:
    """Return the schema file that is kept beside this module."""
    return (resources.files("dictate.record") / "record.schema.json").read_text(encoding="utf-8")


if __name__ == "__main__":
    from pathlib import Path

    Path(__file__).with_name("record.schema.json").write_text(schema_text(), encoding="utf-8")
