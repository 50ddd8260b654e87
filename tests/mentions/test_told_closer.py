"""A machine named by a general word and then by its kind (invented talk; no outside source)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of
from dictate.writeup.machines import Machines


def _machines(text: str) -> list[str | None]:
    found = find(list(segments_of([text], "c1")))
    return [m.type for m in Machines(found.equipment).machines]


@pytest.mark.parametrize(
    ("said", "types"),
    [
        ("Ice machine at the market, it's the big flaker. Suction is 28.", ["ice flaker"]),
        ("Freezer down at the school. Walk-in freezer, the one by the kitchen.", ["walk-in freezer"]),
        ("Cooler at the deli isn't cold. It's the sandwich prep table by the door.", ["prep table"]),
        ("AC at the dentist is not cooling. It's a five ton rooftop. Suction 98.", ["rooftop unit"]),
        ("Freezer's fine, the walk-in freezer is warm. Box 28.", ["freezer", "walk-in freezer"]),
        ("Walk-in freezer and the display case. The freezer's at minus 10, the case at 38.",
         ["walk-in freezer", "display case"]),
        ("Ice machine number one, head 215. Ice machine number two, head 240.", ["ice machine", "ice machine"]),
    ],
)  # fmt: skip
def test_a_closer_name_is_no_second_machine(said: str, types: list[str]) -> None:
    assert _machines(said) == types
