"""Pressure tests and evacuations: what bare numbers and times in them are. The sentences are our own."""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of

T = tuple[float, str]

CASES: list[tuple[str, list[T]]] = [
    (
        "Put one fifty on it with the room at seventy two degrees. Thirty minutes later it was one forty nine and "
        "a half at seventy. Soaped both.",
        [(150, "psi"), (72, "degF"), (30, "min"), (149.5, "psi"), (70, "degF")],
    ),
    (
        "Three hundred of nitrogen, forty five minutes, still three hundred, seventy out there at start and finish. "
        "Pump to two eighty, shut off, three sixty after twenty minutes. Weighed in three pounds.",
        [(45, "min"), (300, "psi"), (70, "degF"), (280, "micron"), (360, "micron"), (20, "min")],
    ),
    (
        "Pressure test with nitrogen: twelve bar, down to eleven point four after thirty minutes. Second go: twelve, "
        "forty-five minutes, twelve. Charged 1.2 kg.",
        [(12, "bar"), (11.4, "bar"), (30, "min"), (45, "min"), (12, "bar")],
    ),
    (
        "Ten bar of nitrogen, it's nineteen in here. Right, forty minutes later and it's nine point nine, nineteen still.",
        [(10, "bar"), (19, "degC"), (40, "min"), (9.9, "bar"), (19, "degC")],
    ),
    (
        "Nitrogen in it. Pulled that down to two fifty, blanked it off, ten minutes later four ten. Weighed in a pound.",
        [(250, "micron"), (10, "min"), (410, "micron")],
    ),
    (
        "Blew two hundred pounds in it, lost five in ten minutes. Back up to two hundred, twenty five minutes, steady.",
        [(200, "psi"), (10, "min"), (200, "psi"), (25, "min")],
    ),
    (
        "Pressure: 150 PSI, 30 minutes, 150. Vacuum: 350, 10 minutes, 390. Charge: 2 pounds 4 ounces.",
        [(150, "psi"), (30, "min"), (150, "psi"), (350, "micron"), (10, "min"), (390, "micron")],
    ),
    (
        "Pressured her with OFN to twenty five bar. Next morning it was twenty four point six with the shed at nineteen.",
        [(25, "bar"), (24.6, "bar"), (19, "degC")],
    ),
    (
        "Vacuum pump on. Valve shut. Five minutes four fifty, ten minutes four seventy, fifteen four seventy five.",
        [(5, "min"), (450, "micron"), (10, "min"), (470, "micron"), (15, "min"), (475, "micron")],
    ),
    (
        "Nitrogen at two hundred psi, and it stood. Now I'm pulling down and I'm at three ten. Valved off ten minutes "
        "and it's three seventy.",
        [(200, "psi"), (310, "micron"), (10, "min"), (370, "micron")],
    ),
]


@pytest.mark.parametrize(("text", "wanted"), CASES, ids=[t[:40] for t, _ in CASES])
def test_numbers_of_a_test(text: str, wanted: list[T]) -> None:
    found = find(list(segments_of([text], "c1"))).readings
    assert {(r.value, r.unit) for r in found if r.role == "measured"} == set(wanted), found


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("Vacuum pump on at ten twenty. Charged three pounds.", 1020),
        ("Nitrogen in, from quarter to eleven till quarter past. Leak spray on the joints.", 11),
        ("Charged two pounds. Caps on. Twenty minutes later suction was forty, head two ten.", 20),
        ("Brazed it with nitrogen flowing, three joints, fifty minutes of that.", 50),
        ("No vacuum. Fifty minutes. Labour.", 50),
    ],
)
def test_what_is_no_value_of_a_test(text: str, value: float) -> None:
    found = find(list(segments_of([text], "c1"))).readings
    assert not [r for r in found if r.value == value and not r.review], found
