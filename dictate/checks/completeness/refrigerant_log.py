"""What a refrigerant log asks for, and what of it the record holds.

The fields are the union of what 40 CFR 82.157(l) and 84.106(l) want from whoever services (unit and place,
date, name, parts and work, refrigerant and amount), and of what logs elsewhere ask for (leak test and its
result). Full charge and leak rate are the owner's entries and only "useful" here.
"""

from __future__ import annotations

from dictate.checks.completeness.field import Field, field
from dictate.checks.facts import Facts
from dictate.checks.gaps import amounts_said
from dictate.checks.work import Job, jobs
from dictate.record.visit import Record

LAW = "40 CFR 82.157(l)(2) and 84.106(l)(2)"


def handed_to_owner(facts: Facts, job: Job) -> list[Field]:
    """Return the fields that a technician hands to the owner at the end of a service."""
    visit, machine = facts.record.visit, job.equipment
    name = " ".join(x for x in (machine.type, machine.model, machine.serial) if x) if machine else ""
    moved = [*job.movements("charged"), *job.movements("recovered")]
    own = job.refrigerant
    named = [m for m in moved if m.refrigerant]
    added = [m for m in job.movements("charged") if m.value is not None]
    work = [*(h.thing for h in job.handled), *job.steps()]
    unit = Field(
        "the unit's identity", bool(name), name, machine.at if machine else None, job.machine, source=LAW
    )
    return [
        unit,
        field("the place", visit.site or visit.customer, source=LAW),
        field("the date", visit.date, source=LAW),
        field("the technician's name", visit.technician, source=LAW),
        field("the parts and the work on each", work, equipment=job.machine, source=LAW),
        field("the refrigerant", named or own, own or "", equipment=job.machine, source=LAW),
        field("the amount added", added, amounts_said(added), equipment=job.machine, source=LAW),
    ]  # fmt: skip


def refrigerant_log(record: Record) -> list[Field]:
    """Return the fields of a refrigerant log for every machine whose refrigerant was handled."""
    facts = Facts(record)
    out: list[Field] = []
    for job in jobs(facts):
        if not (job.openings or job.recovered or job.charged):
            continue
        recovered = [m for m in job.movements("recovered") if m.value is not None]
        plate = job.plate_charge("oz")
        out += handed_to_owner(facts, job) if job.charged else handed_to_owner(facts, job)[:-1]
        out += [
            field("the amount recovered", recovered, amounts_said(recovered), equipment=job.machine,
                  need="asked for" if job.recovered else "useful"),
            field("a leak check and its method", job.stated("leak_checked"), equipment=job.machine),
            field("a test for tightness", job.stated("pressure_tested"), equipment=job.machine,
                  need="asked for" if job.opened else "useful"),
            field("the full charge and its basis", f"{plate:g} oz, plate" if plate else None,
                  equipment=job.machine, need="useful"),
            field("the technician's certificate", record.visit.certificate, need="useful"),
        ]  # fmt: skip
    return out
