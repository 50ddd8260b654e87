"""The table of commands in README, made from the commands themselves: `python -m dictate.cli.reference`."""

from __future__ import annotations

import sys
from pathlib import Path

from dictate.cli import COMMANDS

START, END = "<!-- commands -->", "<!-- /commands -->"


def block() -> str:
    """Return the generated block with its marks."""
    rows = [f"| `dictate {name}` | {line} |" for name, (_, line) in COMMANDS.items()]
    return "\n".join([START, "| command | does |", "| --- | --- |", *rows, END])


def rewritten(text: str) -> str:
    """Return README's text with the block brought up to date."""
    before, _, rest = text.partition(START)
    _, _, after = rest.partition(END)
    return before + block() + after


if __name__ == "__main__":
    readme = Path(sys.argv[1] if len(sys.argv) > 1 else "README.md")
    readme.write_text(rewritten(readme.read_text(encoding="utf-8")), encoding="utf-8")
