"""The sentences of a gap: what calls for a step, and in which of three ways the step is absent."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.checks.rule import Finding, missing, ok, problem
from dictate.checks.words import Said, listing, when
from dictate.checks.work import Job
from dictate.record.visit import Movement, Part, Reading, Step


def because(things: Sequence[Said]) -> str:
    """Name what calls for a step, with the time it was said: "the drier was replaced (1:23)"."""
    told: dict[str, str] = {}
    for thing in things:
        told.setdefault(_work(thing), when(thing))
    return listing([f"{work}{time}" for work, time in list(told.items())[:3]])


_WORK = {
    "power_isolated": "power was isolated", "capacitor_discharged": "a capacitor was discharged",
    "refrigerant_recovered": "refrigerant was recovered", "brazed": "a joint was brazed",
    "filter_drier_replaced": "the filter drier was replaced", "evacuated": "the system was evacuated",
    "charged": "refrigerant was charged", "pressure_tested": "the system was pressure tested",
    "cleaned": "cleaning was done", "adjusted": "an adjustment was made",
    "power_restored": "power was restored",
    "leak_checked": "a leak check was made", "nitrogen_purged": "nitrogen was flowed",
}  # fmt: skip


def _work(thing: Said) -> str:
    """Say in words what a step, part, movement or reading is evidence of."""
    if isinstance(thing, Part):
        return f"{thing.name} {thing.action}"
    if isinstance(thing, Movement):
        return f"refrigerant was {thing.direction}"
    if isinstance(thing, Step):
        if thing.step == "part_replaced":
            return f"{thing.component or 'a part'} replaced"
        text = _WORK.get(thing.step, thing.step.replace("_", " "))
        return f"{text} on the {thing.component}" if thing.component and thing.step == "cleaned" else text
    if isinstance(thing, Reading):
        return f"{thing.quantity} measured on the {thing.component or 'machine'}"
    return f"said: “{getattr(thing, 'heard', '')}”"


def step_gap(
    job: Job, codes: Sequence[str], what: str, called_by: Sequence[Said], *, question: str | None = None
) -> Finding:
    """Judge a step that the work calls for: ok, not done (a problem), planned or not stated (missing).

    `what` is a noun phrase in the singular ("a leak check"). The three ways in which a step can be absent
    are kept apart in the verdict and in the words: not stated, said not to be done, or planned.
    """
    machine = job.machine
    done = job.stated(*codes)
    if done:
        return ok(f"Stated: {what}{when(done[0])}.", *done, equipment=machine)
    why = because(called_by)
    refused = job.stated(*codes, status="not_done")
    name = what[0].upper() + what[1:]
    if refused:
        return problem(
            f"Not done, as said{when(refused[0])}: {what}. The work calls for it ({why}).",
            *refused, *called_by, question=question, equipment=machine,
        )  # fmt: skip
    planned = job.stated(*codes, status="planned")
    if planned:
        return missing(
            f"{name} is planned{when(planned[0])}, and not done in this record. The work calls for it "
            f"({why}).",
            *planned, *called_by, question=question, equipment=machine,
        )  # fmt: skip
    return missing(
        f"{name} was not stated. The work calls for it ({why}).",
        *called_by,
        question=question,
        equipment=machine,
    )


def amounts_said(movements: Sequence[Movement]) -> str:
    """Write amounts with the time they were said: "3.5 lb R-404A (2:10)"."""
    return ", ".join(
        f"{m.value:g} {m.unit}{f' {m.refrigerant}' if m.refrigerant else ''}{when(m)}"
        for m in movements
        if m.value is not None
    )
