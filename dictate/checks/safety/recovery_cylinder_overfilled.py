"""A recovery cylinder filled above 80 % of its volume."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show, value_in
from dictate.checks.leak_law import cylinder_limit
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.work import jobs, total
from dictate.record.visit import Reading


def _said(readings: list[Reading], *names: str) -> Reading | None:
    """Return the mass that was said with one of these words ("water capacity", "tare", "gross")."""
    for reading in readings:
        text = f"{reading.heard} {reading.point or ''} {reading.which or ''}".lower()
        if reading.value is not None and any(n in text for n in names):
            return reading
    return None


@rule(
    id="recovery.cylinder-overfilled",
    checks="A recovery cylinder holds at most 80 % of its volume as liquid: 0.80 x water capacity x "
    "density ratio.",
    applies="refrigerant was recovered and the cylinder's water capacity was said",
    source="AHRI Guideline K (80 % by liquid at 77 °F); 49 CFR 173.304a(c) (weighed)",
    tag="published",
    question="What do the scale, the tare and the water capacity on the collar say?",
    caution="A cylinder full of liquid can burst when it warms. Its date must be good, and a disposable "
    "one is "
    "never refilled.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        masses = job.seen("mass", role=None)
        capacity = _said(masses, "water capacity", "w c", "wc")
        recovered = total(job.moved("recovered"), "lb")
        if capacity is None or recovered is None:
            continue
        known = data(job.refrigerant)
        gross, tare = _said(masses, "gross", "scale"), _said(masses, "tare")
        inside = value_in(gross, "lb") - value_in(tare, "lb") if gross and tare else recovered
        used = [t for t in (capacity, gross, tare, *job.moved("recovered")) if t is not None]
        if known is None or known.gravity is None:
            yield unsure(
                "The fill limit of the recovery cylinder depends on the refrigerant's density, and which "
                "refrigerant is in it was not stated.",
                *used, question="Which refrigerant is in the cylinder?", equipment=job.machine,
            )  # fmt: skip
            continue
        most = cylinder_limit(value_in(capacity, "lb"), known.gravity)
        computed = {"limit": (most, "lb"), "in the cylinder": (inside, "lb")}
        text = f"{show(inside, 'lb')} of {known.name} in the cylinder, limit {show(most, 'lb')} at 80 %"
        if inside > most * 1.005:
            yield problem(f"{text}: overfilled.", *used, computed=computed, equipment=job.machine)
        else:
            yield ok(f"{text}.", *used, computed=computed, equipment=job.machine)
