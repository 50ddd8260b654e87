"""A flame was used to search for a leak of a flammable refrigerant."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, problem, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="flammable.torch-leak-search",
    checks="No flame or halide torch is used to search for leaks of a flammable refrigerant.",
    applies="a torch or flame was said to be used for a leak search on a flammable refrigerant",
    source="IEC 60335-2-40 and 60335-2-89, annex DD, leak detection",
    tag="published",
    question="Was a flame really used, or a detector rated for flammable refrigerants?",
    caution="Flammable refrigerant is searched with soap solution or a detector set to at most 25 % of "
    "its lower "
    "flammability limit.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is None or not known.flammable:
            continue
        for said in job.phrases("torch_leak_search"):
            yield problem(
                f"{known.name} is class {known.safety}, and “{said.heard}” was said{when(said)}.",
                said, equipment=job.machine,
            )  # fmt: skip
