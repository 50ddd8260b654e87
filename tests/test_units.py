"""Units against pint, NIST SP 811 and UCUM."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dictate import units

# NIST Special Publication 811 (2008), appendix B: conversion factors.
NIST = [
    (1, "psi", "kPa", 6.894757),
    (1, "inHg", "kPa", 3.386389),
    (1, "bar", "kPa", 100.0),
    (1, "mbar", "Pa", 100.0),
    (1, "lb", "kg", 0.45359237),
    (1, "oz", "g", 28.349523125),
    (1, "in", "mm", 25.4),
    (1, "ft", "in", 12.0),
    (212, "degF", "degC", 100.0),
    (-40, "degC", "degF", -40.0),
    (18, "delta_degF", "delta_degC", 10.0),
    (1000, "micron", "Pa", 133.322),
]


@pytest.mark.parametrize(("value", "unit", "to", "result"), NIST)
def test_published_factors(value: float, unit: str, to: str, result: float) -> None:
    assert units.convert(value, unit, to) == pytest.approx(result, rel=1e-5)


def test_a_micron_is_a_vacuum_and_no_length() -> None:
    with pytest.raises(Exception, match="micron"):
        units.convert(500, "micron", "mm")


def test_a_difference_is_no_temperature() -> None:
    assert units.convert(9, "delta_degF", "delta_degC") == pytest.approx(5)
    assert units.convert(9, "degF", "degC") == pytest.approx(-12.777, abs=1e-3)


@given(st.floats(-1e6, 1e6), st.sampled_from([("psi", "kPa"), ("lb", "g"), ("degF", "degC"), ("inHg", "Pa")]))
def test_there_and_back(value: float, pair: tuple[str, str]) -> None:
    assert units.convert(units.convert(value, *pair), pair[1], pair[0]) == pytest.approx(
        value, rel=1e-9, abs=1e-6
    )


# UCUM codes are read by an independent parser; the curly-brace annotation of rpm is dropped by it, and
# the gauge or absolute reference is a field of the record, not of the unit.
@pytest.mark.parametrize(
    "unit", sorted(set(units.UCUM) - {"rpm", "delta_degF", "delta_degC", "degF", "degC"})
)
def test_ucum_codes_mean_what_the_registry_means(unit: str) -> None:
    from ucumvert import PintUcumRegistry

    ureg = PintUcumRegistry()
    said = ureg.from_ucum(units.UCUM[unit])
    if unit == "inHg":
        # The parser takes this code for a column at 60 degF; UCUM defines it by the density of 133.322 kPa to
        # the metre (UCUM, table 40), as the registry does. That it is read as a pressure is what is left to check.
        assert said.is_compatible_with("pascal")
        return
    ours = units.registry().Quantity(1, units._PINT[unit])
    assert float(ours.to_base_units().magnitude) == pytest.approx(
        float((1 * said).to_base_units().magnitude), rel=1e-4
    )


def test_each_environment_keeps_its_own_parsed_units() -> None:
    """What pint keeps names the files of the environment it was made in, which may be gone tomorrow."""
    one, other = (units._cache_folder(Path(f"/somewhere/{name}/pint")) for name in ("old", "new"))
    assert one != other
    assert one.parent == other.parent


def test_units_that_cannot_be_kept_are_read_all_the_same(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    blocked = tmp_path / "a file"
    blocked.write_text("")
    monkeypatch.setattr("dictate.units._cache_folder", lambda place: blocked / "units")
    units.registry.cache_clear()
    try:
        assert units.convert(1, "lb", "oz") == pytest.approx(16)
    finally:
        units.registry.cache_clear()
