"""Refrigerant was charged, and how much was not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.gaps import amounts_said
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="charge.amount-not-stated",
    checks="A charge says how much refrigerant went in: mass and unit. “Topped off” is no quantity.",
    applies="refrigerant was charged",
    source="40 CFR 82.157(l)(2) and 84.106(l)(2) in the USA (amount and type added); refrigerant logs "
    "everywhere",
    tag="published",
    question="How much refrigerant went in, by the scale?",
    blocking=True,
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.charged:
            if implied := job.charge_implied:
                yield missing(
                    f"It ran after the evacuation{when(implied[0])}, so refrigerant was charged; how "
                    f"much was not "
                    "stated.",
                    *implied[:2], equipment=job.machine,
                )  # fmt: skip
            continue
        moved = job.moved("charged")
        unknown = [m for m in moved if m.value is None or m.unit is None]
        if moved and not unknown:
            yield ok(f"Charged: {amounts_said(moved)}.", *moved, equipment=job.machine)
        elif not moved and (plate := job.plate_charge("oz")) and (said := job.phrases("to_the_plate")):
            yield ok(
                f"Charged to the plate, as said{when(said[0])}: {show(plate, 'oz')}.",
                said[0], computed={"plate": (plate, "oz")}, equipment=job.machine,
            )  # fmt: skip
        else:
            basis = unknown or job.charged
            yield missing(
                f"Refrigerant was charged{when(basis[0])}; how much was not stated.",
                *basis, equipment=job.machine,
            )  # fmt: skip
