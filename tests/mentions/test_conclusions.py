"""Causes, complaints and recommendations are what was said, and only where something was."""

from __future__ import annotations

import pytest

from dictate.mentions.conclusions import find_conclusions, find_remarks
from dictate.mentions.narration import Narration

RUN_ON = "box was warm and the fan quit and i had the panel off and the lamp was out and so on "


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("The drain pump motor is seized.", ["The drain pump motor is seized"]),
        ("The blower motor snapped its shaft.", ["The blower motor snapped its shaft"]),
        ("New gasket snapped right in.", []),
        ("Lid snapped on again.", []),
        ("The valve was told to open.", []),
        (f"{RUN_ON} so that's the", []),
    ],
)
def test_causes(text: str, told: list[str]) -> None:
    assert [c.text.rstrip(".") for c in find_conclusions(Narration.from_text(text))] == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Customer says it squeals at night.", ["complaint"]),
        ("They need a new door, quoted.", ["recommendation"]),
        ("Door seals ought to be replaced.", ["recommendation"]),
        ("Filters should get changed in spring.", ["recommendation"]),
        ("Milk at seven when it ought to be at three.", []),
        ("It needs to be thirty-six in there.", []),
        ("Windings, they should be equal.", []),
        ("Looks like it ought to.", []),
        ("It ought to hold 50.", []),
    ],
)
def test_remarks(text: str, told: list[str]) -> None:
    assert [r.kind for r in find_remarks(Narration.from_text(text))] == told


def test_words_that_only_announce_a_complaint_are_none() -> None:
    assert find_remarks(Narration.from_text(f"{RUN_ON} and then the lady says , i went up on the roof")) == []
