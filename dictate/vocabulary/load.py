"""Read the vocabulary files. Each opens with its own format; a broken file is one clear error.

In a list of phrases a group with bars stands for each of what it holds: "(hose|bag) (was|lay) on the scale"
are four phrases, "clamp (|was )half closed" two.
"""

from __future__ import annotations

import re
import tomllib
from functools import cache
from importlib import resources
from itertools import product
from typing import Any

from dictate.errors import RecordError


@cache
def table(name: str) -> dict[str, Any]:
    """Return the vocabulary file `name`.toml as a dictionary."""
    file = resources.files("dictate.vocabulary") / f"{name}.toml"
    try:
        read = tomllib.loads(file.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise RecordError(f"vocabulary file {name}.toml is missing.", "Reinstall the package.") from None
    except tomllib.TOMLDecodeError as error:
        raise RecordError(f"vocabulary file {name}.toml: {error}.", "Mend that line.") from None
    return {key: _spelled_out(held) for key, held in read.items()}


_GROUP = re.compile(r"\(([^()?][^()]*\|[^()]*|\|[^()]*)\)")


def _spelled_out(held: Any) -> Any:
    """Return a table with each group of the phrases in its lists spelled out."""
    if isinstance(held, dict):
        return {key: _spelled_out(of) for key, of in held.items()}
    if not isinstance(held, list):
        return held
    out: list[Any] = []
    for one in held:
        out += phrases_of(one) if isinstance(one, str) else [_spelled_out(one)]
    return out


def phrases_of(line: str) -> list[str]:
    """Return the phrases that a line of a list stands for: itself where it has no group."""
    parts = _GROUP.split(line)
    if len(parts) == 1:
        return [line]
    choices = (part.split("|") if i % 2 else [part] for i, part in enumerate(parts))
    return ["".join(chosen) for chosen in product(*choices)]


@cache
def word_set(name: str, file: str = "plain_words") -> frozenset[str]:
    """Return one list of words of a vocabulary file as a set."""
    return frozenset(table(file)[name])
