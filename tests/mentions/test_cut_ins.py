"""Where a control cuts in and out, no control named (invented talk; no outside source)."""

from __future__ import annotations

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.record.visit import Reading


def _readings(text: str) -> list[Reading]:
    return find(list(segments_of([text], "c1"))).readings


def test_where_nothing_says_what_is_cut_in_and_out_it_is_asked() -> None:
    found = _readings("Suction is thirty psi. Cut in's at forty-five, cut out's twenty.")
    settings = [r for r in found if r.role == "target"]
    assert [(r.value, r.unit) for r in settings] == [(45, "psi"), (20, "psi")]
    assert all(r.review for r in settings)


def test_a_box_is_cut_in_and_out_in_degrees() -> None:
    found = _readings("Box at 38. Cut in 41, cut out 36.")
    assert [(r.value, r.unit, r.role) for r in found] == [
        (38, "degF", "measured"),
        (41, "degF", "target"),
        (36, "degF", "target"),
    ]
