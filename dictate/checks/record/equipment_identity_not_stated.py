"""A machine was worked on, and neither its model nor its serial number was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule


@rule(
    id="equipment.identity-not-stated",
    checks="Each machine that was worked on is named by its model or serial number.",
    applies="work or a reading on a machine was said",
    source="40 CFR 82.157(l)(2)(i) and 84.106(l)(2): the identity of the appliance belongs to a service "
    "record; for smaller machines the same is usual in warranty claims",
    tag="common practice",
    question="What are the model and the serial number on the plate?",
)
def check(facts: Facts) -> Iterator[Finding]:
    worked = [m for m in facts.machines() if m is not None or facts.record.steps or facts.record.readings]
    for id in worked:
        machine = facts.machine(id)
        if id is None and len(worked) > 1:
            continue  # what could not be put to a machine is asked for elsewhere
        if machine is None:
            if facts.record.equipment:
                continue
            yield missing("No machine was named by model or serial number.")
        elif machine.model or machine.serial:
            name = " ".join(x for x in (machine.model, machine.serial) if x)
            yield ok(f"The machine is named: {name}.", equipment=machine.id)
        else:
            name = machine.name or machine.type or "the machine"
            yield missing(f"Neither model nor serial number was said for {name}.", equipment=machine.id)
