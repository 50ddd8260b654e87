"""A blend with glide was topped up after a leak."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs

NEAR_AZEOTROPES = ("R-404A", "R-410A")
"""Glide of about 1 °F or less: topping up changes little."""


@rule(
    id="charge.blend-topped-up",
    checks="After a leak a blend with glide is recovered and recharged in full, since a vapour leak "
    "shifts it.",
    applies="a blend with glide was topped up",
    source="trade texts on zeotropic blends and fractionation",
    tag="common practice",
    question="How large was the leak, and was it of vapour or of liquid?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        known = data(job.refrigerant)
        if known is None or not known.zeotrope or known.name in NEAR_AZEOTROPES or not job.top_up:
            continue
        yield unsure(
            f"{known.name} was topped up{when(job.charged[0])}; after a vapour leak what is left has "
            f"shifted.",
            *job.charged, equipment=job.machine,
        )  # fmt: skip
