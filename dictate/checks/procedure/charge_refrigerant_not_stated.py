"""Refrigerant was charged, and which one was not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="charge.refrigerant-not-stated",
    checks="A charge says which refrigerant went in, or the machine's refrigerant was said.",
    applies="refrigerant was charged",
    source="40 CFR 82.157(l)(2) and 84.106(l)(2) in the USA (amount and type added); refrigerant logs "
    "everywhere",
    tag="published",
    question="Which refrigerant went in?",
    caution="Never mix refrigerants; the plate governs.",
    blocking=True,
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.charged:
            continue
        moved = job.moved("charged")
        unnamed = [m for m in moved if not m.refrigerant]
        known = job.refrigerant or job.any_refrigerant
        if moved and not unnamed:
            names = ", ".join(dict.fromkeys(str(m.refrigerant) for m in moved))
            yield ok(f"Charged: {names}.", *moved, equipment=job.machine)
        elif known:
            yield ok(
                f"The refrigerant of the charge follows from the machine's: {known}.",
                *(unnamed or job.charged), equipment=job.machine,
            )  # fmt: skip
        else:
            basis = unnamed or job.charged
            yield missing(
                f"Refrigerant was charged{when(basis[0])}; which one was not stated.",
                *basis,
                equipment=job.machine,
            )
