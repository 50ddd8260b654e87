"""Which machine of several a value belongs to, in the many ways in which the talk goes back to one."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.pipeline import read_text

CASES = tomllib.loads((Path(__file__).parent / "cases" / "whose_machine.toml").read_text(encoding="utf-8"))[
    "cases"
]


@pytest.mark.parametrize(("text", "want"), CASES)
def test_values_go_to_their_machine(text: str, want: str) -> None:
    record = read_text(text)
    names = {e.id: f"{e.name} {e.type}" for e in record.equipment}
    of = [(r.value, names.get(r.equipment or "", "none")) for r in record.readings]
    for one in want.split(", "):
        value, machine = one.split()
        whose = [name for v, name in of if v is not None and abs(v - float(value)) < 1e-9]
        assert whose and all(machine in name for name in whose), (one, of)
