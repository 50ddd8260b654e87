"""The arithmetic of the two federal leak rules of the USA, with the thresholds as data.

40 CFR 82 subpart F counts appliances with 50 lb or more of an ozone-depleting refrigerant; 40 CFR 84 subpart
C those with 15 lb or more of a refrigerant that holds a regulated HFC, from 2026-01-01, and leaves
residential and light commercial air conditioning out. Both work a leak rate out in one of two ways, in per
cent of the full charge a year. State and local law may be stricter, and the owner makes the calculation:
what is worked out here is a help to whoever does. Masses may be in any unit, as long as it is one unit.

>>> round(annualizing(6, 40, 92), 1), round(annualizing(6, 40, 500), 1)
(59.5, 15.0)
>>> round(rolling([3.0, 2.5], 40), 2)
13.75
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from dictate.checks.refrigerant_data import data
from dictate.checks.words import type_is
from dictate.checks.work import Job, total
from dictate.record.visit import Equipment, Record
from dictate.vocabulary.load import table

Sector = Literal[
    "commercial_refrigeration", "industrial_process", "comfort_cooling", "residential_light_ac", "unknown"
]

NOT_US = (
    "The law of the USA was not applied, because the visit's jurisdiction is not stated as US. What was "
    "said is "
    "kept for the log; the law that holds at the site is left to the user."
)
RULES_ABOVE = "State and local codes and licensed practice rule."


def applies(record: Record) -> bool:
    """True when the visit's jurisdiction is the USA; only then is any law of the USA applied."""
    return (record.visit.jurisdiction or "").strip().upper() in ("US", "USA")


def annualizing(added: float, full_charge: float, days: float | None, *, first: bool = False) -> float:
    """Return the annualized leak rate in per cent of the full charge a year.

    `days` since the last addition are capped at 365; the first calculation under 40 CFR 84 takes 365 days.
    Source: 40 CFR 82.152 "leak rate" method 1 and 40 CFR 84.102, 84.106(b).
    """
    span = 365.0 if first or days is None else min(max(days, 1.0), 365.0)
    return 100 * added / full_charge * 365 / span


def rolling(
    additions: Iterable[float] | Iterable[tuple[float, float]],
    full_charge: float,
    *,
    days_since_follow_up: float | None = None,
) -> float:
    """Return the rolling-average leak rate in per cent of the full charge.

    `additions` are amounts of the last 365 days, or (amount, days ago) pairs, of which those older than 365
    days, or older than the last successful follow-up verification, are left out. Source: 40 CFR 82.152 "leak
    rate" method 2 and 40 CFR 84.102.
    """
    window = 365.0 if days_since_follow_up is None else min(365.0, days_since_follow_up)
    total = 0.0
    for item in additions:
        amount, days = item if isinstance(item, tuple) else (item, 0.0)
        if days <= window:
            total += amount
    return 100 * total / full_charge


@dataclass(frozen=True)
class Scope:
    """Which federal rule a machine falls under: "82", "84", both, or none, and why."""

    parts: tuple[str, ...]
    why: str
    certain: bool = True

    def __bool__(self) -> bool:
        return bool(self.parts)


def sector(machine: Equipment | None) -> Sector:
    """Return the sector of a machine by its kind; "unknown" when its kind does not tell."""
    for name in ("residential_light_ac", "comfort_cooling", "industrial_process", "commercial_refrigeration"):
        if type_is(machine, "sector", name):
            return name
    return "unknown"


def trigger(where: Sector) -> float | None:
    """Return the leak rate in per cent that triggers the duties; None when the sector is not known."""
    return None if where == "unknown" else float(table("law_us")["trigger"].get(where, 10))


def scope(refrigerant: str | None, full_charge_lb: float | None, where: Sector) -> Scope:
    """Say which rule covers a circuit. An unknown refrigerant or charge leaves it uncertain."""
    limits = table("law_us")["threshold"]
    ods, hfc = float(limits["part_82"]["lb"]), float(limits["part_84"]["lb"])
    known = data(refrigerant)
    if full_charge_lb is not None and full_charge_lb < min(ods, hfc):
        return Scope((), f"its charge of {full_charge_lb:.4g} lb is below {hfc:.0f} lb")
    if known is None:
        return Scope((), "its refrigerant is not known", certain=False)
    if known.exempt_from_venting_rule or known.kind == "natural":
        return Scope((), f"{known.name} is outside both rules")
    if not known.ozone_depleting and where == "residential_light_ac":
        return Scope((), "residential and light commercial air conditioning is excluded from 40 CFR 84.106")
    if full_charge_lb is None:
        return Scope((), "its full charge is not known", certain=False)
    parts = []
    if known.ozone_depleting and full_charge_lb >= ods:
        parts.append("82")
    if known.holds_hfc and full_charge_lb >= hfc:
        parts.append("84")
    if parts:
        return Scope(tuple(parts), f"{full_charge_lb:.4g} lb of {known.name}")
    least = ods if known.ozone_depleting else hfc
    return Scope(
        (), f"{full_charge_lb:.4g} lb of {known.name} is below {least:.0f} lb, or it holds no listed gas"
    )


def full_charge_lb(job: Job) -> tuple[float, str] | None:
    """Return the full charge of a job's circuit in lb and its basis; None when it was not said."""
    plate = job.plate_charge("lb")
    if plate is not None:
        return plate, "the plate charge"
    if job.full_charge:
        charged = total(job.movements("charged"), "lb")
        if charged:
            return charged, "the amount charged after evacuation"
    return None


@dataclass(frozen=True)
class Deadlines:
    """Dates by which an exceedance has to be dealt with."""

    repair: date
    initial_test: date
    follow_up: date | None


def deadlines(
    exceeded: date, *, initial_test: date | None = None, normal_operation: date | None = None,
    process_shutdown: bool = False,
) -> Deadlines:  # fmt: skip
    """Return the last days for repair, initial and follow-up verification.

    Source: 40 CFR 82.157(d)-(e) and 84.106(d)-(e): 30 days (120 with an industrial process shutdown), then 10
    days from the successful initial test or, when the unit was evacuated, from normal operation.
    """
    limits = table("law_us")["days"]
    repair = exceeded + timedelta(days=int(limits["repair_shutdown" if process_shutdown else "repair"]))
    start = normal_operation or initial_test
    return Deadlines(repair, repair, start + timedelta(days=int(limits["follow_up"])) if start else None)


def charged_before_initial_test(charged: date, initial_test: date) -> bool:
    """True when a charge is dated before the initial verification test that has to come first."""
    return charged < initial_test


def recovery_level(
    pressure: str | None, full_charge_lb: float | None, *, major: bool = True, old_machine: bool = False
) -> float | None:
    """Return the level that recovery must reach, in inHg below atmosphere (0 is 0 psig); None if unknown.

    Low-pressure units have an absolute level (25 mmHg) and answer None. Source: 40 CFR 82.156 Table 1.
    """
    if pressure in ("high", "very-high", "medium") and not major:
        return 0.0
    if pressure == "very-high":
        return 0.0
    levels = table("law_us")["recovery"]
    large = full_charge_lb is not None and full_charge_lb >= float(levels["large_lb"])
    if pressure not in ("high", "medium"):
        return None
    return float(levels[pressure]["large" if large else "small"]["old" if old_machine else "new"])


def small_appliance_share(compressor_runs: bool) -> float:
    """Return the share to be recovered from a small appliance, in per cent (40 CFR 82.156(b))."""
    entry = table("law_us")["small_appliance"]
    return float(entry["running" if compressor_runs else "dead"])


def cylinder_limit(water_capacity: float, gravity: float) -> float:
    """Return the greatest net fill of a recovery cylinder: 80 % of its volume by liquid at 77 degF.

    In the unit of the water capacity. Source: AHRI Guideline K (non-flammable fluorocarbons).
    """
    share = float(table("procedure_limits")["recovery_cylinder"]["value"]) / 100
    return share * water_capacity * gravity


def over(rate: float, limit: float) -> bool:
    """True when a rate is over its trigger; the figure itself is not over."""
    return rate > limit + 1e-9


def visit_date(record: Record) -> date | None:
    """Return the date of the visit; None when it was not said or is no calendar date."""
    try:
        return date.fromisoformat(record.visit.date or "")
    except ValueError:
        return None
