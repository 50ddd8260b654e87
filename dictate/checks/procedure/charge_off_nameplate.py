"""The charge differs from the plate."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.words import type_is, when
from dictate.checks.work import Job, jobs, total
from dictate.vocabulary.load import table


@rule(
    id="charge.off-nameplate",
    checks="A full charge is within 0.5 oz or 2 % of the plate, whichever is larger.",
    applies="a full charge was weighed in and the plate charge was said",
    source="equipment nameplate; tolerance for critically charged systems; 2 to 5 % on systems with a "
    "receiver",
    tag="common practice",
    question="Why does the charge differ from the plate: line length, receiver, a different unit, or a "
    "misheard number?",
)
def check(facts: Facts) -> Iterator[Finding]:
    limits = table("procedure_limits")["charge"]
    for job in jobs(facts):
        plate = job.plate_charge("oz")
        moved = job.movements("charged")
        charged = total(moved, "oz")
        if not plate or charged is None:
            continue
        difference = charged - plate
        percent = 100 * difference / plate
        computed = {
            "charged": (charged, "oz"),
            "plate": (plate, "oz"),
            "difference": (difference, "oz"),
            "share": (percent, "%"),
        }
        unit = moved[0].unit or "oz"
        text = (
            f"{show(total(moved, unit) or 0, unit)} charged{when(moved[0])}, plate "
            f"{show(job.plate_charge(unit) or 0, unit)}: {percent:+.1f}%"
        )
        if job.phrases("charge_kept") or job.phrases("extra_charge"):
            continue  # what was in the machine stayed in it, and this came on top
        if not job.full_charge:
            if difference > limits["mass"]:
                yield problem(
                    f"{text}. More was added than the plate's whole charge.",
                    *moved,
                    computed=computed,
                    equipment=job.machine,
                )
            continue
        near = max(limits["mass"], limits["share"] / 100 * plate)
        if abs(difference) <= near * (1 + 1e-6):
            yield ok(f"{text}.", *moved, computed=computed, equipment=job.machine)
        elif abs(difference) <= max(near, limits["receiver"] / 100 * plate) and may_have_receiver(job, plate):
            yield unsure(
                f"{text}. Within {limits['receiver']} %, which is usual where the system has a receiver.",
                *moved, computed=computed, equipment=job.machine,
            )  # fmt: skip
        else:
            yield problem(f"{text}.", *moved, computed=computed, equipment=job.machine)


def may_have_receiver(job: Job, plate_oz: float) -> bool:
    """True unless the machine is a small factory-charged one; such machines are charged critically."""
    if type_is(job.equipment, "may_have_receiver"):
        return True
    return not (type_is(job.equipment, "small_appliance") or plate_oz <= 32)
