"""Questions to the ledger: visits by appliance, refrigerant, date, open questions; totals; leak rates."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from dictate.errors import RecordError
from dictate.ledger.store import Ledger


@dataclass(frozen=True)
class Wanted:
    """What to look for; a null or false field asks for nothing."""

    words: str | None = None
    machine: str | None = None
    refrigerant: str | None = None
    since: str | None = None
    until: str | None = None
    open_only: bool = False
    return_only: bool = False


def visits(ledger: Ledger, wanted: Wanted) -> list[dict[str, Any]]:
    """Return the visits that fit, newest first, with their machines named in `machines`."""
    where, given = ["v.id IS NOT NULL"], []
    if wanted.words:
        where.append(
            "(v.site LIKE ? OR v.customer LIKE ? OR v.id LIKE ? OR v.key LIKE ? OR v.technician LIKE ?)"
        )
        given += [f"%{wanted.words}%"] * 5
    if wanted.machine:
        where.append(
            "EXISTS (SELECT 1 FROM machine m WHERE m.visit = v.id AND "
            "(m.name LIKE ? OR m.type LIKE ? OR m.model LIKE ? OR m.serial LIKE ?))"
        )
        given += [f"%{wanted.machine}%"] * 4
    if wanted.refrigerant:
        where.append(
            "(EXISTS (SELECT 1 FROM movement x WHERE x.visit = v.id AND x.refrigerant LIKE ?) "
            "OR EXISTS (SELECT 1 FROM machine m WHERE m.visit = v.id AND m.refrigerant LIKE ?))"
        )
        given += [f"%{wanted.refrigerant}%"] * 2
    if wanted.since:
        where.append("v.date >= ?")
        given.append(_day(wanted.since))
    if wanted.until:
        where.append("v.date <= ?")
        given.append(_day(wanted.until))
    if wanted.open_only:
        where.append("v.open > 0")
    if wanted.return_only:
        where.append("v.return_visit = 1")
    rows = ledger.db.execute(
        "SELECT v.*, (SELECT group_concat(coalesce(m.name, m.type, m.id), ', ') FROM machine m "
        "WHERE m.visit = v.id) AS machines FROM visit v "
        f"WHERE {' AND '.join(where)} ORDER BY v.date DESC, v.id",
        given,
    )
    return [dict(row) for row in rows]


def _day(text: str) -> str:
    try:
        return date.fromisoformat(text).isoformat()
    except ValueError:
        raise RecordError(f"{text!r} is not a date.", "Write it like 2026-03-04.") from None


def totals(ledger: Ledger, since: str | None = None, until: str | None = None) -> list[dict[str, Any]]:
    """Return grams recovered and charged by refrigerant, with how many movements had no stated amount."""
    rows = ledger.db.execute(
        "SELECT coalesce(x.refrigerant, 'not stated') AS refrigerant, x.direction, "
        "sum(x.grams) AS grams, sum(x.grams IS NULL) AS not_stated, count(*) AS movements "
        "FROM movement x JOIN visit v ON v.id = x.visit "
        "WHERE (? IS NULL OR v.date >= ?) AND (? IS NULL OR v.date <= ?) "
        "GROUP BY 1, 2 ORDER BY 1, 2",
        (since, since, until, until),
    )
    return [dict(row) for row in rows]


@dataclass(frozen=True)
class LeakRate:
    """A machine's annualised leak rate in percent of the full charge, by the formula of 40 CFR 84.102."""

    serial: str
    name: str
    percent: float
    added_g: float
    full_charge_g: float
    days: int
    first_calculation: bool


def leak_rates(ledger: Ledger) -> list[LeakRate]:
    """Return the annualised rate at each machine's last addition, where serial, charge and dates are known.

    Rate = added / full charge x 365 / days since the last addition, days at most 365. Without a former
    addition in the ledger 365 days are taken, as for the first calculation (40 CFR 84.106(b)). A visit that
    also recovered refrigerant counts only what it added beyond that.
    """
    rows = ledger.db.execute(
        "SELECT m.serial, coalesce(m.name, m.type, m.serial) AS name, m.full_charge_g, v.date, "
        "sum(CASE x.direction WHEN 'charged' THEN x.grams ELSE -x.grams END) AS added, "
        "sum(x.grams IS NULL) AS unknown "
        "FROM machine m JOIN visit v ON v.id = m.visit "
        "JOIN movement x ON x.visit = m.visit AND x.machine = m.id "
        "WHERE m.serial IS NOT NULL AND v.date IS NOT NULL GROUP BY m.serial, v.id ORDER BY m.serial, v.date"
    ).fetchall()
    rates: dict[str, LeakRate] = {}
    last: dict[str, str] = {}
    charge: dict[str, float] = {}
    for row in rows:
        serial = row["serial"]
        if row["full_charge_g"]:
            charge[serial] = row["full_charge_g"]
        if row["unknown"] or row["added"] is None or row["added"] <= 0 or serial not in charge:
            continue
        days, first = 365, serial not in last
        if not first:
            apart = (date.fromisoformat(row["date"][:10]) - date.fromisoformat(last[serial][:10])).days
            days = max(1, min(365, apart))
        last[serial] = row["date"]
        percent = row["added"] / charge[serial] * 365 / days * 100
        rates[serial] = LeakRate(serial, row["name"], percent, row["added"], charge[serial], days, first)
    return list(rates.values())
