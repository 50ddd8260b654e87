"""Record -> findings: the catalogue, put together from the list in each subject folder."""

from __future__ import annotations

import importlib
from functools import cache

from dictate.checks.facts import Facts
from dictate.checks.rule import Rule, check_all
from dictate.record.visit import Check, Record

FOLDERS = (
    "record",
    "safety",
    "electrical",
    "diagnosis",
    "procedure",
    "physics",
    "law",
    "missing",
)
"""The subject folders, in the order in which their findings are listed; each has a tuple `RULES`."""


@cache
def catalogue() -> tuple[Rule, ...]:
    """Return every rule, in listing order. An id used twice is a mistake in the code and stops the run."""
    rules: list[Rule] = []
    for folder in FOLDERS:
        rules += importlib.import_module(f"dictate.checks.{folder}").RULES
    ids = [r.id for r in rules]
    if twice := {i for i in ids if ids.count(i) > 1}:
        raise ValueError(f"rule ids used twice: {', '.join(sorted(twice))}")
    return tuple(rules)


def by_id(id: str) -> Rule | None:
    """Return one rule, or None when there is none with this id."""
    return next((r for r in catalogue() if r.id == id), None)


def run(record: Record) -> list[Check]:
    """Check a record with every rule. The record is not changed; the caller stores the findings in it."""
    return check_all(catalogue(), Facts(record))
