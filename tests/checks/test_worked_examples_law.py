"""Worked examples of procedure and law, each against the published rule that its numbers come from."""

from __future__ import annotations

from datetime import date

import pytest

from dictate.checks.facts import Facts
from dictate.checks.leak_law import (
    annualizing,
    charged_before_initial_test,
    cylinder_limit,
    deadlines,
    over,
    recovery_level,
    rolling,
    scope,
    sector,
    small_appliance_share,
    trigger,
)
from dictate.checks.procedure.evacuation_breaks_not_stated import dilution
from dictate.checks.refrigerant_data import KG_PER_LB, co2_equivalent, data
from dictate.checks.safety.protection_oversized import limits
from dictate.checks.vacuum import classify
from dictate.checks.work import jobs
from dictate.record.visit import Equipment
from dictate.vocabulary.load import table
from tests.checks.build import record


def test_w20_cylinder_fill_by_ahri_guideline_k() -> None:
    # AHRI Guideline K: 0.80 x water capacity x specific gravity at 77 °F.
    r404a, r290 = data("R-404A"), data("R-290")
    assert r404a and r290 and r404a.gravity and r290.gravity
    assert cylinder_limit(47.7, r404a.gravity) == pytest.approx(40.0, abs=0.1)
    assert cylinder_limit(47.7, r290.gravity) == pytest.approx(18.8, abs=0.1)
    # The old label rule leaves the density out: 38.2 lb of propane fill 162 % of the volume.
    old = 0.80 * 47.7
    assert old == pytest.approx(38.2, abs=0.05)
    assert 100 * old / (47.7 * r290.gravity) == pytest.approx(162, abs=0.5)


def test_w21_large_cylinder_by_ahri_guideline_k() -> None:
    r22 = data("R-22")
    assert r22 and r22.gravity
    net = cylinder_limit(1000, r22.gravity)
    assert net == pytest.approx(957.6, abs=0.1)
    assert net + 380 == pytest.approx(1337.6, abs=0.1)


@pytest.mark.parametrize(
    ("name", "liquid"), [("R-404A", "R404A"), ("R-134a", "R134a"), ("R-290", "Propane"), ("R-410A", "R410A")]
)
def test_specific_gravities_agree_with_the_equations_of_state(name: str, liquid: str) -> None:
    # CoolProp (Helmholtz equations of state), saturated liquid at 77 °F over water at 62.3 lb/ft3.
    from CoolProp.CoolProp import PropsSI

    density = PropsSI("D", "T", 298.15, "Q", 0, liquid)
    found = data(name)
    assert found and found.gravity == pytest.approx(density / 998.0, rel=0.01)


@pytest.mark.parametrize(
    ("added", "full", "days", "rate"),
    [(6, 40, 92, 59.5), (6, 40, 500, 15.0), (10, 100, 30, 121.7), (30, 200, 120, 45.6)],
    ids=["w25", "w26_capped_at_365_days", "w27", "w28"],
)
def test_annualized_leak_rate(added: float, full: float, days: float, rate: float) -> None:
    # 40 CFR 82.152, "leak rate", annualizing method.
    assert annualizing(added, full, days) == pytest.approx(rate, abs=0.05)


def test_w26_is_not_over_twenty_per_cent_and_the_cap_matters() -> None:
    assert not over(annualizing(6, 40, 500), 20)
    uncapped = 100 * 6 / 40 * 365 / 500
    assert uncapped == pytest.approx(10.95)


def test_the_trigger_itself_is_not_over_it() -> None:
    # 40 CFR 82.157(c): the duties begin when the rate is over the figure.
    assert not over(20.0, 20.0)
    assert over(20.01, 20.0)


def test_w29_rolling_average() -> None:
    # 40 CFR 82.152, "leak rate", rolling average method.
    assert rolling([3.0, 2.5], 40) == pytest.approx(13.75)


def test_w30_scope_and_trigger_of_a_comfort_cooling_chiller() -> None:
    # 40 CFR 84.106(a) and (c)(2).
    chiller, split = Equipment(type="chiller"), Equipment(type="split system")
    assert annualizing(3, 18, 365) == pytest.approx(16.7, abs=0.05)
    assert trigger(sector(chiller)) == 10
    assert scope("R-134a", 18, sector(chiller)).parts == ("84",)
    assert not scope("R-134a", 14, sector(chiller))
    assert not scope("R-410A", 18, sector(split))


def test_scope_of_ozone_depleting_refrigerant() -> None:
    # 40 CFR 82.157(a): 50 lb; 40 CFR 84.106(a)(3): appliances holding solely an ODS are excluded.
    assert scope("R-22", 50, "commercial_refrigeration").parts == ("82",)
    assert not scope("R-22", 49, "commercial_refrigeration")
    unknown = scope(None, 60, "commercial_refrigeration")
    assert not unknown and not unknown.certain


@pytest.mark.parametrize(
    ("name", "kg", "ar4", "ar5", "tolerance"),
    [
        ("R-404A", 3 * KG_PER_LB, 5337, 5365, 2),
        ("R-134a", 12 / 16 * KG_PER_LB, 486, 442, 1),
        ("R-448A", 40 * KG_PER_LB, 25165, None, 60),
        ("R-290", 0.150, 0.45, None, 0.06),
    ],
    ids=["w45", "w46", "w47", "w48"],
)
def test_co2_equivalent(name: str, kg: float, ar4: float, ar5: float | None, tolerance: float) -> None:
    # 40 CFR 98 Table A-1 (AR4 until 2024, AR5 from 2025); blends by mass. R-290 from memory.
    found = co2_equivalent(name, kg)
    assert found["AR4"] == pytest.approx(ar4, abs=tolerance)
    if ar5 is not None:
        assert found["AR5"] == pytest.approx(ar5, abs=tolerance)


BLENDS = [name for name, entry in table("refrigerant_data").items() if "parts" in entry]


@pytest.mark.parametrize("name", BLENDS)
def test_gwp_of_a_blend_is_the_mass_mean_of_its_parts(name: str) -> None:
    # ASHRAE 34 compositions and 40 CFR 98 Table A-1; published blend lists differ by up to 3.
    entries = table("refrigerant_data")
    parts = entries[name]["parts"]
    assert sum(parts.values()) == pytest.approx(100)
    for basis in ("ar4", "ar5"):
        mean = sum(share / 100 * entries[part][basis] for part, share in parts.items())
        assert entries[name][basis] == pytest.approx(mean, abs=3), basis


@pytest.mark.parametrize("name", [n for n in BLENDS if n not in ("R-404A", "R-410A", "R-407C", "R-507A")])
def test_composition_agrees_with_the_predefined_mixtures(name: str) -> None:
    # CoolProp's predefined mixtures hold mole fractions of ASHRAE 34 compositions; masses follow from them.
    from CoolProp.CoolProp import AbstractState, PropsSI, get_global_param_string

    key = name.replace("-", "") + ".mix"
    if key not in get_global_param_string("predefined_mixtures").split(","):
        pytest.skip("no predefined mixture of this name")
    state = AbstractState("HEOS", key)
    fluids, moles = state.fluid_names(), state.get_mole_fractions()
    masses = {f: m * PropsSI("M", f) for f, m in zip(fluids, moles, strict=True)}
    names = {"CarbonDioxide": "R-744", "R1234ze(E)": "R-1234ze(E)", "R1234zeE": "R-1234ze(E)"}
    total = sum(masses.values())
    for fluid, mass in masses.items():
        ours = names.get(fluid, fluid.replace("R", "R-", 1))
        assert table("refrigerant_data")[name]["parts"][ours] == pytest.approx(100 * mass / total, abs=0.3)


@pytest.mark.parametrize(
    ("name", "named"),
    [
        ("R-11", "low"), ("R-123", "low"), ("R-12", "medium"), ("R-134a", "medium"), ("R-22", "high"),
        ("R-407A", "high"), ("R-407C", "high"), ("R-410A", "high"), ("R-404A", "high"), ("R-32", "very-high"),
    ],
)  # fmt: skip
def test_pressure_class_by_saturation_at_104_degf(name: str, named: str) -> None:
    # 40 CFR 82.152: low < 45, medium 45-170, high 170-355 psia at 104 °F; the named examples of the text.
    found = data(name)
    assert found and found.pressure == named


@pytest.mark.parametrize("name", [n for n, e in table("refrigerant_data").items() if e.get("pressure")])
def test_pressure_class_agrees_with_saturation(name: str) -> None:
    from dictate.checks.refrigerants import bubble_psia

    found = data(name)
    psia = bubble_psia(name, 104.0)
    if psia is None:
        pytest.skip("above its critical point, or not known to the property library")
    bounds = {"low": (0, 45), "medium": (45, 170), "high": (170, 355), "very-high": (355, 2000)}
    assert found and found.pressure
    low, high = bounds[found.pressure]
    assert low <= psia <= high


def test_w49_limits_from_rated_load_current() -> None:
    # NEC 440.22(A), 440.52(A)(1) (from memory) and 440.12.
    found = limits(18.6)
    assert found["protection"] == pytest.approx(32.6, abs=0.06)
    assert found["protection at most"] == pytest.approx(41.9, abs=0.06)
    assert found["overload"] == pytest.approx(26.0, abs=0.06)
    assert found["disconnect"] == pytest.approx(21.4, abs=0.06)


def test_w50_a_plateau_is_no_leak() -> None:
    # Common practice of reading a decay test; also the same without times.
    assert classify([(0, 450), (10, 1150), (15, 1160), (20, 1162)]) == "levelled"
    assert classify([(0, 450), (None, 1150), (None, 1160), (None, 1162)]) == "levelled"


def test_w51_a_steady_climb_is_a_leak() -> None:
    assert classify([(0, 450), (5, 900), (10, 1350), (15, 1800)]) == "leak"
    assert classify([(0, 450), (None, 900), (None, 1350), (None, 1800)]) == "leak"


def test_w52_small_appliance() -> None:
    # 40 CFR 82.156(b): 80 % with a dead compressor, 90 % with a running one.
    share = 100 * 8.2 / 10
    assert share >= small_appliance_share(compressor_runs=False)
    assert share < small_appliance_share(compressor_runs=True)
    assert 10 * small_appliance_share(compressor_runs=True) / 100 == pytest.approx(9)


def test_w53_recovery_level_by_class() -> None:
    # 40 CFR 82.156 Table 1.
    assert recovery_level("medium", 30) == 10
    assert recovery_level("medium", 30) - 8 == 2  # type: ignore[operator]
    assert recovery_level("high", 30) == 0
    assert recovery_level("high", 250) == 10
    assert recovery_level("medium", 250) == 15
    assert recovery_level("medium", 30, old_machine=True) == 4
    assert recovery_level("medium", 30, major=False) == 0
    assert recovery_level("very-high", 30) == 0


def test_w54_triple_evacuation() -> None:
    assert dilution(3) == pytest.approx(7.7e-9, rel=0.01)


def test_w55_first_calculation_under_part_84() -> None:
    # 40 CFR 84.106(b): the first annualizing calculation takes 365 days.
    assert annualizing(6, 40, 92, first=True) == pytest.approx(15.0)
    assert not over(annualizing(6, 40, 92, first=True), 20)
    assert over(annualizing(6, 40, 92), 20)


def test_w56_rolling_window_starts_at_the_follow_up() -> None:
    # 40 CFR 82.152: the window is cut at the last successful follow-up verification.
    additions = [(3.0, 300.0), (2.5, 100.0)]
    assert rolling(additions, 40, days_since_follow_up=200) == pytest.approx(6.25)
    assert rolling(additions, 40) == pytest.approx(13.75)


def test_w57_deadlines() -> None:
    # 40 CFR 82.157(d)-(e) and 84.106(d)-(e).
    found = deadlines(date(2026, 3, 2), initial_test=date(2026, 3, 20), normal_operation=date(2026, 3, 21))
    assert found.repair == date(2026, 4, 1)
    assert found.initial_test == date(2026, 4, 1)
    assert found.follow_up == date(2026, 3, 31)
    assert charged_before_initial_test(date(2026, 3, 19), date(2026, 3, 20))
    assert not charged_before_initial_test(date(2026, 3, 20), date(2026, 3, 20))


def test_kinds_of_work_of_one_record() -> None:
    made = record({"parts": [{"name": "compressor", "action": "replaced"}], "steps": ["brazed", "charged"]})
    job = jobs(Facts(made))[0]
    assert job.opened and job.closed_up and job.full_charge and not job.top_up
