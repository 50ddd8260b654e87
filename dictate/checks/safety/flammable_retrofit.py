"""A hydrocarbon in a machine whose plate names another refrigerant."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="flammable.retrofit",
    checks="A hydrocarbon is charged only into a machine whose plate names it.",
    applies="a class A3 refrigerant was charged and the plate's refrigerant was said",
    source="SNAP use conditions (76 FR 78832): hydrocarbons in new, purpose-built equipment only",
    tag="published",
    question="Is the refrigerant on the plate really another one, or was a name misheard?",
    caution="A machine not built for a flammable refrigerant has ignition sources inside.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        plate = data(job.equipment.refrigerant if job.equipment else None)
        for moved in job.movements("charged"):
            known = data(moved.refrigerant)
            if known is None or plate is None or not known.highly_flammable:
                continue
            if plate.highly_flammable:
                yield ok(f"{known.name} into a machine for {plate.name}.", moved, equipment=job.machine)
            else:
                yield problem(
                    f"{known.name} (class {known.safety}) was charged{when(moved)} into a machine for "
                    f"{plate.name}.",
                    moved, equipment=job.machine,
                )  # fmt: skip
