"""A hydrocarbon circuit was opened, and it was not said how its charge was removed."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.work import jobs


@rule(
    id="flammable.removal-not-stated",
    checks="Before a class A3 circuit is opened, the record tells how its refrigerant was removed.",
    applies="a circuit with a class A3 refrigerant was opened",
    source="IEC 60335-2-89, annex DD (remove refrigerant first); exemption from the venting rule, 40 CFR "
    "82.154(a)(1)(viii)-(x), is no leave from it",
    tag="published",
    question="How was the hydrocarbon removed: recovered into a marked cylinder, or led outdoors as "
    "local code allows?",
    caution="Exempt from a recovery rule does not mean harmless: it burns, and the local fire code applies.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is None or not known.highly_flammable or not job.opened:
            continue
        told = [
            *job.recovered,
            *job.phrases("vented"),
            *job.phrases("found_empty"),
            *job.phrases("removed_charge"),
        ]
        if told:
            yield ok(f"What became of the {known.name} was stated.", *told[:1], equipment=job.machine)
        else:
            yield missing(
                f"How the {known.name} was removed was not stated ({because(job.openings)}).",
                *job.openings[:2], equipment=job.machine,
            )  # fmt: skip
