"""What the encoder learns from: marks of snippets, and the ways of amounts."""

from __future__ import annotations

import tomllib

import pytest

from dictate.record.visit import Reading
from tests.benchmarks.encoder.data import SNIPPETS, way_of
from tests.benchmarks.encoder.marks import unmarked
from tests.benchmarks.steps.told import told

MEANINGS = (" not now", " retracted")
UNKNOWN = {"airflow", "humidity", "level", "ph"}
"""Marked too, though the record has no such quantity: their class is not learned."""


def test_marks_come_off_and_keep_their_words() -> None:
    text, marks = unmarked(
        "Box was {temperature: forty}, now ({temperature: 36}), set {temperature not now: thirty five}."
    )
    words = text.split()
    assert text == "Box was forty, now (36), set thirty five."
    assert [(" ".join(words[a : b + 1]), kind) for a, b, kind in marks] == [
        ("forty,", "temperature"),
        ("(36),", "temperature"),
        ("thirty five.", "temperature not now"),
    ]


def test_every_snippet_is_well_marked() -> None:
    quantities = set(Reading.model_fields["quantity"].annotation.__args__)  # type: ignore[union-attr]
    pieces = [
        (path.stem, piece)
        for path in sorted(SNIPPETS.glob("*.toml"))
        for piece in tomllib.loads(path.read_text(encoding="utf-8"))["pieces"]
    ]
    assert len(pieces) > 1000
    for name, piece in pieces:
        text, marks = unmarked(piece)
        assert "{" not in text, piece
        assert "}" not in text, piece
        for first, last, kind in marks:
            assert 0 <= first <= last < len(text.split()), piece
            plain = kind
            for meaning in MEANINGS:
                plain = plain.removesuffix(meaning)
            assert plain in (quantities | UNKNOWN | {"+", "-"}), piece
            assert plain in "+-" or not name.startswith("moved"), piece


def test_every_step_snippet_names_steps_of_the_record() -> None:
    from dictate.record.visit import Step

    codes = set(Step.model_fields["step"].annotation.__args__)  # type: ignore[union-attr]
    statuses = {"done", "planned", "not_done"}
    assert {code for _, steps in told() for code, _ in steps} <= codes
    assert {status for _, steps in told() for _, status in steps} <= statuses


@pytest.mark.parametrize(
    ("numbers", "moved", "ways"),
    [
        # "two pounds six ounces"; "the label says three"
        ([(1, 1, 2.0), (3, 3, 6.0), (8, 8, 3.0)], [(0, 4, 38.0, "charged")], ["charged", "charged", "none"]),
        ([(1, 1, 2.0), (3, 3, 6.0)], [(0, 4, 2.375, "charged")], ["charged", "charged"]),
        ([(1, 1, 1.0), (3, 3, 200.0)], [(0, 4, 1.2, "recovered")], ["recovered", "recovered"]),
        # One number is the amount, the other in its words is not: "three pounds, no, four"
        ([(1, 1, 3.0), (3, 3, 4.0)], [(0, 4, 4.0, "charged")], ["none", "charged"]),
        # A difference of a bottle's weights: "from nineteen three to twenty fourteen"
        ([(1, 1, 19.1875), (3, 3, 20.875)], [(0, 4, 1.6875, "recovered")], ["none", "none"]),
        # A single number that was misheard: "2 pounds for ounces"
        ([(1, 1, 2.0)], [(0, 4, 36.0, "charged")], ["charged"]),
    ],
)
def test_which_way_the_amount_of_a_number_went(
    numbers: list[tuple[int, int, float]], moved: list[tuple[int, int, float, str]], ways: list[str]
) -> None:
    assert [way_of(n, numbers, moved) for n in numbers] == ways
