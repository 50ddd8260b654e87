"""Which part, which place on it, and found or left: cousins in other words, in cases/where_and_when*.toml.

The sentences are our own; what is usual for a part or a place is common practice.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.pipeline import read_text
from dictate.record.visit import Reading

_FOLDER = Path(__file__).parent / "cases"
CASES = [
    case
    for name in ("where_and_when.toml", "where_and_when_told.toml")
    for case in tomllib.loads((_FOLDER / name).read_text(encoding="utf-8"))["case"]
]


def fits(reading: Reading, row: str) -> bool:
    """Tell whether a reading is the one of a row "value unit | component | point | stage"."""
    said, component, point, stage = (*(part.strip() for part in row.split("|")), "*", "*", "*")[:4]
    value, _, unit = said.partition(" ")
    if value == "open":
        right = reading.state == "open"
    else:
        right = reading.value is not None and abs(reading.value - float(value)) < 1e-6
        right = right and unit in {"", reading.unit}
    for wanted, got in ((component, reading.component), (point, reading.point), (stage, reading.stage)):
        right = right and (wanted == "*" or (got or "-") in wanted.split("/"))
    return right and reading.role == "measured"


@pytest.mark.parametrize("case", CASES, ids=[c["text"][:50] for c in CASES])
def test_where_and_when(case: dict[str, str | list[str]]) -> None:
    left = list(read_text(str(case["text"])).readings)
    for row in case["readings"]:
        found = next((r for r in left if fits(r, row)), None)
        seen = [(r.value, r.unit, r.component, r.point, r.stage, r.role) for r in left]
        assert found is not None, (row, seen)
        left.remove(found)
