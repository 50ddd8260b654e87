"""Refrigerant was recovered, and how much was not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import amounts_said
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="recovery.amount-not-stated",
    checks="A recovery says how much refrigerant came out, as a weight.",
    applies="refrigerant was recovered",
    source="refrigerant log practice (weight by scale); 40 CFR 82.156(a)(3) for disposal in the USA",
    tag="common practice",
    question="How much refrigerant was recovered, by the scale?",
    blocking=True,  # bill and log both rest on this weight
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.recovered:
            continue
        moved = job.moved("recovered")
        unknown = [m for m in moved if m.value is None]
        if moved and not unknown:
            yield ok(f"Recovered: {amounts_said(moved)}.", *moved, equipment=job.machine)
        elif not moved and (empty := job.found_empty):
            yield ok(
                f"The circuit was found empty, as said{when(empty[0])}.", empty[0], equipment=job.machine
            )
        else:
            basis = unknown or job.recovered
            yield missing(
                f"Refrigerant was recovered{when(basis[0])}; how much was not stated.",
                *basis, equipment=job.machine,
            )  # fmt: skip
