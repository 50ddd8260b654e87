"""The refrigerant circuit was opened, and nothing said of recovering what was in it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, not_applicable, ok, rule
from dictate.checks.words import type_is, when
from dictate.checks.work import jobs


@rule(
    id="recovery.not-stated",
    checks="Before a circuit is opened its refrigerant is recovered, or the record says that it was "
    "found empty.",
    applies="the refrigerant circuit was opened",
    source="40 CFR 82.156(a) in the USA; elsewhere the law of the site; service practice everywhere",
    tag="published",
    question="Was the refrigerant recovered before the circuit was opened, and how much; or was it "
    "found empty?",
    caution="Never open or braze on a circuit that holds pressure. Local codes and licensed practice rule.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.opened or job.new_circuit:
            continue
        moved = job.moved("recovered")
        known = data(job.refrigerant)
        # The exemption is for self-contained machines; a split or a rack with a hydrocarbon is none.
        exempt = known is not None and known.exempt_from_venting_rule
        exempt = exempt and not type_is(job.equipment, "may_have_receiver")
        if moved:
            yield ok(f"Refrigerant was recovered{when(moved[0])}.", *moved, equipment=job.machine)
        elif exempt and not job.stated("refrigerant_recovered"):
            yield not_applicable(
                f"{job.refrigerant} in a self-contained machine is outside the recovery rule; how it was "
                f"removed is "
                "asked for separately.",
                equipment=job.machine,
            )
        elif not job.stated("refrigerant_recovered") and (said := job.found_empty):
            yield ok(f"The circuit was found empty{when(said[0])}.", *said[:1], equipment=job.machine)
        elif not job.stated("refrigerant_recovered") and (down := job.phrases("pumped_down")):
            yield ok(
                f"The opened part was pumped down{when(down[0])}, as said; nothing was recovered into a "
                f"cylinder.",
                *down[:1], equipment=job.machine,
            )  # fmt: skip
        else:
            yield step_gap(job, ["refrigerant_recovered"], "recovery of the refrigerant", job.openings)
