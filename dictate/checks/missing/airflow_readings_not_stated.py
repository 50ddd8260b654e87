"""A coil was cleaned, and nothing was measured on the machine."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs

QUANTITIES = ("pressure", "temperature", "temperature_difference", "current", "superheat", "subcooling")


@rule(
    id="airflow.readings-not-stated",
    checks="Cleaning a coil or a fan is followed by a reading that shows what it changed.",
    applies="a coil, condenser, evaporator, fan or filter was cleaned",
    source="service practice: head pressure, temperature split or amps before and after cleaning",
    tag="common practice",
    question="What did head pressure, temperature split, amps or box temperature do after the cleaning?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        cleaned = [s for s in job.steps("cleaned") if _moves_heat(s.component)]
        if not cleaned:
            continue
        if found := job.seen(*QUANTITIES):
            yield ok("Readings go with the cleaning.", *cleaned[:1], *found[-2:], equipment=job.machine)
        else:
            yield missing(
                f"The {cleaned[0].component} was cleaned{when(cleaned[0])}; no reading was stated that "
                f"shows what "
                "it changed.",
                *cleaned, equipment=job.machine,
            )  # fmt: skip


def _moves_heat(component: str | None) -> bool:
    text = (component or "").lower()
    return any(w in text for w in ("coil", "condenser", "evaporator", "fan", "air filter", "blower"))
