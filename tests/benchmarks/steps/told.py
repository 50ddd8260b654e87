"""The sentences of the table tests of steps, as visits to learn from beside the narrations.

Many of them say no step though they sound like one, which the narrations have fewer of. The snippets
(`snippets/`, in the same form) tell the steps in words that neither narrations nor tests have; no test holds the
readers to them.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

TABLES = ("steps", "steps_more", "steps_ways", "steps_told", "steps_traps", "steps_scoped")
HOME = Path(__file__).parents[2] / "mentions" / "cases"
SNIPPETS = Path(__file__).with_name("snippets")


def told() -> Iterator[tuple[str, set[tuple[str, str]]]]:
    """Yield each sentence with its steps and their status."""
    for path in (*(HOME / f"{name}.toml" for name in TABLES), *sorted(SNIPPETS.glob("*.toml"))):
        for group in tomllib.loads(path.read_text(encoding="utf-8")).values():
            for text, want in group["cases"]:
                steps = set()
                for item in want:
                    code, _, status = item.rstrip("?").partition("@")[0].partition(":")
                    steps.add((code, status or "done"))
                yield text, steps
