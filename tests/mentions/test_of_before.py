"""A value that a later sentence says is of before, beside the one of now."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


@pytest.mark.parametrize(
    ("text", "roles"),
    [
        (
            "Suction fifty-one, which I want at sixty, and the head two ten. I have told it badly, suction was "
            "sixty-two, fifty-one was the reading of last month.",
            {51: ["retracted", "earlier"], 210: ["measured"], 62: ["measured"]},
        ),
        ("Suction is fifty-one. Last month suction was fifty-one as well.", {51: ["measured", "earlier"]}),
        (
            "Suction is fifty-one. Last month the head was fifty-one above what it is now, two hundred.",
            {51: ["measured"]},
        ),
    ],
)
def test_what_is_of_before_after_all_gives_way(text: str, roles: dict[float, list[str]]) -> None:
    readings = find(list(segments_of([text], "visit"))).readings
    for value, want in roles.items():
        assert [r.role for r in readings if r.value == value][: len(want)] == want
    now = [r for r in readings if r.retracts]
    assert all(r.review for r in now), "what stands in its place has a reason to look"
    assert bool(now) == ("retracted" in roles[51])
