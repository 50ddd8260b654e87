"""What a recovery had to reach under 40 CFR 82.156, and what was said that it reached."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from dictate.checks.facts import Facts
from dictate.checks.leak_law import full_charge_lb, recovery_level
from dictate.checks.refrigerant_data import RefrigerantData, data
from dictate.checks.words import Said, type_is
from dictate.checks.work import Job, inches, jobs
from dictate.record.visit import Reading
from dictate.vocabulary.load import table


@dataclass
class Recovery:
    """One recovery before a circuit was opened. `required` is inHg of vacuum, 0 for 0 psig."""

    job: Job
    refrigerant: RefrigerantData
    required: float | None
    small: bool
    reached: list[Reading]
    empty: list[Said]

    @property
    def name(self) -> str:
        """Return the refrigerant with its pressure class."""
        return f"{self.refrigerant.name} ({self.refrigerant.pressure} pressure)"


def recoveries(facts: Facts) -> Iterator[Recovery]:
    """Yield the recoveries that the federal levels apply to."""
    for job in jobs(facts):
        known = data(job.refrigerant)
        if not job.recovered or not job.opened or known is None or known.exempt_from_venting_rule:
            continue
        full = full_charge_lb(job)
        yield Recovery(
            job=job,
            refrigerant=known,
            required=recovery_level(known.pressure, full[0] if full else None, major=is_major(job)),
            small=is_small(job, full[0] if full else None),
            reached=_levels(job),
            empty=job.found_empty,
        )


def is_major(job: Job) -> bool:
    """True for a repair that takes out a compressor, condenser, evaporator or auxiliary coil.

    Opening more than 4 square inches for over 15 minutes is major as well; nobody says so, so it is left out.
    """
    names = ("compressor", "condenser", "evaporator", "coil")
    return any(h.kind == "circuit" and any(n in h.name.lower() for n in names) for h in job.handled)


def is_small(job: Job, full_lb: float | None) -> bool:
    """True for a small appliance: a factory-sealed kind with at most 5 lb; its rule is a percentage."""
    most = float(table("law_us")["small_appliance"]["most_lb"])
    return type_is(job.equipment, "small_appliance") and (full_lb is None or full_lb <= most)


def _levels(job: Job) -> list[Reading]:
    """Return the inches of vacuum, or 0 psig, that belong to the recovery."""
    pulled = {id(r) for r in inches(job)}
    depths = [
        r
        for r in job.seen("pressure")
        if r.reference == "vacuum_depth" and r.unit == "inHg" and r.value is not None and id(r) not in pulled
    ]
    return depths
