"""Bare numbers whose label or row tells the unit: static pressure of air, sensors in kilohms, a coil's K.

249.0889 Pa is one inch of water: NIST SP 811, Appendix B.8 (conventional inch of water at 4 degC: 249.089 Pa).
"""

from __future__ import annotations

import pytest

from dictate.mentions import find
from dictate.mentions.narration import segments_of


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Rooftop unit. ESP 0.62, supply air 55, return 74.", ["154.435 Pa", "55 degF", "74 degF"]),
        ("Supply static 0.35, return static 0.28.", ["87.1811 Pa", "69.7449 Pa"]),
        ("Ducted split, external static 45, airflow good. Suction 8 bar.", ["45 Pa", "8 bar"]),
        ("Standing pressure 140, static 140 on both sides.", ["140 psi"] * 3),
        ("All in kilohms. Box sensor 32.6, coil sensor 28.1.", ["32600 ohm", "28100 ohm"]),
        ("Head 14 bar. Inlet valve coil 3.9 K, subcooling 4 K.", ["14 bar", "3900 ohm", "4 delta_degC"]),
    ],
)
def test_unit_of_the_label(text: str, values: list[str]) -> None:
    readings = find(list(segments_of([text], "c1"))).readings
    assert [f"{r.value:g} {r.unit}" for r in readings] == values


def test_air_static_is_marked_for_review() -> None:
    reading = find(list(segments_of(["Total static 0.81."], "c1"))).readings[0]
    assert reading.quantity == "pressure" and reading.reference == "differential"
    assert any("inches of water" in reason for reason in reading.review)
