"""Working times: every case's sentence gives its start, end and hours; machine times give none."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from dictate.mentions import find
from dictate.mentions.labour import find_labour
from dictate.mentions.narration import Narration, segments_of
from dictate.writeup.working_time import labour_of

CASES = tomllib.loads((Path(__file__).parent / "cases" / "labour.toml").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize(("text", "start", "end", "hours"), CASES)
def test_sentence(text: str, start: str, end: str, hours: float) -> None:
    labour = labour_of(find_labour(Narration.from_text(text)))
    got = (labour.start or "", labour.end or "", labour.hours or 0) if labour else ("", "", 0)
    assert got[:2] == (start, end)
    assert got[2] == pytest.approx(hours, abs=0.02)


def test_travel_and_breaks_are_kept_apart() -> None:
    text = "Eight to noon, minus a half hour lunch, plus forty minutes drive."
    labour = labour_of(find_labour(Narration.from_text(text)))
    assert labour is not None
    assert (labour.hours, labour.break_hours) == (3.5, 0.5)
    assert labour.travel_hours == pytest.approx(40 / 60, abs=0.001)


def test_clock_and_duration_that_do_not_agree_are_flagged() -> None:
    labour = labour_of(find_labour(Narration.from_text("Nine to eleven. Four hours labor.")))
    assert labour is not None
    assert labour.review


@pytest.mark.parametrize(
    ("text", "end"),
    [
        ("High side left one forty, right two twenty. In at one, out at four forty.", "16:40"),
        ("Left barrel left one forty, right one sixty.", None),
        ("Capped it, left one forty.", "13:40"),
    ],
)
def test_a_left_side_is_no_leaving(text: str, end: str | None) -> None:
    times = [m.clock for m in find_labour(Narration.from_text(text)) if m.kind == "end"]
    assert times == ([end] if end else [])


def test_a_pressure_in_front_of_when_i_left_is_no_time() -> None:
    """Digits that are read as a pressure are no time of day, and a time with its colon stays one."""
    text = "Walk-in cooler, R-404A. Suction 18, head 210 when I left. Got there at 8:15, left at 10:30."
    found = find(list(segments_of([text], "c1")))
    assert [(r.value, r.unit) for r in found.readings] == [(18, "psi"), (210, "psi")]
    assert [(m.kind, m.clock) for m in found.labour] == [("start", "08:15"), ("end", "10:30")]


@pytest.mark.parametrize(
    ("opening", "closing", "start", "end"),
    [
        (
            "Twenty past one, corner shop.",
            "Told her so. Ten to five, three and a half hours.",
            "13:20",
            "16:50",
        ),
        ("Ten fifty, closet on the top floor.", "Told him so. Ten past noon, hour twenty.", "10:50", "12:10"),
        ("One forty, rain on the roof.", "Told him so. Two fifty, one hour ten.", "13:40", "14:50"),
        ("Eight ten, creamery.", "Told him so. Nine twenty-five. Hour and a quarter.", "08:10", "09:25"),
    ],
)
def test_the_told_hours_prove_two_times_that_nothing_names(
    opening: str, closing: str, start: str, end: str
) -> None:
    talk = "Bottle cooler does not cool. Fan motor was stuck. Put a new one in. Box came down to 38."
    labour = labour_of(find_labour(Narration.from_text(f"{opening} {talk} {closing}")))
    assert labour is not None
    assert (labour.start, labour.end) == (start, end)
