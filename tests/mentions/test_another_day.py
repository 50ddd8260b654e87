"""Parts that are put off to another day are planned, whatever the verb."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


def steps(text: str) -> list[tuple[str, str]]:
    return [(s.step, s.status) for s in find(list(segments_of([text], "c1"))).steps]


@pytest.mark.parametrize(
    "said",
    [
        "Filters are shot, six of them, changing those next trip.",
        "The belt's worn, replacing it tomorrow.",
        "The upstairs unit gets a new contactor tomorrow.",
        "Both evaporators get new fan motors on the next visit.",
    ],
)
def test_what_comes_another_day_is_planned(said: str) -> None:
    assert steps(said) == [("part_replaced", "planned")]


def test_what_is_done_now_is_done() -> None:
    assert ("part_replaced", "done") in steps("Pulled the old belt, changing it now, and it runs quiet.")
    assert steps("The manager gets a new invoice tomorrow.") == []
    assert steps("The compressor gets hot when it runs tomorrow's load.") == []
