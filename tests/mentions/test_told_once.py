"""What is told once: the gas of a machine, its numbers, the half of the day; it reaches all that it is true of."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.pipeline import read_text

CASES = tomllib.loads((Path(__file__).parent / "cases" / "told_once.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("text", "gas"), CASES["gas"])
def test_the_gas_of_the_machine_is_the_gas_of_what_was_moved(text: str, gas: str) -> None:
    record = read_text(text)
    assert gas in {e.refrigerant for e in record.equipment}
    assert record.refrigerant
    assert {m.refrigerant for m in record.refrigerant} == {gas}


@pytest.mark.parametrize("text", CASES["no_gas"])
def test_a_number_that_is_no_gas(text: str) -> None:
    assert not find_refrigerants(Narration.from_text(text))


@pytest.mark.parametrize(("text", "want"), CASES["plates"])
def test_numbers_of_the_plate(text: str, want: str) -> None:
    machines = read_text(text).equipment
    assert " / ".join(f"{e.type};{e.model};{e.serial};{e.refrigerant}" for e in machines) == want


@pytest.mark.parametrize(("text", "start", "end", "hours", "asked"), CASES["labour"])
def test_working_time(text: str, start: str, end: str, hours: float, *, asked: bool) -> None:
    labour = read_text(text).labour
    got = (labour.start or "", labour.end or "", labour.hours or 0) if labour else ("", "", 0)
    assert got == (start, end, hours)
    assert bool(labour and labour.review) is asked


def test_the_gas_of_a_rack_is_the_gas_of_its_cases() -> None:
    text = "The rack in the mezzanine, 448A. Case four reads 44. Recovered two pounds from the case."
    (moved,) = read_text(text).refrigerant
    assert (moved.refrigerant, moved.review) == ("R-448A", [])


def test_the_gas_of_another_machine_carries_a_reason() -> None:
    text = "Walk-in cooler, R-404A, box 38. Then the ice machine. Recovered two pounds from the ice machine."
    (moved,) = read_text(text).refrigerant
    assert moved.refrigerant == "R-404A"
    assert moved.review
