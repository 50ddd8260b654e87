"""The sentences of the table tests of steps, as visits to learn from beside the narrations.

Many of them say no step though they sound like one, which the narrations have fewer of.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path

TABLES = ("steps", "steps_more", "steps_ways", "steps_told", "steps_traps", "steps_scoped")
HOME = Path(__file__).parents[2] / "mentions" / "cases"


def told() -> Iterator[tuple[str, set[tuple[str, str]]]]:
    """Yield each sentence with its steps and their status."""
    for name in TABLES:
        for group in tomllib.loads((HOME / f"{name}.toml").read_text(encoding="utf-8")).values():
            for text, want in group["cases"]:
                steps = set()
                for item in want:
                    code, _, status = item.rstrip("?").partition("@")[0].partition(":")
                    steps.add((code, status or "done"))
                yield text, steps
