"""A new machine was started, and its first figures were not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import listing, when
from dictate.checks.work import jobs

WANTED = {
    "supply voltage": ("voltage",),
    "running amps": ("current",),
    "temperatures or pressures": (
        "temperature",
        "pressure",
        "superheat",
        "subcooling",
        "temperature_difference",
    ),
}


@rule(
    id="commissioning.figures-not-stated",
    checks="A first start leaves supply voltage, running amps, and temperatures or pressures in the record.",
    applies="a new machine was installed or commissioned",
    source="service practice: start-up sheet of a new machine",
    tag="common practice",
    question="What were supply voltage, running amps, pressures and temperatures at the first start?",
    caution="The maker's start-up procedure, local codes and licensed practice rule.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if not job.new_machine:
            continue
        lacking = [name for name, kinds in WANTED.items() if not job.seen(*kinds)]
        if lacking:
            yield missing(
                f"A new machine was started{when(job.new_machine[0])}; not stated: {listing(lacking)}.",
                job.new_machine[0], equipment=job.machine,
            )  # fmt: skip
        else:
            yield ok("The first start has its figures.", job.new_machine[0], equipment=job.machine)
