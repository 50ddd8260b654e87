"""What a warranty claim asks for, and what of it the record holds: complaint, cause, correction, proof.

`common practice` of service records; a maker's claim form rules.
"""

from __future__ import annotations

from dictate.checks.completeness.field import Field, Need, field
from dictate.checks.facts import Facts, cite
from dictate.checks.gaps import amounts_said
from dictate.checks.words import Said
from dictate.checks.work import Job, jobs
from dictate.record.visit import Part, Reading, Record


def warranty(record: Record) -> list[Field]:
    """Return the fields of a claim: those of the visit, then those of each machine that was repaired."""
    visit, labour = record.visit, record.labour
    complaint = [r for r in record.remarks if r.kind == "complaint"]
    time = labour is not None and (labour.hours is not None or labour.start is not None)
    out = [
        field("site", visit.site or visit.customer),
        field("date", visit.date),
        field("technician", visit.technician),
        field("complaint", complaint or record.complaint, record.complaint or ""),
        Field("labour", time, f"{labour.hours:g} h" if labour and labour.hours else "",
              labour.at[0] if labour and labour.at else None),
    ]  # fmt: skip
    for job in jobs(Facts(record)):
        if job.repairs or job.handled:
            out += _machine(job)
    return out


def _machine(job: Job) -> list[Field]:
    """Return the fields of one machine."""
    machine, id = job.equipment, job.machine
    at = machine.at if machine else None
    parts = [h.thing for h in job.handled]
    numbered = [p for p in parts if isinstance(p, Part) and p.part_number]
    found = [r for r in job.readings() if r.stage == "as_found"]
    left: list[Said] = job.left_readings
    done = ", ".join(f"{h.name} {h.action}" for h in job.handled)
    out = [
        Field("model", bool(machine and machine.model), (machine and machine.model) or "", at, id),
        Field("serial number", bool(machine and machine.serial), (machine and machine.serial) or "", at, id),
        field("cause", job.conclusions(), "; ".join(c.text for c in job.conclusions()), equipment=id),
        field("readings as found", found, _cited(found), equipment=id),
        field("correction", parts or job.repairs, done, equipment=id),
        field("part numbers", numbered, ", ".join(p.part_number or "" for p in numbered), equipment=id),
        field("readings as left", left, _cited([r for r in left if isinstance(r, Reading)]), equipment=id),
    ]  # fmt: skip
    if job.handled_of("electrical") or job.hands_in:
        out.append(field("isolation of the power", job.stated("power_isolated"), equipment=id))
        need: Need = "useful" if job.plugged else "asked for"
        dead = job.stated("absence_of_voltage_verified")
        out.append(field("test for absence of voltage", dead, equipment=id, need=need))
    if any("compressor" in h.name.lower() and h.kind == "circuit" for h in job.handled):
        ohms = [r for r in job.readings("resistance") if "compressor" in (r.component or "")]
        out.append(field("winding resistances of the compressor", ohms, _cited(ohms), equipment=id))
    if job.opened:
        recovered = [m for m in job.moved("recovered") if m.value is not None]
        charged = [m for m in job.moved("charged") if m.value is not None]
        out += [
            field("refrigerant", job.refrigerant or job.any_refrigerant, equipment=id),
            field("amount recovered", recovered, amounts_said(recovered), equipment=id),
            field("filter drier", job.handled_of("drier") and job.handled_of("drier")[0].name, equipment=id),
            field("nitrogen while brazing", job.stated("nitrogen_purged"), equipment=id),
            field("pressure test", job.stated("pressure_tested"), equipment=id),
            field("vacuum reached", job.seen("vacuum"), _cited(job.seen("vacuum")), equipment=id),
            field("vacuum held", job.stated("vacuum_held"), equipment=id),
            field("amount charged", charged, amounts_said(charged), equipment=id),
            field("leak check", job.stated("leak_checked"), equipment=id),
        ]  # fmt: skip
    return out


def _cited(readings: list[Reading]) -> str:
    return ", ".join(cite(r) for r in readings[:6])
