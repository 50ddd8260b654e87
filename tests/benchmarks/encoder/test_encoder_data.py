"""What the encoder learns from: marks of snippets, and the ways of amounts."""

from __future__ import annotations

import tomllib

import pytest

from dictate.mentions.handled.by_all_words import NOTHING
from dictate.record.visit import Reading
from tests.benchmarks.encoder.data import SNIPPETS, _parted, way_of
from tests.benchmarks.encoder.marks import unmarked
from tests.benchmarks.parts import told as parts
from tests.benchmarks.steps.told import told
from tests.narrations.labels import Labelled, Row

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
            plain = _parted(kind)[0] or ""
            for meaning in MEANINGS:
                plain = plain.removesuffix(meaning)
            assert plain in (quantities | UNKNOWN | {"+", "-"}), piece
            assert plain in "+-" or not name.startswith("moved"), piece


def test_every_part_snippet_says_what_became_of_a_part() -> None:
    from dictate.record.visit import Part

    actions = set(Part.model_fields["action"].annotation.__args__)  # type: ignore[union-attr]
    kinds = {named.told for _, some in parts.snippets() for named in some}
    assert len(list(parts.snippets())) > 500
    for kind in kinds - {NOTHING}:
        action, _, status = (kind or "").partition(parts.BETWEEN)
        assert action in actions, kind
        assert status in {"done", "planned", "not_done"}, kind


def test_a_label_is_put_where_its_part_is_named() -> None:
    """Where one name can be meant it is this one; where several can, it is one of these and open which."""

    def told(text: str, name: str) -> list[tuple[str | None, int | None]]:
        row = Row({"name": name, "action": "replaced"})
        labelled = Labelled("zz", "", text, {}, text.split(), [], [], [], [row], [], [], {}, [], [])
        return [(x.told, x.one_of) for x in parts.told_of(labelled)]

    once = "Box at fifty. Fan motor draws two amps. Potential relay, its brother was in the van."
    assert told(once, "potential relay") == [(NOTHING, None), ("replaced|done", None)]
    twice = once + " That potential relay sits on the left."
    assert told(twice, "potential relay") == [(NOTHING, None), (None, 0), (None, 0)]


def test_a_mark_can_say_where_the_value_was_read() -> None:

    assert _parted("current; agitator motor; L1") == (
        "current",
        {"component": "agitator motor", "point": "L1"},
    )
    assert _parted("temperature not now; ; box") == ("temperature not now", {"component": "", "point": "box"})
    assert _parted("temperature; ?; suction") == ("temperature", {"point": "suction"})
    assert _parted("pressure") == ("pressure", {})
    assert _parted(None) == (None, {})


def test_the_parts_that_snippets_name_are_parts_of_the_vocabulary() -> None:
    from dictate.mentions.labels.named_components import components

    marks = [
        mark
        for path in sorted(SNIPPETS.glob("where*.toml"))
        for piece in tomllib.loads(path.read_text(encoding="utf-8"))["pieces"]
        for _, _, mark in unmarked(piece)[1]
    ]
    named = {told["component"] for mark in marks if (told := _parted(mark)[1]) and told.get("component")}
    assert len(marks) > 1500
    assert named <= components().keys()


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
