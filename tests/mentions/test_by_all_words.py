"""What the text encoder's opinion changes, and that nothing is changed without a reason to look at the value."""

from __future__ import annotations

from typing import Any

import pytest

from dictate.mentions import find
from dictate.mentions.by_all_words import not_taken, what, where
from dictate.mentions.by_all_words.numbers import numbers_of
from dictate.mentions.movements import sounds_moved
from dictate.mentions.movements.sounds_moved import BY_WORDS
from dictate.mentions.narration import Narration, segments_of
from dictate.mentions.second_opinion import Told, encoder, told
from dictate.mentions.spoken_numbers import find_numbers
from dictate.mentions.units_system import UnitSystem
from dictate.record.mentions import Mentions
from dictate.record.visit import Reading
from dictate.writeup.stages import stages_by_words

US = UnitSystem("us", True)


def mentions_of(text: str) -> tuple[Narration, Mentions]:
    segments = list(segments_of([text], "c1"))
    return Narration(segments), find(segments)


def saying(heads: dict[str, dict[float, dict[str, float]]]) -> Any:
    """Return an encoder that says of each number, by its value, what it is told to say: {head: {value: shares}}."""

    def of(narration: Narration, head: str) -> dict[int, Told]:
        out = {}
        for x in find_numbers(narration):
            shares = heads.get(head, {}).get(x.value)
            if shares:
                best = max(range(len(shares)), key=list(shares.values()).__getitem__)
                out[x.start] = Told(list(shares), list(shares.values()), best)
        return out

    return of


def test_a_component_and_a_point_are_put_right_only_against_what_is_unlikely(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    narration, mentions = mentions_of("Compressor 7.1 amps. Box 38 degrees.")
    placed = numbers_of(narration, mentions.readings)
    for share, own, wanted in (
        (0.95, 0.001, "condenser fan motor"),
        (0.85, 0.15, "compressor"),
        (0.45, 0.001, "compressor"),
    ):
        heads = {
            "component": {7.1: {"compressor": own, "condenser fan motor": share}},
            "point": {7.1: {"": 1.0}},
        }
        monkeypatch.setattr(where, "told", saying(heads))
        readings = [r.model_copy() for r in mentions.readings]
        where.settle_where(narration, readings, placed)
        assert readings[0].component == wanted
        assert (readings[1].component, readings[1].point) == (None, "box")


def _settled(monkeypatch: pytest.MonkeyPatch, text: str, heads: Any, words: Any = None) -> list[Reading]:
    narration, mentions = mentions_of(text)
    monkeypatch.setattr(where, "told", saying(heads))
    monkeypatch.setattr(where, "told_of_words", lambda _: words or {})
    where.settle_where(narration, mentions.readings, numbers_of(narration, mentions.readings))
    return mentions.readings


@pytest.mark.parametrize(("share", "wanted"), [(0.99, "suction"), (0.8, None)])
def test_a_running_pressure_shortly_behind_a_test_has_its_place(
    monkeypatch: pytest.MonkeyPatch, share: float, wanted: str | None
) -> None:
    heads = {
        "component": {200: {"": 1.0}, 44: {"": 1.0}},
        "point": {200: {"": 1.0}, 44: {"suction": share, "": 0.001}},
    }
    text = "Nitrogen to 200 psi, held 200 psi for twenty minutes. In the end 44 psi."
    assert [r.point for r in _settled(monkeypatch, text, heads) if r.value == 44] == [wanted]


@pytest.mark.parametrize(("part", "wanted"), [("", "supply"), ("condenser coil", "condenser air out")])
def test_a_point_that_the_encoder_has_no_name_for_is_another_one_where_it_is_sure(
    monkeypatch: pytest.MonkeyPatch, part: str, wanted: str
) -> None:
    heads = {
        "component": {70: {part: 0.9, "compressor": 0.1}},
        "point": {70: {"supply": 0.99, "": 0.01}},
    }
    (reading,) = _settled(monkeypatch, "Condenser air out 70 degrees.", heads)
    assert reading.point == wanted


def test_a_value_told_of_three_legs_is_on_one_part(monkeypatch: pytest.MonkeyPatch) -> None:
    heads = {"component": {208: {"disconnect switch": 0.95, "contactor": 0.01}}, "point": {208: {"L1": 1.0}}}
    readings = _settled(monkeypatch, "Contactor: 208 volts on all three legs.", heads)
    assert [r.component for r in readings] == ["disconnect switch"] * 3
    assert len({r.point for r in readings}) == 3


@pytest.mark.parametrize(("share", "wanted"), [(0.95, "evaporator fan motor"), (0.6, "compressor")])
def test_what_a_meter_said_without_a_number_is_on_the_part_of_all_the_words(
    monkeypatch: pytest.MonkeyPatch, share: float, wanted: str
) -> None:
    text = "Compressor: nothing to ground."
    narration, _ = mentions_of(text)
    place = (narration.lowers.index("nothing"), narration.lowers.index("nothing") + 1)
    names = ["compressor", "evaporator fan motor"]
    words = {"component": {place: Told(names, [0.01, share], 1)}}
    (reading,) = _settled(monkeypatch, text, {}, words)
    assert (reading.state, reading.component) == ("open", wanted)


def test_a_value_told_of_three_legs_keeps_its_places() -> None:
    narration, mentions = mentions_of("Contactor: 208 volts on all three legs.")
    assert len(mentions.readings) == 3
    assert numbers_of(narration, mentions.readings) == {}


@pytest.mark.parametrize(
    ("number", "unit", "value"),
    [("32.5 K ohms", "ohm", 32500), ("two hours", "h", 2), ("38 degrees", "degF", 38)],
)
def test_the_number_of_a_reading_is_found_in_its_words(number: str, unit: str, value: float) -> None:
    narration, mentions = mentions_of(f"Number 4 sensor on the box reads {number}.")
    placed = numbers_of(narration, mentions.readings)
    starts = {x.start: x for x in find_numbers(narration)}
    for i, start in placed.items():
        own = starts[start].value
        assert mentions.readings[i].value in (own, own * 1000, own * 60)


@pytest.mark.parametrize(
    ("shares", "role", "left"),
    [
        ({"temperature|measured": 0.01, "temperature|not now": 0.99}, "target", 2),
        ({"temperature|measured": 0.01, "temperature|retracted": 0.99}, "retracted", 2),
        ({"temperature|measured": 0.02, "none|none": 0.98}, None, 1),
        ({"temperature|measured": 0.4, "temperature|not now": 0.6}, "measured", 2),
        ({"temperature|measured": 0.99, "temperature|not now": 0.01}, "measured", 2),
    ],
)
def test_a_value_is_no_reading_of_now_where_the_words_leave_no_doubt(
    monkeypatch: pytest.MonkeyPatch, shares: dict[str, float], role: str | None, left: int
) -> None:
    narration, mentions = mentions_of("Head 240 psi. Box 38 degrees.")
    monkeypatch.setattr(what, "told", saying({"class": {38.0: shares}}))
    placed = numbers_of(narration, mentions.readings)
    out = what.settle_what(narration, mentions.readings, placed, US)
    assert len(out) == left
    boxes = [r for r in out if r.quantity == "temperature"]
    assert [r.role for r in boxes] == ([] if role is None else [role])
    for r in boxes:
        assert bool(r.review) == (role != "measured")
        assert r.stage is None or role == "measured"


def test_what_was_thrown_out_comes_back_with_a_reason(monkeypatch: pytest.MonkeyPatch) -> None:
    narration, mentions = mentions_of("Box is set for 38 degrees.")
    assert [r.role for r in mentions.readings] == ["target"]
    monkeypatch.setattr(what, "told", saying({"class": {38.0: {"temperature|measured": 0.995}}}))
    placed = numbers_of(narration, mentions.readings)
    (reading,) = what.settle_what(narration, mentions.readings, placed, US)
    assert reading.role == "measured"
    assert "not as target" in reading.review[0]


def test_a_bare_number_of_another_quantity_keeps_the_first_as_a_candidate(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    narration, mentions = mentions_of("Suction 38. Head 240.")
    monkeypatch.setattr(what, "told", saying({"class": {38.0: {"temperature|measured": 0.995}}}))
    placed = numbers_of(narration, mentions.readings)
    first: Reading = what.settle_what(narration, mentions.readings, placed, US)[0]
    assert (first.quantity, first.unit, first.reference) == ("temperature", "degF", None)
    assert [(c.value, c.unit) for c in first.candidates] == [(38.0, "psi")]
    assert first.review


def test_a_unit_that_was_said_is_never_overruled(monkeypatch: pytest.MonkeyPatch) -> None:
    narration, mentions = mentions_of("Suction 38 psi. Head 240 psi.")
    monkeypatch.setattr(what, "told", saying({"class": {38.0: {"temperature|measured": 0.999}}}))
    placed = numbers_of(narration, mentions.readings)
    first = what.settle_what(narration, mentions.readings, placed, US)[0]
    assert (first.quantity, first.unit, first.review) == ("pressure", "psi", [])


def test_a_stage_is_told_by_the_words_around_a_value(monkeypatch: pytest.MonkeyPatch) -> None:
    narration, mentions = mentions_of("Box 38 degrees, head 240 psi, suction 60 psi.")
    heads = {
        "stage": {
            38.0: {"as_found": 0.9995, "as_left": 0.0005},
            240.0: {"as_found": 0.1, "as_left": 0.9},
            60.0: {"as_found": 0.6, "as_left": 0.4},
        }
    }
    monkeypatch.setattr(where, "told", saying(heads))
    placed = numbers_of(narration, mentions.readings)
    told_of = where.stages_told(narration, mentions.readings, placed)
    assert [(t.stage, t.certain) for t in told_of] == [("as_found", True), ("as_left", False)]
    readings = [
        r.model_copy(update={"stage": "as_left", "id": f"r{i}"}) for i, r in enumerate(mentions.readings)
    ]
    readings[1].stage = readings[2].stage = None
    stages_by_words(readings, told_of, set())
    assert [r.stage for r in readings] == ["as_found", "as_left", None]
    # What belongs to a test has no stage of its own.
    readings[1].stage = None
    stages_by_words(readings, told_of, {"r1"})
    assert readings[1].stage is None


def moved(monkeypatch: pytest.MonkeyPatch, text: str, heads: dict[float, dict[str, float]]) -> list[str]:
    monkeypatch.setattr(sounds_moved, "told", saying({"way": heads}))
    return [
        f"{m.direction} {m.value:g} {m.unit}{'?' if m.review else ''}"
        + "".join(f" not {a.value:g}" for a in m.retracted)
        for m in find(list(segments_of([text], "c1"))).movements
    ]


IN = {"charged": 0.95, "none": 0.04, "recovered": 0.01}
OUT = {"charged": 0.01, "none": 0.04, "recovered": 0.95}
NONE = {"charged": 0.001, "none": 0.998, "recovered": 0.001}


@pytest.mark.parametrize(
    ("text", "heads", "wanted"),
    [
        # Nothing tells what became of it: it is taken by the words around it, with a reason.
        ("The other four ounces, slowly.", {4.0: IN}, ["charged 4 oz?"]),
        ("The other four ounces, slowly.", {4.0: {"charged": 0.7, "none": 0.3, "recovered": 0.0}}, []),
        # A verb told it, and the words around it do not speak against it.
        ("Weighed in two pounds.", {2.0: IN}, ["charged 2 lb"]),
        ("Weighed in two pounds.", {2.0: {"charged": 0.1, "none": 0.9, "recovered": 0.0}}, ["charged 2 lb"]),
        # The other way round is taken only where that is next to certain.
        ("Weighed in two pounds.", {2.0: OUT}, ["recovered 2 lb?"]),
        # A number without a unit is of the unit of the amount beside it; without one it stays out.
        (
            "Weighed in two pounds. Gave it another point nine.",
            {2.0: IN, 0.9: IN},
            ["charged 2 lb", "charged 0.9 lb?"],
        ),
        ("Gave it another point nine.", {0.9: IN}, []),
        # The same amount said again is no second one.
        ("Weighed in two pounds. Two pounds, done.", {2.0: IN}, ["charged 2 lb"]),
        # What sounds taken back goes with what stands in its place.
        (
            "Recovered six ounces. The display has five point two ounces on it.",
            {6.0: NONE, 5.2: OUT},
            ["recovered 5.2 oz? not 6"],
        ),
    ],
)
def test_amounts_by_the_words_around_them(
    monkeypatch: pytest.MonkeyPatch, text: str, heads: dict[float, dict[str, float]], wanted: list[str]
) -> None:
    assert moved(monkeypatch, text, heads) == wanted


def test_the_weights_of_a_bottle_are_no_amounts(monkeypatch: pytest.MonkeyPatch) -> None:
    text = "Recovered the charge, cylinder was 22 pounds before and 25.5 pounds after."
    assert moved(monkeypatch, text, {22.0: OUT, 25.5: OUT}) == ["recovered 3.5 lb"]


def test_what_was_added_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sounds_moved, "told", saying({"way": {4.0: IN}}))
    (movement,) = find(list(segments_of(["The other four ounces, slowly."], "c1"))).movements
    assert BY_WORDS in movement.review


def test_of_a_few_words_nothing_is_said() -> None:
    assert told(Narration.from_text("Box 38 degrees."), "class") == {}
    visit = Narration.from_text("Walk-in cooler, box at 38 degrees when I got here and nothing iced. " * 6)
    assert {x.start for x in find_numbers(visit)} == set(told(visit, "class"))
    for head in encoder.HEADS:
        for read in told(visit, head).values():
            assert sum(read.shares) == pytest.approx(1, abs=1e-3)
            assert read.share == max(read.shares) == read.of(read.best)
    assert told(visit, "class")[next(iter(told(visit, "class")))].of("no such class") == 0.0


def test_nothing_is_filled_in_where_a_value_may_have_no_place(monkeypatch: pytest.MonkeyPatch) -> None:
    narration, mentions = mentions_of("It draws 6.8 amps. Air at 38 degrees. Superheat 9.")
    heads = {
        "component": {x: {"compressor": 0.9, "": 0.0} for x in (6.8, 38.0, 9.0)},
        "point": {6.8: {"L1": 0.99, "": 0.0}, 38.0: {"box": 0.99, "": 0.0}, 9.0: {"suction": 0.99, "": 0.0}},
    }
    monkeypatch.setattr(where, "told", saying(heads))
    readings = [r.model_copy(update={"point": None, "component": None}) for r in mentions.readings]
    where.settle_where(narration, readings, numbers_of(narration, readings))
    assert [(r.component, r.point) for r in readings] == [("compressor", None), (None, "box"), (None, None)]


def test_amps_far_from_those_of_the_same_part_are_asked_about() -> None:
    text = "Evaporator fan draws 0.12 amps. Evaporator fan {}."
    for said, asked in (("4.1", True), ("0.13", False), ("0.9", False)):
        last = mentions_of(text.format(said))[1].readings[-1]
        assert (last.quantity, last.component) == ("current", "evaporator fan motor")
        assert any("of the same part" in why for why in last.review) == asked


def test_what_no_rule_took_is_taken_with_a_reason_where_its_unit_goes_with_what_is_said_of_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = "Came back and it says thirty-four pounds, 12 percent, 20 minutes, 9."
    segments = list(segments_of([text], "c1"))
    heads = {
        "class": {
            34.0: {"pressure|measured": 0.98},
            12.0: {"current|measured": 0.99},  # no unit of it was said
            20.0: {"duration|measured": 0.9},  # not sure enough
            9.0: {"superheat|measured": 0.99},
        }
    }
    monkeypatch.setattr(not_taken, "told", saying(heads))
    got = not_taken.with_not_taken(Narration(segments), Mentions(), US)
    assert [(r.quantity, r.value, r.unit, r.unit_assumed) for r in got] == [
        ("pressure", 34, "psi", False),
        ("superheat", 9, "delta_degF", True),
    ]
    assert all(r.review == [not_taken.NOT_TAKEN] and r.confidence <= 0.5 for r in got)
    assert got[0].heard == "thirty-four pounds"
    heads["class"][3.0] = {"voltage|measured": 0.99}  # it counts the legs
    legs = list(segments_of(["Tested it dead on all three."], "c1"))
    assert not_taken.with_not_taken(Narration(legs), Mentions(), US) == []
    # What was taken for something is not taken again, and the order is that of the words.
    again = not_taken.with_not_taken(Narration(segments), Mentions(readings=[got[1]]), US)
    assert [r.value for r in again] == [34, 9]
