"""Which numbers of a sentence were read: wishes, prints, plans, former visits and slips of the tongue were not."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

_FILE = Path(__file__).parent / "cases" / "read_or_not.toml"
CASES = tomllib.loads(_FILE.read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["text"][:60])
def test_only_what_was_read_is_measured(case: dict[str, Any]) -> None:
    found = find(list(segments_of([case["text"]], "c1"))).readings
    measured = [r.value for r in found if r.role == "measured" and r.value is not None]

    def read(value: float) -> bool:
        return any(v == pytest.approx(value, rel=1e-3) for v in measured)

    assert [v for v in case["measured"] if not read(v)] == []
    assert [v for v in case["not"] if read(v)] == []
