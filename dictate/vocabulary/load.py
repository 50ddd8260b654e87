"""Read the vocabulary files. Each opens with its own format; a broken file is one clear error."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib import resources
from typing import Any

from dictate.errors import RecordError


@cache
def table(name: str) -> dict[str, Any]:
    """Return the vocabulary file `name`.toml as a dictionary."""
    file = resources.files("dictate.vocabulary") / f"{name}.toml"
    try:
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise RecordError(f"vocabulary file {name}.toml is missing.", "Reinstall the package.") from None
    except tomllib.TOMLDecodeError as error:
        raise RecordError(f"vocabulary file {name}.toml: {error}.", "Mend that line.") from None


@cache
def word_set(name: str, file: str = "plain_words") -> frozenset[str]:
    """Return one list of words of a vocabulary file as a set."""
    return frozenset(table(file)[name])
