"""Which part a value is of, at which point, and whether it was found or left so: mini visits of a table.

The order in which a meter is carried and what a start draws are common practice.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.pipeline import read_text

_TABLE = Path(__file__).with_name("part_point_stage.toml")
VISITS: list[dict[str, object]] = tomllib.loads(_TABLE.read_text(encoding="utf-8"))["visit"]


@pytest.mark.parametrize("visit", VISITS, ids=[str(v["said"])[:45] for v in VISITS])
def test_part_point_and_stage(visit: dict[str, object]) -> None:
    readings = [r for r in read_text(str(visit["said"])).readings if r.role != "rated"]
    rows = visit["told"]
    assert isinstance(rows, list)
    for row in rows:
        value, component, point, stage = row.split(" | ")
        found = next(
            (r for r in readings if (r.state == "open" if value == "open" else r.value == float(value))), None
        )
        assert found is not None, row
        readings = [r for r in readings if r is not found]
        assert component in {"-", str(found.component)}, row
        assert point in {"-", str(found.point)}, row
        assert stage in {"-", str(found.stage)}, row
