"""Talk that ends anywhere, as a recording that was stopped: it is read, whatever its last word is."""

from __future__ import annotations

from random import Random

import pytest

from dictate.mentions import find
from dictate.mentions.narration import Narration, segments_of
from tests.narrations.labels import all_of

ENDS = [
    "Suction was 4 and I thought the hose was the gauge",
    "Two breakers in the box. Put in a new drier, part number",
    "New motor has the",
    "Three coolers in a row. Rack A runs them. Cases",
    "The motor for it was ordered",
    "Two compressors, one is quiet. Tomorrow I change it. Nothing",
    "Windings of the fan 42 on the",
    "Plate says model UF one forty,",
    "Compressor 9.4 amps. Scale weight for a slab, a kilo",
    "Shut it off three times, waiting",
    "Ten to nine till",
    "Owensboro, Kentucky",
    "Tagged it out. Swapped number three",
]


@pytest.mark.parametrize("text", ENDS)
def test_the_last_word_has_none_behind_it(text: str) -> None:
    find(list(segments_of([text], "c1")))


def test_what_breaks_off_is_heard_as_it_was_said() -> None:
    narration = Narration.from_text("Suction reads 40 psi")
    assert narration.lowers[-1] == "."
    assert narration.heard(2, len(narration.tokens)) == "40 psi"
    assert Narration.from_text("Suction reads 40 psi.").heard(2, 5) == "40 psi."


def broken_off(step: int, cuts: int) -> list[str]:
    """Return pieces of narrations that end at any word, most of them without their mark."""
    out = []
    for labelled in all_of("develop")[::step]:
        random = Random(labelled.name)
        words = labelled.text.split()
        for _ in range(cuts):
            end = random.randrange(2, len(words) + 1)
            piece = words[max(0, end - random.randint(1, 45)) : end]
            if random.random() < 0.7:
                piece[-1] = piece[-1].rstrip(".,;?!") or "and"
            out.append(" ".join(piece))
    return out


def crashes(pieces: list[str]) -> list[str]:
    out = []
    for piece in pieces:
        try:
            find(list(segments_of([piece], "c1")))
        except Exception as error:
            out.append(f"{type(error).__name__}: {piece}")
    return out


def test_pieces_of_narrations_are_read() -> None:
    assert crashes(broken_off(step=40, cuts=6)) == []


@pytest.mark.long
def test_very_many_pieces_of_narrations_are_read() -> None:
    assert crashes(broken_off(step=1, cuts=12)) == []
