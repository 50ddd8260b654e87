"""Amounts that lean on another amount, on a plate or on what a machine makes: cases/amounts_told.toml."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.mentions import Mentions

_FILE = Path(__file__).parent / "cases" / "amounts_told.toml"
CASES = tomllib.loads(_FILE.read_text(encoding="utf-8"))


def said(text: str) -> Mentions:
    return find(list(segments_of([text], "c1")))


@pytest.mark.parametrize(("text", "want"), CASES["cases"])
def test_movements(text: str, want: str) -> None:
    ways = {"recovered": "out", "charged": "in"}
    told = [
        f"{ways[m.direction]} {m.value:g} {m.unit}{'?' if m.review else ''}" for m in said(text).movements
    ]
    assert " | ".join(told) == want


@pytest.mark.parametrize(("text", "want"), CASES["weighs"])
def test_weights_that_are_readings(text: str, want: str) -> None:
    told = [
        f"{r.role} {r.value:g} {r.unit}{'?' if r.review else ''}"
        for r in said(text).readings
        if r.quantity == "mass"
    ]
    assert " | ".join(told) == want


@pytest.mark.parametrize(("text", "want"), CASES["labour"])
def test_a_range_is_no_time_of_day(text: str, want: str) -> None:
    labour = said(text).labour
    assert (labour.start or "" if labour else "") == want


@pytest.mark.parametrize(("text", "want"), CASES["gas"])
def test_an_old_machine_has_its_gas(text: str, want: str) -> None:
    assert [e.refrigerant for e in said(text).equipment] == [want]
