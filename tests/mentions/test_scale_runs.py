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
