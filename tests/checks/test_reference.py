"""Saturation, water and unit conversions against published tables and other libraries."""

from __future__ import annotations

import pytest

from dictate.checks.facts import number_in
from dictate.checks.refrigerants import (
    bubble_psia,
    dew_psia,
    sublimation_pascal,
    water_boils_f,
)
from dictate.units import STANDARD_ATMOSPHERE_PSI, convert

# Producers' pressure-temperature charts, psig: R-22 at 40 and 110 °F, R-134a at 20 °F.
PURE = [("R-22", 40, 68.6), ("R-22", 110, 226.4), ("R-134a", 20, 18.4)]


@pytest.mark.parametrize(("refrigerant", "deg_f", "psig"), PURE)
def test_pure_refrigerants_against_charts(refrigerant: str, deg_f: float, psig: float) -> None:
    assert dew_psia(refrigerant, deg_f) == pytest.approx(psig + STANDARD_ATMOSPHERE_PSI, abs=0.1)
    assert bubble_psia(refrigerant, deg_f) == pytest.approx(psig + STANDARD_ATMOSPHERE_PSI, abs=0.1)


@pytest.mark.parametrize(
    ("refrigerant", "cas"),
    [
        ("R-22", "75-45-6"),
        ("R-12", "75-71-8"),
        ("R-32", "75-10-5"),
        ("R-290", "74-98-6"),
        ("R-600a", "75-28-5"),
    ],
)
@pytest.mark.parametrize("deg_f", [-20, 20, 70, 110])
def test_pure_refrigerants_against_the_vdi_heat_atlas(refrigerant: str, cas: str, deg_f: float) -> None:
    # VDI Heat Atlas (2010), D3.1, Wagner equations of vapour pressure, as tabulated in the library `chemicals`.
    from chemicals.vapor_pressure import Psat_data_VDI_PPDS_3, Wagner

    row = Psat_data_VDI_PPDS_3.loc[cas]
    kelvin = (deg_f + 459.67) / 1.8
    pascal = Wagner(kelvin, row["Tc"], row["Pc"], row["A"], row["B"], row["C"], row["D"])
    assert dew_psia(refrigerant, deg_f) == pytest.approx(pascal / 6894.757, rel=0.01)


# Producers' charts, psig: bubble (liquid) and dew (vapour).
CHART = [
    ("R-404A", 85, 189.5, 187.5, 0.3),
    ("R-410A", 110, 366.5, None, 0.3),
]


@pytest.mark.parametrize(("refrigerant", "deg_f", "bubble", "dew", "allowed"), CHART)
def test_blends_against_charts(
    refrigerant: str, deg_f: float, bubble: float, dew: float | None, allowed: float
) -> None:
    low, high = dew_psia(refrigerant, deg_f), bubble_psia(refrigerant, deg_f)
    assert low is not None and high is not None
    assert high - STANDARD_ATMOSPHERE_PSI == pytest.approx(bubble, abs=allowed)
    if dew is not None:
        assert low - STANDARD_ATMOSPHERE_PSI == pytest.approx(dew, abs=allowed)


@pytest.mark.parametrize(
    "refrigerant",
    ["R-404A", "R-407A", "R-407C", "R-410A", "R-448A", "R-449A", "R-452A", "R-454B", "R-454C", "R-455A"],
)
@pytest.mark.parametrize("deg_f", [-20, 20, 70, 110])
def test_bubble_pressure_is_never_below_dew_pressure(refrigerant: str, deg_f: float) -> None:
    low, high = dew_psia(refrigerant, deg_f), bubble_psia(refrigerant, deg_f)
    assert low is not None and high is not None
    assert high >= low - 1e-6


# IAPWS-IF97 (revised release R7-97, 2012), table 35: saturation pressure at 300, 500 and 600 K.
@pytest.mark.parametrize(("kelvin", "megapascal"), [(300, 0.353658941e-2), (500, 0.263889776e1)])
def test_water_against_the_verification_values_of_if97(kelvin: float, megapascal: float) -> None:
    micron = megapascal * 1e6 / 101325 * 760000
    assert water_boils_f(micron) == pytest.approx(kelvin * 1.8 - 459.67, abs=0.05)


def test_water_against_the_industrial_formulation_of_coolprop() -> None:
    from CoolProp.CoolProp import PropsSI

    for micron in (5000, 10000, 25400, 100000, 760000):
        pascal = micron * 101325 / 760000
        kelvin = PropsSI("T", "P", pascal, "Q", 0, "IF97::Water")
        assert water_boils_f(micron) == pytest.approx(kelvin * 1.8 - 459.67, abs=0.05)


def test_water_against_the_library_chemicals() -> None:
    # Its own implementation of IAPWS-95 and of IAPWS R14-08(2011).
    from chemicals.iapws import iapws11_Psub, iapws95_Psat

    for deg_f in (34, 70, 120, 212):
        micron = iapws95_Psat((deg_f + 459.67) / 1.8) / 101325 * 760000
        assert water_boils_f(micron) == pytest.approx(deg_f, abs=0.02)
    for deg_f in (-40, -12, 0, 30):
        micron = iapws11_Psub((deg_f + 459.67) / 1.8) / 101325 * 760000
        assert water_boils_f(micron) == pytest.approx(deg_f, abs=0.02)


def test_ice_against_the_verification_value_of_iapws() -> None:
    # IAPWS R14-08(2011), table 3: 8.94735 Pa at 230 K.
    assert sublimation_pascal(230) == pytest.approx(8.94735, rel=1e-5)


@pytest.mark.parametrize(
    ("micron", "deg_f"),
    [
        (760000, 212.0),
        (25400, 79.0),
        (5000, 34.2),
        (4579, 32.0),
        (1500, 8.7),
        (1000, 0.8),
        (500, -12.1),
        (250, -24.3),
    ],
)
def test_boiling_point_of_water_at_a_vacuum(micron: float, deg_f: float) -> None:
    # IAPWS-95 and IAPWS R14-08(2011); 500 micron at -12 °F is printed in dehydration manuals.
    assert water_boils_f(micron) == pytest.approx(deg_f, abs=0.1)


# NIST SP 811 (2008), appendix B.8: factors to the SI unit.
NIST = [
    ("psi", "Pa", 6894.757), ("inHg", "Pa", 3386.389), ("bar", "Pa", 1e5), ("mbar", "Pa", 100.0),
    ("micron", "Pa", 0.1333224), ("lb", "kg", 0.45359237), ("oz", "kg", 0.02834952), ("ft", "mm", 304.8),
    ("in", "mm", 25.4), ("h", "s", 3600.0), ("delta_degF", "delta_degC", 5 / 9),
]  # fmt: skip


@pytest.mark.parametrize(("unit", "to", "factor"), NIST)
def test_conversions_against_nist_factors(unit: str, to: str, factor: float) -> None:
    assert number_in(1.0, unit, to) == pytest.approx(factor, rel=2e-6)


@pytest.mark.parametrize(
    ("unit", "to"),
    [(u, t) for u, t, _ in NIST]
    + [("degF", "degC"), ("degC", "degF"), ("psi", "inHg"), ("kPa", "psi"), ("g", "oz")],
)
@pytest.mark.parametrize("value", [-40.0, 0.0, 1.0, 37.5, 1200.0])
def test_the_quick_conversion_is_that_of_the_unit_registry(unit: str, to: str, value: float) -> None:
    assert number_in(value, unit, to) == pytest.approx(convert(value, unit, to), rel=1e-9, abs=1e-9)


def test_pressure_units_against_the_library_fluids() -> None:
    from fluids import constants

    assert number_in(1, "psi", "Pa") == pytest.approx(constants.psi, rel=1e-9)
    assert STANDARD_ATMOSPHERE_PSI * constants.psi == pytest.approx(constants.atm, abs=0.01)
    assert number_in(1, "micron", "Pa") == pytest.approx(constants.mmHg / 1000, rel=1e-6)
    assert number_in(1, "lb", "kg") == pytest.approx(constants.lb, rel=1e-9)


@pytest.mark.parametrize(("deg_f", "deg_c"), [(32, 0), (212, 100), (-40, -40), (98.6, 37)])
def test_temperatures(deg_f: float, deg_c: float) -> None:
    # NIST SP 811, appendix B.8: t(°C) = (t(°F) - 32) / 1.8.
    assert number_in(deg_f, "degF", "degC") == pytest.approx(deg_c, abs=1e-9)
