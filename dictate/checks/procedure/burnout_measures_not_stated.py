"""A burnt-out compressor was replaced, and no acid test or suction drier was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said, when
from dictate.checks.work import jobs


@rule(
    id="drier.burnout-measures-not-stated",
    checks="After a burnout the oil or acid is tested and a suction-line drier goes in.",
    applies="a compressor was replaced and a burnout or acid was said",
    source="TM 5-4120-285-15, clean-up after compressor burnout (suction-line drier, re-check of oil "
    "and acid)",
    tag="published",
    question="Was the oil tested for acid, and was a suction-line drier put in, to be changed later?",
    caution="Burnt refrigerant and oil are acid: gloves and eye protection.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        compressors = [h.thing for h in job.handled_named("compressor") if h.kind == "circuit"]
        burnt = job.phrases("burnout")
        if not compressors or not burnt:
            continue
        suction: list[Said] = [h.thing for h in job.handled_of("drier") if "suction" in h.name.lower()]
        suction += job.phrases("suction_drier")
        tested = job.phrases("acid_tested")
        lacking = [
            n
            for n, have in (("a suction-line drier", suction), ("a test of oil or acid", tested))
            if not have
        ]
        if not lacking:
            yield ok(
                "Suction-line drier and acid test were stated.",
                *suction[:1],
                *tested[:1],
                equipment=job.machine,
            )
        else:
            yield missing(
                f"“{burnt[0].heard}” was said{when(burnt[0])} and the compressor replaced; not stated: "
                f"{' and '.join(lacking)}.",
                *compressors[:1], burnt[0], equipment=job.machine,
            )  # fmt: skip
