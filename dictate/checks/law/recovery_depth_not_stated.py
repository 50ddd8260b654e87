"""Federal law asks for a recovery level, and the level reached was not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.law._recovery import Recovery, recoveries
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, missing, not_applicable, ok, rule
from dictate.checks.words import when


@rule(
    id="recovery.depth-not-stated",
    checks="Where a vacuum is required before opening, the record says the level that recovery reached.",
    applies="the visit is in the USA, a circuit was opened after recovery, and its refrigerant needs a "
    "vacuum",
    source="40 CFR 82.156(a) and Table 1",
    tag="published",
    question="To how many inches of vacuum did the recovery pull, and did it stay there?",
    caution=RULES_ABOVE,
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in recoveries(facts):
        if item.small or not item.required:
            continue
        if item.reached:
            yield ok(
                f"The level was stated{when(item.reached[-1])}.", item.reached[-1], equipment=item.job.machine
            )
        elif not item.empty:
            yield _missing(item)


def _missing(item: Recovery) -> Finding:
    return missing(
        f"The level that recovery reached was not stated; {item.name} in this machine needs "
        f"{item.required:g} inHg "
        f"({because(item.job.openings)}).",
        *item.job.recovered, equipment=item.job.machine,
        computed={"required": (item.required or 0.0, "inHg")},
    )  # fmt: skip
