"""The last word on an amount or a value, a refrigerant by its place, and rows that are read again. Own sentences."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.movements import find_movements
from dictate.mentions.narration import Narration
from dictate.mentions.refrigerants.named import find_refrigerants
from dictate.record.transcript import Segment, Word

AMOUNTS = [
    ("Filled in 38 grams, scale says 38.1.", "in 38.1 g"),
    ("Put back two hundred grams. One ninety, the scale's just updated. One ninety.", "in 190 g"),
    ("1.6 kilos in. 1.62 by the scale actually, write 1.62.", "in 1.62 kg"),
    ("Recovered 26 ounces. Later it was still pulling and it finished at 29. So 29.", "out 29 oz"),
    ("Put in 9 pounds 2 ounces. No, the hose is in that already. It's 9 pounds flat.", "in 9 lb"),
    ("Pulled the rest of the gas out, weighed it, eight hundred grams.", "out 800 g"),
    ("Charged twelve ounces. Superheat eleven, so twelve is fine.", "in 12 oz"),
    ("Charged it with 450 grams. Tag says 455. Close enough, so 450.", "in 450 g"),
]

REFRIGERANTS = [
    ("Reach-in. Suction fourteen, head two seventy, 404. Discharge line hot.", ["R-404A"]),
    ("High one two thirty-five, low twenty-eight. Four oh four. Compressor's eleven two.", ["R-404A"]),
    ("They're both on four oh four. Sight glass is clear.", ["R-404A"]),
    ("The pie case. It's two ninety, a hundred and fifteen grams.", ["R-290"]),
    ("Walk-in. Suction sixty, head two fifty, two ninety. Then it tripped.", []),
    ("Supply four hundred and three, four oh five, four oh four.", []),
]

VALUES = [
    (
        "Red 14.2 amps, white 14.5, blue eleven. Blue again, jaws weren't shut, 14.3.",
        [11],
        [14.2, 14.5, 14.3],
    ),
    ("Outlet minus eighteen. Was it minus eighteen? Minus sixteen on the second look.", [-18, -18], [-16]),
    ("Walk-in. Suction eighteen inches. Eighteen pounds, pounds. Head two twenty-six.", [18], [18, 226]),
    ("Glycol out minus four, I correct, minus three point eight.", [-4], [-3.8]),
    ("Compressor 8.8 amps. Compressor 11.9 now, it was 8.8 like I said.", [], [8.8, 11.9, 8.8]),
]


def _read(text: str) -> list[tuple[float | None, str | None, bool]]:
    segment = Segment(clip="c", text=text, words=[Word(text=w) for w in text.split()])
    return [(r.value, r.unit, r.role == "retracted") for r in find([segment]).readings]


@pytest.mark.parametrize(("text", "want"), AMOUNTS)
def test_last_word_on_an_amount(text: str, want: str) -> None:
    moved = find_movements(Narration.from_text(text))
    told = " | ".join(f"{'in' if m.direction == 'charged' else 'out'} {m.value:g} {m.unit}" for m in moved)
    assert told == want


@pytest.mark.parametrize(("text", "names"), REFRIGERANTS)
def test_refrigerant_by_its_place(text: str, names: list[str]) -> None:
    assert [n.name for n in find_refrigerants(Narration.from_text(text))] == names


@pytest.mark.parametrize(("text", "back", "stand"), VALUES)
def test_value_said_anew(text: str, back: list[float], stand: list[float]) -> None:
    values = _read(text)
    assert [v for v, _, retracted in values if retracted] == back
    assert [v for v, _, retracted in values if not retracted] == stand


def test_row_of_kinds_read_again() -> None:
    text = "Duty: suction four bar, discharge 17, current 7.2 amps. Standby: 3.9, 17.5, 7.4 amps."
    assert [u for _, u, _ in _read(text)] == ["bar", "bar", "A", "bar", "bar", "A"]


def test_times_of_day_are_no_pressures() -> None:
    text = "Nitrogen. Four hundred. Started the clock at one oh two. One thirty-two, four hundred still."
    assert [v for v, _, _ in _read(text)] == [400, 400]


def test_pulled_down_in_a_time() -> None:
    text = "Walk-in cooler. Took it from seventy to thirty eight in forty minutes."
    assert [(v, u) for v, u, _ in _read(text)][:2] == [(70, "degF"), (38, "degF")]
