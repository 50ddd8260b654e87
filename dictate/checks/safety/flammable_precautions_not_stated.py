"""A circuit with a flammable refrigerant was opened, and no precaution said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.work import jobs


@rule(
    id="flammable.precautions-not-stated",
    checks="Opening or charging a circuit with a flammable refrigerant (A2L, A3) names what was done "
    "against fire.",
    applies="a circuit with a flammable refrigerant was opened, emptied or charged",
    source="IEC 60335-2-40 and 60335-2-89, annex DD (service of appliances with flammable refrigerants)",
    tag="published",
    question="Was the place ventilated, were ignition sources removed, and was a suitable gas detector "
    "running?",
    caution="No open flame, no halide torch; pump and recovery machine rated for flammables; outlet "
    "away from "
    "ignition. The plate, the maker's instructions and the local fire code rule.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        called_by = [*job.openings, *job.recovered, *job.charged]
        if known is None or not known.flammable or not called_by:
            continue
        if said := job.phrases("flammable_care"):
            yield ok(
                f"A precaution for {known.name} ({known.safety}) was mentioned.",
                *said[:2],
                equipment=job.machine,
            )
        else:
            yield missing(
                f"{known.name} is class {known.safety} and the circuit was worked on "
                f"({because(called_by)}); "
                "no precaution against ignition was stated.",
                *called_by[:2], equipment=job.machine,
            )  # fmt: skip
