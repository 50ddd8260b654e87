"""Self-corrections: the repair stands, and what was taken back stays as retracted."""

from __future__ import annotations

from typing import Any

import pytest

from tests.mentions.case_files import cases, check, readings


@pytest.mark.parametrize("case", cases("corrections"), ids=lambda c: c["name"])
def test_case(case: dict[str, Any]) -> None:
    """Every shape of correction, and what is none."""
    check(case)


CUES = [
    "no wait", "sorry", "make that", "I mean", "scratch that", "correction", "hang on", "strike that", "excuse me", "my bad",
    "no that's", "check that", "no weight", "oops", "let me correct that", "I misread that", "wait no", "or rather",
]  # fmt: skip


@pytest.mark.parametrize("cue", CUES)
@pytest.mark.parametrize(
    "form", ["Head is 280, {}, 208 and suction 30.", "head is two eighty {} two oh eight suction thirty"]
)
def test_each_cue(cue: str, form: str) -> None:
    """Each way of taking back, with and without punctuation; the neighbour stays untouched."""
    found = [(r.value, r.role, r.point) for r in readings(form.format(cue))]
    assert found == [
        (280, "retracted", "discharge"),
        (208, "measured", "discharge"),
        (30, "measured", "suction"),
    ]


def test_the_repair_names_what_it_repairs() -> None:
    """`retracts` holds the words of the value that was taken back."""
    old, new = readings("Suction 38, no wait, 28.")
    assert new.retracts == old.heard
