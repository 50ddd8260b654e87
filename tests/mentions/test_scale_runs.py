"""A scale that is read aloud while gas goes in or comes out (invented talk; no outside source)."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

READ_ALOUD = [
    ("The plate says four pounds two. Going in... one... two... three and a half... four pound two, shut it.",
     ("charged", 4.125, "lb")),
    ("Recovering. Ninety grams, one twenty, one thirty-five. One thirty-five and that's the lot.",
     ("recovered", 135.0, "g")),
    ("Plate has 2.4 kilos. Charging. 1 kilo. 1.6. 2.2. 2.4, closing.", ("charged", 2.4, "kg")),
    ("Tag wants eleven ounces. In as liquid, easy. Four. Seven. Ten... eleven. Shut.", ("charged", 11.0, "oz")),
    ("Jug on the scale. Three. Five. The cook wants his sink back, give me a minute. Eight. Nine ounces. "
     "It's quiet now.", ("recovered", 9.0, "oz")),
    ("Feeding liquid. Two kilos... three point one. Plate's three point one.", ("charged", 3.1, "kg")),
    ("Charge. Two... four... six... six nine, ten, that's her. Plate is six pounds ten.",
     ("charged", 6.625, "lb")),
    ("Taking it all out. Two pounds... five... eight and a half. Eleven pounds. Close.", ("recovered", 11.0, "lb")),
    ("Pull the charge. Scale zeroed. Four ounces. Six and a half. Six and a half, outta twenty.",
     ("recovered", 6.5, "oz")),
    ("Whatever's left goes in the recovery jug. Two ounces, three. Call it three.", ("recovered", 3.0, "oz")),
]  # fmt: skip


@pytest.mark.parametrize(("said", "moved"), READ_ALOUD)
def test_the_last_number_of_a_scale_read_aloud_is_the_amount(
    said: str, moved: tuple[str, float, str]
) -> None:
    found = find(list(segments_of([said], "c1")))
    assert [(m.direction, m.value, m.unit) for m in found.movements] == [moved]
    numbers = {r.value for r in found.readings if r.role == "measured"}
    assert not numbers  # what the scale showed on the way is no reading of a meter


WITH_A_GAUGE = [
    ("Plate says four pounds. Recovery tank, zero the scale. Two ounces. Seven. Head's two forty. Twelve ounces, "
     "two twenty-five. One pound one, two ten. Stop.", ("recovered", 1.0625, "lb"), {240, 225, 210}),
    ("Bottle on the scale. A hundred grams... one eighty. Suction's nought point four. Two ninety, it clears. "
     "Three twenty. That's it. Shut. Three forty gram on the display.", ("charged", 340.0, "g"), {0.4}),
    ("Bottle on the scale. Twenty ounces. Twenty-two. Twenty-three. Suction sixty. Sixty-five. Head two ten.",
     ("charged", 23.0, "oz"), {60, 65, 210}),
    ("Bottle on the scale. Eighty grams. One fifty. Glass still foams. Two hundred. Glass clear at two ten, shut.",
     ("charged", 210.0, "g"), set()),
]  # fmt: skip


@pytest.mark.parametrize(("said", "moved", "gauge"), WITH_A_GAUGE)
def test_a_gauge_or_the_glass_is_looked_at_on_the_way(
    said: str, moved: tuple[str, float, str], gauge: set[float]
) -> None:
    found = find(list(segments_of([said], "c1")))
    assert [(m.direction, m.value, m.unit) for m in found.movements] == [moved]
    assert {r.value for r in found.readings if r.role == "measured"} == gauge


NO_WEIGHING = [
    "R-404A, tag charge thirty ounces. Somebody sold them a bad core. I take everything out, ninety. Fifty. Ten.",
    "Charging done. Suction sixty, then sixty-four, head two ten.",
    "Going in at nine, out at eleven.",
    "I'm going in the box. Thirty-eight, thirty-nine on the probe.",
    "Recovering took an hour. Box forty, forty-two.",
    "When we charge it, two pounds, three, four, that's what it'll want.",
    "Bottle open. Running now. Twenty, thirty, forty on the low side.",
]


@pytest.mark.parametrize("said", NO_WEIGHING)
def test_numbers_of_something_else_are_no_weighing(said: str) -> None:
    assert not find(list(segments_of([said], "c1"))).movements


def test_an_open_end_is_asked_about() -> None:
    found = find(list(segments_of(["Plate says nine ounces. Going in. Three. Five. Eight ounces."], "c1")))
    (moved,) = found.movements
    assert moved.value == 8
    assert any("read aloud" in r for r in moved.review)


def test_a_unit_of_another_amount_is_told() -> None:
    found = find(list(segments_of(["Plate says 650 grams. Going in. Two hundred. Five hundred. Six fifty, "
                                   "shut."], "c1")))  # fmt: skip
    (moved,) = found.movements
    assert (moved.value, moved.unit) == (650, "g")
    assert any("the unit was not said" in r for r in moved.review)


@pytest.mark.parametrize(
    ("said", "moved"),
    [
        (
            "Recovering. Three hundred grams. Eight hundred. One point four. One point seven, that's the lot.",
            1.7,
        ),
        ("Recovering. Three hundred grams. Eight hundred. One point four kilos.", 1.4),
        ("Recovering. Three hundred grams. Eight hundred. One point one. Two, that's the lot.", 2.0),
    ],
)
def test_grams_that_go_on_in_kilos(said: str, moved: float) -> None:
    (only,) = find(list(segments_of([said], "c1"))).movements
    assert (only.value, only.unit) == (moved, "kg")
    assert only.review


ONLY_A_SCALE = [
    ("Plate says fourteen ounces. Pulling what's left. Scale. Two. Four. Five and a half, that's it. Then a vacuum, 400 microns.",
     ("recovered", 5.5, "oz")),
    ("Plate says fourteen ounces. Vacuum's at 400 microns. Scale again. Three. Eight. Twelve. Fourteen, shut.",
     ("charged", 14.0, "oz")),
    ("Six hundred on the sticker. Vacuum's at 400 microns. Bottle upside down. Two hundred grams, four, five, "
     "five ninety... six hundred, off.", ("charged", 600.0, "g")),
]  # fmt: skip


@pytest.mark.parametrize(("said", "moved"), ONLY_A_SCALE)
def test_the_work_around_a_scale_tells_which_way_it_moved(said: str, moved: tuple[str, float, str]) -> None:
    (only,) = find(list(segments_of([said], "c1"))).movements
    assert (only.direction, only.value, only.unit) == moved
    assert only.review


@pytest.mark.parametrize(
    "said",
    [
        "Vacuum held at 400. The scale said nine ounces, my mate had written four three on the ticket.",
        "New battery in the scale, four screws, five minutes. Seven to go.",
    ],
)
def test_a_scale_that_is_only_named_opens_no_weighing(said: str) -> None:
    assert not [m for m in find(list(segments_of([said], "c1"))).movements if "read aloud" in str(m.review)]


TO_THE_PLATE = [
    # the plate's charge is reached, whatever held it up on the way
    ("Fridge, R-134a, plate says six ounces. Vacuum 280 microns. Liquid. Two. Three and a half. Five. Six. Shut.",
     ("charged", 6.0, "oz")),
    ("R-407C, label nine point five kilos. Charging, liquid. Two kilos. Four. Stop, bottle's empty. Six. Eight. "
     "Nine point five. Closed.", ("charged", 9.5, "kg")),
    ("Five pounds, by the sticker. Two, liquid, machine off. Breaker on. Three with it running. Four and a half. "
     "Five on the scale.", ("charged", 5.0, "lb")),
    ("Plate six pounds. In liquid. Two. Four and a half. Running. Suction one ten. One eighteen. Five. Six. Closed.",
     ("charged", 6.0, "lb")),
    # what came on top is added
    ("Plate says nine and a half. Ounces now. Three in. Another three. Six. And two... and a half. Eight five. "
     "And one. Nine and a half on the scale.", ("charged", 9.5, "oz")),
    ("Weighing in. Three pounds. Another two. Five. Another one and a half. Six and a half. Shut.",
     ("charged", 6.5, "lb")),
    ("Weighing in. Three pounds. Another two. Shut it off.", ("charged", 5.0, "lb")),
    # from nought, and a jug that is cracked
    ("Case, propane. Sticker's one fifty grams. Scale on zero. Cracked it. Forty. Ninety. One thirty. One fifty.",
     ("charged", 150.0, "g")),
    ("Vacuum held. Cracked the jug. One pound. One pound eight. Door alarm's going. Two pounds four. "
     "Three pounds two, closed.", ("charged", 3.125, "lb")),
    ("Recovery machine is on, scales on zero, 600 grams, 1.1 kilos, the gulls are screaming at me, 1.9 kilos, 2.05 "
     "and it stopped, valves closed. Plate says 2.4 kilos.", ("recovered", 2.05, "kg")),
]  # fmt: skip


@pytest.mark.parametrize(("said", "moved"), TO_THE_PLATE)
def test_a_weighing_comes_to_what_the_plate_tells(said: str, moved: tuple[str, float, str]) -> None:
    (only,) = find(list(segments_of([said], "c1"))).movements
    assert (only.direction, only.value, only.unit) == moved


NOT_TO_THE_PLATE = [
    "Sticker says five pounds. Amps next. Two. Three. Five. That's it.",
    "Plate says five pounds. Suction. Two. Three. Five.",
    "I'm back on Tuesday. I'll braze it and then weigh in the five and a half on the plate. Windings one, two, four.",
    "Power head has lost its charge. Fan pulls three point two, four point six on its tag. Plate says four pounds.",
]


@pytest.mark.parametrize("said", NOT_TO_THE_PLATE)
def test_numbers_that_end_at_a_plate_by_chance_are_no_weighing(said: str) -> None:
    assert not find(list(segments_of([said], "c1"))).movements


def test_what_stands_behind_a_pause_is_no_weight_where_no_plate_bears_it_out() -> None:
    said = "Label nine point five kilos. Charging, liquid. Two kilos. Four. Stop. Compressor on. Six amps. Eight."
    (only,) = find(list(segments_of([said], "c1"))).movements
    assert only.value == 4
    assert only.review


def test_the_amount_said_once_more_is_no_reading() -> None:
    said = (
        "Recovering. 600 grams, 1.1 kilos, 1.85 and it's stopped, gauge minus 20 kPa, valves closed, so 1.85."
    )
    found = find(list(segments_of([said], "c1")))
    assert [(m.direction, m.value) for m in found.movements] == [("recovered", 1.85)]
    assert [r.value for r in found.readings] == [-20]


def test_a_unit_that_only_the_plate_lends_is_told() -> None:
    said = (
        "Plate is 230 grams. Scale zeroed. In with the liquid. Sixty. A hundred. Two ten. Two thirty. Closed."
    )
    (only,) = find(list(segments_of([said], "c1"))).movements
    assert (only.value, only.unit) == (230, "g")
    assert any("the unit was not said" in r for r in only.review)
