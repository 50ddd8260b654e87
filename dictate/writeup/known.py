"""What the shop already knows: a customer's short name in the narration finds its site and its machines.

Only names that were said are used, whole words only. A field that was said keeps what was said; where the
shop's file says otherwise, the machine carries a reason to look. Everything that comes from the file says so.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from dictate.record.visit import Equipment, PlateValue, Record

if TYPE_CHECKING:
    from dictate.settings import Appliance, Customer, Settings, Technician

FROM_FILE = "from the shop's file"


def apply(record: Record, settings: Settings) -> None:
    """Fill in the visit and its machines, in place, from the shop's settings."""
    visit, words = record.visit, " ".join(s.text for s in record.transcript)
    if visit.jurisdiction is None:
        visit.jurisdiction = settings.shop.jurisdiction
    customers = [c for c in settings.customer if _said(words, c)]
    if len(customers) == 1:
        _customer(record, customers[0], words)
    technicians = [t for t in settings.technician if _said(words, t)]
    if visit.technician is not None:
        named = [t for t in settings.technician if _same(visit.technician, t)]
        technicians = named or []
    if len(technicians) == 1:
        visit.technician = technicians[0].name
        visit.certificate = visit.certificate or technicians[0].certificate


def _said(words: str, known: Customer | Technician | Appliance) -> bool:
    return any(
        re.search(rf"(?<!\w){re.escape(name)}(?!\w)", words, re.IGNORECASE)
        for name in (known.name, *known.said)
    )


def _same(said: str, known: Technician) -> bool:
    return said.casefold() in {n.casefold() for n in (known.name, *known.said)}


def _customer(record: Record, customer: Customer, words: str) -> None:
    record.visit.customer = customer.name
    record.visit.site = record.visit.site or customer.site
    for appliance in (a for a in customer.appliance if _said(words, a)):
        machine = _machine(record, appliance)
        if machine is not None:
            _fill(machine, appliance)


def _machine(record: Record, appliance: Appliance) -> Equipment | None:
    names = {n.casefold() for n in (appliance.name, appliance.type or "", *appliance.said)} - {""}
    fits = [
        e
        for e in record.equipment
        if (e.serial and e.serial == appliance.serial)
        or {(e.name or "").casefold(), (e.type or "").casefold()} & names
    ]
    if not fits and len(record.equipment) == 1:
        fits = record.equipment
    return fits[0] if len(fits) == 1 else None


def _fill(machine: Equipment, appliance: Appliance) -> None:
    for field in ("type", "model", "serial", "refrigerant"):
        said, known = getattr(machine, field), getattr(appliance, field)
        if said is None:
            setattr(machine, field, known)
        elif known is not None and said.casefold() != known.casefold():
            machine.review.append(f"{field} was said as {said}; the shop's file has {known}")
    if appliance.full_charge is not None and not any(p.quantity == "mass" for p in machine.plate):
        basis = appliance.full_charge_basis or "basis not stated"
        machine.plate.append(
            PlateValue(
                quantity="mass",
                value=appliance.full_charge,
                unit=appliance.full_charge_unit,
                name=f"full charge ({FROM_FILE}, {basis})",
                heard=FROM_FILE,
            )
        )
