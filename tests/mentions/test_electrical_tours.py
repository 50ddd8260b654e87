"""Tours with a meter, from part to part: see the case file."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

_FILE = Path(__file__).parent / "cases" / "electrical_tours.toml"
CASES = tomllib.loads(_FILE.read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["text"][:60])
def test_tour(case: dict[str, object]) -> None:
    found = find(list(segments_of(str(case["text"]).splitlines(), "c1"))).readings
    told = [
        f"{'open' if r.value is None else format(r.value, '.10g')} {r.unit} | {r.component} | {r.point}"
        for r in found
        if r.role == "measured"
    ]
    rows = case["readings"]
    assert isinstance(rows, list)
    assert len(told) == len(rows), told
    for one, row in zip(told, rows, strict=True):
        wanted = row.split(" | ")
        assert all(w in {"*", x} for w, x in zip(wanted, one.split(" | "), strict=True)), told
