"""A triple evacuation without a word of the nitrogen between the pulls."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import when
from dictate.checks.work import jobs

FIRST_PULL = 1500.0
"""Micron, the depth of the first two pulls; each break to atmosphere thins the old gas to 1 500/760 000."""
ATMOSPHERE = 760_000.0


def dilution(pulls: int, depth: float = FIRST_PULL) -> float:
    """Return what share of the first gas is left after so many pulls to a depth in micron."""
    return (depth / ATMOSPHERE) ** pulls


@rule(
    id="evacuation.breaks-not-stated",
    checks="A triple evacuation breaks the first two vacuums with dry nitrogen.",
    applies="a triple evacuation was said",
    source="training texts on triple evacuation (1 500 micron, break with dry nitrogen, final 500)",
    tag="published",
    question="Were the first two vacuums broken with dry nitrogen, and at what depth?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        triple = job.phrases("triple")
        steps = job.steps("evacuated")
        if not triple or not steps:
            continue
        if broke := job.phrases("broke_with_nitrogen"):
            left = dilution(3)
            yield ok(
                f"Triple evacuation with nitrogen breaks{when(broke[0])}; at 1 500 micron each leaves "
                f"{left:.1e} of "
                "the first gas.",
                *steps[:1], broke[0], equipment=job.machine,
            )  # fmt: skip
        else:
            yield missing(
                f"A triple evacuation was said{when(triple[0])}; breaks with dry nitrogen were not stated.",
                *steps[:1], triple[0], equipment=job.machine,
            )  # fmt: skip
