"""From what was said to what is asked: narrations in `narrations/*.toml`, through every stage."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from dictate.checks.run import catalogue
from dictate.pipeline import read_text

FILES = sorted((Path(__file__).parent / "narrations").glob("*.toml"))
ALL: dict[str, dict[str, Any]] = {
    name: entry
    for path in FILES
    for name, entry in tomllib.loads(path.read_text(encoding="utf-8"))["narration"].items()
}


@cache
def opened(name: str) -> dict[str, str]:
    """Return the open findings of a narration, rule -> message."""
    entry = ALL[name]
    record = read_text(entry["text"], entry.get("visit"))
    return {c.rule: c.message for c in record.checks if c.outcome in ("problem", "missing", "unsure")}


@pytest.mark.parametrize("name", ALL)
def test_what_the_work_calls_for_is_raised(name: str) -> None:
    missing = set(ALL[name]["raised"]) - set(opened(name))
    assert not missing, f"not raised: {sorted(missing)}"


@pytest.mark.parametrize("name", ALL)
def test_what_it_does_not_call_for_stays_quiet(name: str) -> None:
    alarms = {rule: opened(name)[rule] for rule in ALL[name]["quiet"] if rule in opened(name)}
    assert not alarms


def test_the_narrations_name_rules_that_exist() -> None:
    ids = {r.id for r in catalogue()}
    for name, entry in ALL.items():
        assert set(entry) <= {"text", "visit", "raised", "quiet"}, name
        assert set(entry["raised"]) | set(entry["quiet"]) <= ids, name
        assert entry["raised"] or entry["quiet"], name
