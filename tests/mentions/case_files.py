"""The case files of readings: read, run, and compare."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from dictate.mentions.corrections.corrector import correct
from dictate.mentions.narration import Narration
from dictate.mentions.readings import find_readings
from dictate.record.visit import Reading

HERE = Path(__file__).parent / "cases"
KEYS = {
    "value", "unit", "state", "quantity", "role", "relation", "component", "point", "which", "reference", "derived",
    "unit_assumed", "review",
}  # fmt: skip
DEFAULTS: dict[str, Any] = {
    "role": "measured", "relation": "=", "component": None, "point": None, "which": None, "derived": False, "state": "value",
}  # fmt: skip


def cases(name: str) -> list[dict[str, Any]]:
    """Return the cases of one file; an unknown key is an error."""
    found: list[dict[str, Any]] = tomllib.loads((HERE / f"{name}.toml").read_text(encoding="utf-8"))["case"]
    for case in found:
        assert set(case) <= {"name", "text", "source", "readings"}, case
        for row in case["readings"]:
            assert set(row) <= KEYS, row
    return found


def readings(text: str) -> list[Reading]:
    """Return the readings of a plain text, corrections applied."""
    narration = Narration.from_text(text.strip())
    return correct(narration, find_readings(narration))


def short(reading: Reading) -> str:
    """Return a reading in one line, for the message of a failed test."""
    said = "open" if reading.state == "open" else f"{reading.value:g}" if reading.value is not None else "?"
    return f"{said} {reading.unit} {reading.role} {reading.component}/{reading.point} <{reading.heard}> {reading.review}"


def check(case: dict[str, Any]) -> None:
    """Compare a narration's readings with the case, in order."""
    found = readings(case["text"])
    said = "\n".join(short(r) for r in found)
    assert len(found) == len(case["readings"]), said
    for reading, row in zip(found, case["readings"], strict=True):
        wanted = DEFAULTS | row
        if wanted["state"] == "open":
            assert reading.state == "open" and reading.value is None, said
        else:
            assert reading.value is not None and abs(reading.value - wanted["value"]) < 1e-6 * max(
                1, abs(wanted["value"])
            ), said
        assert reading.unit == wanted["unit"], said
        for key in ("role", "relation", "component", "point", "which", "derived", "state"):
            assert getattr(reading, key) == wanted[key], (
                f"{key} of {short(reading)}, not {wanted[key]}\n{said}"
            )
        for key in ("quantity", "reference", "unit_assumed"):
            if key in row:
                assert getattr(reading, key) == row[key], f"{key} of {short(reading)}\n{said}"
        assert bool(reading.review) == bool(row.get("review", False)), short(reading)


def assert_row(row: tuple[str, ...]) -> None:
    """Compare a narration with its readings, and no other: "value unit|quantity, component, point or role|..."."""
    text, *wanted = row
    found = readings(text)
    said = "\n".join(short(r) for r in found)
    assert len(found) == len(wanted), said
    for reading, want in zip(found, wanted, strict=True):
        amount, *more = want.split("|")
        value, unit = amount.split()
        assert reading.unit == unit, f"{want}\n{said}"
        if value == "open":
            assert reading.state == "open", f"{want}\n{said}"
        else:
            assert reading.value == pytest.approx(float(value), rel=1e-4), f"{want}\n{said}"
        known = {reading.quantity, reading.component, reading.point, reading.role}
        assert set(more) <= known, f"{want}\n{said}"
