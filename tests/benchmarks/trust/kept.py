"""Values of narrations as readers took them that nobody had developed on these narrations, kept in a file.

Once a narration was developed on, its values are right more often than those of new ones are. So each set
was read when it was opened, by the readers and the judges of that day, and what they took is kept here with
its evidence (`dictate/mentions/doubts/trust_evidence.py`) and whether a label says the same. Values of sets
that were opened before there was that evidence were taken by the readers of their day; the evidence on them
was found later, with judges that were not trained on them.

unseen.json.gz: {"names": [evidence], "batches": [{narration: [[wrong, certain, [place of the name, much,
...]]]}]}, a batch for each time that something was kept, the newest last; `certain` values have a reason
whatever their evidence, and none is kept of them.
"""

from __future__ import annotations

import gzip
import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FILE = Path(__file__).with_name("unseen.json.gz")


@dataclass
class Taken:
    """One measured value: its evidence, whether it is wrong, whether it was asked about anyhow."""

    narration: str
    seen: dict[str, float]
    wrong: bool
    certain: bool


def kept() -> list[list[Taken]]:
    """Return the values of each batch, the newest last."""
    content = json.loads(gzip.decompress(FILE.read_bytes()))
    names = content["names"]
    return [
        [
            Taken(
                narration,
                {names[i]: float(much) for i, much in zip(told[::2], told[1::2], strict=True)},
                bool(wrong),
                bool(certain),
            )
            for narration, values in batch.items()
            for wrong, certain, told in values
        ]
        for batch in content["batches"]
    ]


def keep(batches: list[list[Taken]]) -> None:
    """Write the file."""
    names: dict[str, int] = {}
    out = []
    for batch in batches:
        told: dict[str, list[Any]] = {}
        for t in batch:
            row: list[float] = []
            for name, much in ({} if t.certain else t.seen).items():
                rounded = round(much, 1)
                row += [
                    names.setdefault(name, len(names)),
                    int(rounded) if rounded == int(rounded) else rounded,
                ]
            told.setdefault(t.narration, []).append([int(t.wrong), int(t.certain), row])
        out.append(told)
    text = json.dumps({"names": list(names), "batches": out}, separators=(",", ":"))
    FILE.write_bytes(gzip.compress(text.encode("utf-8"), 9, mtime=0))


__all__ = ["FILE", "Taken", "keep", "kept"]
