"""What a frame proves of a value whatever the visit speaks of, and what has to be asked; cases/proved_by_the_frame.toml.

The visits are our own; what is usual for a part or a place is common practice.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.pipeline import read_text
from dictate.record.visit import Reading

_FILE = Path(__file__).parent / "cases" / "proved_by_the_frame.toml"
CASES = tomllib.loads(_FILE.read_text(encoding="utf-8"))["case"]


def _fits(reading: Reading, row: str) -> bool:
    """Tell whether a reading is the one of a row "value unit | component | point | role", "?" for asked about."""
    parts = [part.strip() for part in row.split("|")]
    said, component, point, role = parts + ["", "*", "*", ""][len(parts) :]
    value, _, unit = said.partition(" ")
    if value == "open":
        right = reading.state == "open"
    else:
        right = (
            reading.value is not None and abs(reading.value - float(value)) < 1e-6 and unit == reading.unit
        )
    for wanted, got in ((component, reading.component), (point, reading.point)):
        right = right and (wanted == "*" or (got or "-") in wanted.split("/"))
    right = right and reading.role == (role.rstrip("?!") or "measured")
    if role.endswith("?"):
        return right and bool(reading.review)
    return right and not (role.endswith("!") and reading.review)


@pytest.mark.parametrize("case", CASES, ids=[c["text"][:50] for c in CASES])
def test_proved_by_the_frame(case: dict[str, str | list[str]]) -> None:
    left = list(read_text(str(case["text"])).readings)
    for row in case["readings"]:
        found = next((r for r in left if _fits(r, row)), None)
        seen = [(r.value, r.unit, r.component, r.point, r.role, r.review) for r in left]
        assert found is not None, (row, seen)
        left.remove(found)
