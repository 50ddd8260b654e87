"""What later words take back, what they put in doubt, and what they leave alone."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from dictate.pipeline import read_text

_FILE = Path(__file__).parent / "cases" / "taken_back_or_not.toml"
CASES = tomllib.loads(_FILE.read_text(encoding="utf-8"))["case"]


@pytest.mark.parametrize("case", CASES, ids=lambda c: c["text"][:70])
def test_taken_back_or_not(case: dict[str, Any]) -> None:
    record = read_text(case["text"])
    found = [(r.value, r.role, bool(r.review)) for r in record.readings if r.value is not None]
    found += [(m.value, "measured", bool(m.review)) for m in record.refrigerant if m.value is not None]

    def of(value: float) -> list[tuple[str, bool]]:
        return [(role, doubted) for v, role, doubted in found if v == pytest.approx(value, abs=1e-6)]

    plain = ("measured", False)
    kept = {"measured", "earlier", "rated", "target"}
    assert [v for v in case.get("sure", ()) if not any(r in kept and not d for r, d in of(v))] == []
    assert [v for v in case.get("open", ()) if not of(v) or plain in of(v)] == []
    assert [v for v in case.get("away", ()) if plain in of(v)] == []
    assert [v for v in case.get("kept", ()) if not any(r == "measured" for r, _ in of(v))] == []
