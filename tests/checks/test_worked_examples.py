"""Worked examples of electricity, pressure and the refrigerant circuit, each with the published source it rests on.

W01 to W24 and W31 to W44 of the list that the project keeps; those of law and procedure stand in
test_worked_examples_law.py. A figure without a published source is marked `common practice`.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from dictate.checks.electrical.capacitor_under_load import microfarad
from dictate.checks.electrical.voltage_unbalanced import derating, unbalance
from dictate.checks.facts import Facts, absolute_psi, gauge_psi, number_in
from dictate.checks.refrigerants import bubble_f, bubble_psia, dew_f, dew_psia, glides
from dictate.checks.run import by_id
from dictate.checks.tightness import expected_psi
from dictate.record.visit import Check, Reading
from dictate.units import STANDARD_ATMOSPHERE_PSI
from tests.checks.build import record


def run(rule: str, **case: Any) -> list[Check]:
    found = by_id(rule)
    assert found is not None
    return list(found.run(Facts(record(case))))


def reading(**fields: Any) -> dict[str, Any]:
    return fields


# NEMA MG 1-2016, 12.45: unbalance is the largest deviation from the mean over the mean. The examples W01 to W03
# are printed in motor application guides that quote the clause.
@pytest.mark.parametrize(
    ("volts", "percent", "wrong"),
    [
        pytest.param((452, 464, 455), 1.53, 2.63, id="W01"),
        pytest.param((462, 463, 455), 1.087, None, id="W02"),
        pytest.param((480, 476, 472), 0.84, 1.68, id="W03"),
        pytest.param((208, 212, 198), 3.88, None, id="W04"),
        pytest.param((230, 232, 225), 1.75, None, id="W05"),
    ],
)
def test_voltage_unbalance_by_nema(volts: tuple[float, ...], percent: float, wrong: float | None) -> None:
    assert unbalance(list(volts)) == pytest.approx(percent, abs=0.01)
    if wrong is not None:  # maximum less minimum over the mean is another figure, and not the definition
        mean = sum(volts) / 3
        assert 100 * (max(volts) - min(volts)) / mean == pytest.approx(wrong, abs=0.01)
    points = ("L1-L2", "L2-L3", "L1-L3")
    readings = [reading(quantity="voltage", value=v, point=p) for v, p in zip(volts, points, strict=True)]
    (check,) = run("voltage.unbalanced", readings=readings)
    assert check.computed["unbalance"].value == pytest.approx(percent, abs=0.01)
    assert check.outcome == ("problem" if percent > 2 else "ok")


def test_w04_derating_by_nema_figure_14_1() -> None:
    # NEMA MG 1-2016, figure 14-1, as tabulated: 0.95 at 2 %, 0.88 to 0.90 at 3 %, 0.82 at 4 %, 0.75 at 5 %.
    assert derating(3.88) == pytest.approx(0.83, abs=0.02)
    assert derating(2) == pytest.approx(0.95, abs=0.005)
    assert derating(1) == 1
    assert derating(5.1) is None
    # Extra heating of about twice the square of the unbalance (from memory): 30 % here.
    assert 2 * unbalance([208, 212, 198]) ** 2 == pytest.approx(30, abs=0.5)


def test_w06_current_unbalance_common_practice() -> None:
    legs = zip((20, 22, 18), ("L1", "L2", "L3"), strict=True)
    readings = [reading(quantity="current", value=a, point=p, component="compressor") for a, p in legs]
    (check,) = run("current.unbalanced", readings=readings)
    assert check.computed["unbalance"].value == pytest.approx(10.0, abs=0.01)
    assert check.outcome == "unsure"


@pytest.mark.parametrize(("run_start", "outcome"), [(5.0, "ok"), (5.1, "ok"), (6.9, "problem")])
def test_w07_windings_in_series(run_start: float, outcome: str) -> None:
    # Kirchhoff: the meter reads both windings in series; 5 % or 0.5 ohm is common practice.
    values = (("common-run", 1.2), ("common-start", 3.8), ("run-start", run_start))
    readings = [reading(quantity="resistance", value=v, point=p, component="compressor") for p, v in values]
    (check,) = run("winding.sum-mismatch", readings=readings)
    assert check.outcome == outcome
    assert check.computed["sum"].value == pytest.approx(5.0, abs=1e-6)


def test_w08_gauge_to_absolute() -> None:
    # NIST SP 811, appendix B.8: the standard atmosphere is 101 325 Pa and 1 psi is 6 894.757 Pa.
    said = Reading(quantity="pressure", value=20, unit="psi", reference="gauge")
    assert absolute_psi(said) == pytest.approx(34.70, abs=0.005)
    # At 5 000 ft the standard atmosphere of ICAO Doc 7488 is 12.23 psi. The record knows no altitude, so the
    # program works at sea level and says so; this is what that assumption is worth.
    at_5000_ft = STANDARD_ATMOSPHERE_PSI * (1 - 6.8756e-6 * 5000) ** 5.2559
    assert at_5000_ft + 20 == pytest.approx(32.23, abs=0.01)


@pytest.mark.parametrize(
    ("inches", "micron"),
    [
        pytest.param(29, 23368, id="W09-29"),
        pytest.param(28, 48768, id="W09-28"),
        pytest.param(25, 124968, id="W09-25"),
    ],
)
def test_w09_inches_of_vacuum_in_micron(inches: float, micron: float) -> None:
    # NIST SP 811, appendix B.8: conventional inch and millimetre of mercury; barometer 29.92 inHg.
    left = 29.92 - inches
    assert number_in(left, "inHg", "micron") == pytest.approx(micron, abs=15)
    said = Reading(quantity="pressure", value=inches, unit="inHg", reference="vacuum_depth")
    psia = absolute_psi(said)
    assert psia is not None
    assert number_in(psia, "psi", "micron") == pytest.approx(micron, abs=60)


@pytest.mark.parametrize(
    ("inches", "psia", "psig"),
    [(10, 9.78, -4.91), (15, 7.33, -7.37), (4, 12.73, -1.96)],
    ids=["W10-10", "W10-15", "W10-4"],
)
def test_w10_recovery_depths(inches: float, psia: float, psig: float) -> None:
    # NIST SP 811, appendix B.8: 1 inHg is 3 386.389 Pa.
    said = Reading(quantity="pressure", value=inches, unit="inHg", reference="vacuum_depth")
    assert absolute_psi(said) == pytest.approx(psia, abs=0.01)
    assert gauge_psi(said) == pytest.approx(psig, abs=0.01)


def test_w11_twenty_five_millimetres_absolute() -> None:
    # 40 CFR 82.156, table 1, names 25 mmHg absolute for low-pressure appliances.
    micron = 25_000.0
    assert number_in(micron, "micron", "inHg") == pytest.approx(0.984, abs=0.001)
    assert 29.92 - number_in(micron, "micron", "inHg") == pytest.approx(28.94, abs=0.01)
    assert number_in(micron, "micron", "psi") == pytest.approx(0.483, abs=0.001)


def test_w12_five_hundred_micron() -> None:
    # NIST SP 811, appendix B.8: 1 mmHg is 133.3224 Pa, and 1 micron a thousandth of it.
    assert number_in(500, "micron", "Pa") == pytest.approx(66.66, abs=0.01)
    assert number_in(500, "micron", "inHg") == pytest.approx(0.01969, abs=1e-5)
    assert number_in(500, "micron", "psi") == pytest.approx(0.00967, abs=1e-5)


@pytest.mark.parametrize(
    ("psig", "from_f", "to_f", "psig_then"),
    [
        pytest.param(150, 70, 60, 146.89, id="W13"),
        pytest.param(300, 90, 70, 288.55, id="W14"),
        pytest.param(500, 70, 40, 470.85, id="W15"),
        pytest.param(250, 75, 55, 240.10, id="W16"),
        pytest.param(400, 65, 85, 415.81, id="W17"),
    ],
)
def test_nitrogen_test_pressure_by_the_gas_law(
    psig: float, from_f: float, to_f: float, psig_then: float
) -> None:
    # Gay-Lussac's law on absolute pressures and temperatures; nitrogen is near ideal at these pressures.
    assert expected_psi(psig, from_f, to_f) == pytest.approx(psig_then, abs=0.05)


@pytest.mark.parametrize(
    ("print_", "measured", "percent"), [(45, 41.2, -8.4), (7.5, 7.02, -6.4)], ids=["W18", "W19"]
)
def test_run_capacitor_against_its_print(print_: float, measured: float, percent: float) -> None:
    # IEC 60252-1: the marking gives capacitance and tolerance; 6 % is printed here.
    readings = [
        reading(quantity="capacitance", value=print_, component="run capacitor", role="rated"),
        reading(quantity="concentration", value=6, unit="%", component="run capacitor", role="rated"),
        reading(quantity="capacitance", value=measured, component="run capacitor"),
    ]
    (check,) = run("capacitor.out-of-tolerance", readings=readings)
    assert check.outcome == "problem"
    assert check.computed["deviation"].value == pytest.approx(percent, abs=0.05)
    assert check.computed["least"].value == pytest.approx(0.94 * print_, abs=0.001)


def test_w22_capacitor_under_load() -> None:
    # C = I / (2 pi f V); the 2652 of the trade's formula is 1e6 / (2 pi 60), and 3183 that of 50 Hz.
    assert microfarad(4.1, 370) == pytest.approx(29.4, abs=0.05)
    assert 1e6 / (2 * math.pi * 60) == pytest.approx(2652, abs=1)
    assert 1e6 / (2 * math.pi * 50) == pytest.approx(3183, abs=1)


def test_w23_stored_energy_of_a_capacitor() -> None:
    # E = C V² / 2 at the peak of 370 V.
    energy = 0.5 * 45e-6 * (370 * math.sqrt(2)) ** 2
    assert energy == pytest.approx(6.16, abs=0.01)


@pytest.mark.parametrize(
    ("line", "limit"), [(208, 6.24), (240, 7.2), (460, 13.8)], ids=["W24-208", "W24-240", "W24-460"]
)
def test_w24_contactor_limit(line: float, limit: float) -> None:
    # Refrigeration Service Engineers Society, service application manual on contactors: 3 % of line voltage.
    for lost, outcome in ((limit - 0.1, "ok"), (limit + 0.1, "problem")):
        readings = [
            reading(quantity="voltage", value=line, component="contactor", point="line"),
            reading(quantity="voltage", value=line - lost, component="contactor", point="load"),
        ]
        (check,) = run("contactor.voltage-drop", readings=readings)
        assert check.outcome == outcome
        assert check.computed["limit"].value == pytest.approx(limit, abs=1e-6)


def _circuit(refrigerant: str, point: str, psig: float, line: float) -> dict[str, Any]:
    return {
        "equipment": [{"refrigerant": refrigerant}],
        "readings": [
            reading(quantity="pressure", value=psig, point=point, equipment="u1"),
            reading(quantity="temperature", value=line, point=point, equipment="u1"),
        ],
    }


# Saturation from the reference equations of state: Tillner-Roth and Baehr 1994 (R-134a), Lemmon 2003 (R-404A,
# R-407C, R-410A), Lemmon et al. 2009, Buecker and Wagner 2006 (R-600a), Kamei et al. 1995, and
# the mixture models of CoolProp 8 for R-448A. Superheat from dew, subcooling from bubble.
@pytest.mark.parametrize(
    ("refrigerant", "psig", "line", "dew", "superheat"),
    [
        pytest.param("R-134a", 20, 30, 22.2, 7.8, id="W31"),
        pytest.param("R-404A", 45, 25, 11.7, 13.3, id="W32"),
        pytest.param("R-448A", 35, 25, 11.9, 13.1, id="W33"),
        pytest.param("R-407C", 65, 52, 41.3, 10.7, id="W34"),
        pytest.param("R-290", 35, 22, 13.6, 8.4, id="W35"),
        pytest.param("R-600a", 2, 25, 16.8, 8.2, id="W36"),
        pytest.param("R-410A", 118, 50, 39.8, 10.2, id="W37"),
    ],
)
def test_superheat_from_dew(refrigerant: str, psig: float, line: float, dew: float, superheat: float) -> None:
    assert dew_f(refrigerant, psig + STANDARD_ATMOSPHERE_PSI) == pytest.approx(dew, abs=0.1)
    (check,) = run("superheat.out-of-range", **_circuit(refrigerant, "suction", psig, line))
    assert check.computed["superheat"].value == pytest.approx(superheat, abs=0.5)


@pytest.mark.parametrize(
    ("refrigerant", "psig", "line", "wrong"),
    [("R-404A", 45, 25, 14.4), ("R-448A", 35, 25, 24.3), ("R-407C", 65, 52, 21.8)],
    ids=["W32", "W33", "W34"],
)
def test_the_bubble_temperature_would_give_a_wrong_superheat(
    refrigerant: str, psig: float, line: float, wrong: float
) -> None:
    bubble = bubble_f(refrigerant, psig + STANDARD_ATMOSPHERE_PSI)
    assert bubble is not None
    assert line - bubble == pytest.approx(wrong, abs=0.1)
    case = _circuit(refrigerant, "suction", psig, line)
    case["readings"].append(reading(quantity="superheat", value=round(wrong), equipment="u1"))
    (check,) = run("superheat.stated-mismatch", **case)
    if glides(refrigerant, psig + STANDARD_ATMOSPHERE_PSI):
        assert check.outcome == "unsure"
        assert "bubble" in check.message
    else:
        assert check.outcome == "ok"


def test_w38_superheat_with_the_pressure_of_another_place() -> None:
    # Printed example of a trade journal: outlet 30 °F with 23 °F saturated there is 7 °F of superheat; with the
    # 15 °F that belong to the pressure at the compressor it would read 15 °F.
    for said, outcome in ((7, "ok"), (15, "unsure")):
        readings = [
            reading(quantity="temperature", value=30, point="evaporator outlet"),
            reading(quantity="temperature", value=23, point="saturated suction"),
            reading(quantity="superheat", value=said),
        ]
        (check,) = run("superheat.stated-mismatch", readings=readings)
        assert check.computed["superheat"].value == pytest.approx(7)
        assert check.outcome == outcome


@pytest.mark.parametrize(
    ("refrigerant", "psig", "line", "bubble", "subcooling"),
    [
        pytest.param("R-404A", 250, 92, 103.8, 11.8, id="W39"),
        pytest.param("R-448A", 230, 88, 95.9, 7.9, id="W40"),
        pytest.param("R-22", 226.4, 100, 110.0, 10.0, id="W41"),
    ],
)
def test_subcooling_from_bubble(
    refrigerant: str, psig: float, line: float, bubble: float, subcooling: float
) -> None:
    assert bubble_f(refrigerant, psig + STANDARD_ATMOSPHERE_PSI) == pytest.approx(bubble, abs=0.1)
    (check,) = run("subcooling.out-of-range", **_circuit(refrigerant, "liquid", psig, line))
    assert check.computed["subcooling"].value == pytest.approx(subcooling, abs=0.5)


def test_w40_the_dew_temperature_would_give_a_wrong_subcooling() -> None:
    dew = dew_f("R-448A", 230 + STANDARD_ATMOSPHERE_PSI)
    assert dew is not None
    assert dew - 88 == pytest.approx(17.1, abs=0.1)


def test_w42_r404a_against_a_published_chart() -> None:
    # A producer's pressure-temperature chart of R-404A gives 189.5 liquid and 187.5 vapour psig at 85 °F.
    bubble, dew = bubble_psia("R-404A", 85), dew_psia("R-404A", 85)
    assert bubble is not None and dew is not None
    assert bubble - STANDARD_ATMOSPHERE_PSI == pytest.approx(189.5, abs=0.3)
    assert dew - STANDARD_ATMOSPHERE_PSI == pytest.approx(187.5, abs=0.3)


@pytest.mark.parametrize(
    ("head", "suction", "ratio"), [(180, 20, 5.61), (250, 15, 8.91)], ids=["W43-180", "W43-250"]
)
def test_w43_compression_ratio_common_practice(head: float, suction: float, ratio: float) -> None:
    readings = [
        reading(quantity="pressure", value=suction, point="suction"),
        reading(quantity="pressure", value=head, point="discharge"),
    ]
    (check,) = run("compression.ratio-unusual", readings=readings)
    assert check.computed["compression ratio"].value == pytest.approx(ratio, abs=0.01)
    assert check.outcome == "ok"


def test_w44_coil_difference_and_condenser_split_common_practice() -> None:
    readings = [
        reading(quantity="temperature", value=36, point="box"),
        reading(quantity="temperature", value=24, point="saturated suction"),
        reading(quantity="temperature", value=90, point="ambient"),
        reading(quantity="temperature", value=115, point="saturated condensing"),
    ]
    (difference,) = run("evaporator.td-out-of-range", readings=readings)
    (split,) = run("condenser.split-out-of-range", readings=readings)
    assert difference.computed["temperature difference"].value == pytest.approx(12)
    assert split.computed["split"].value == pytest.approx(25)
    assert {difference.outcome, split.outcome} == {"ok"}
