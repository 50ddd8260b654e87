"""A joint was brazed, and no nitrogen was said to flow through it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because, step_gap
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import Said, when
from dictate.checks.work import jobs

HOT_JOINTS = ("compressor", "coil", "condenser", "evaporator", "drier", "dryer")


@rule(
    id="purge.not-stated",
    checks="Dry nitrogen flows through the pipe while a joint is brazed.",
    applies="a joint was brazed, or a compressor, coil or drier was replaced and no other way of "
    "joining was said",
    source="copper tube handbooks and compressor service manuals: inert purge while brazing (scale is "
    "black copper "
    "oxide)",
    tag="published",
    question="Did nitrogen flow through the joint while it was brazed, and was it vented at the far end?",
    caution="Only just perceptible flow, never dead-ended; regulator and relief on the cylinder; ventilate.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        brazed = job.steps("brazed")
        parts = [
            h
            for h in job.handled_of("circuit", "drier")
            if h.action in ("replaced", "installed") and any(n in h.name.lower() for n in HOT_JOINTS)
        ]
        called_by: list[Said] = [*brazed] or [h.thing for h in parts]
        if not called_by or (not brazed and job.phrases("joined_without_flame")):
            continue
        other = job.stated("nitrogen_swept")
        heard = [] if job.stated("pressure_tested") or job.tests("pressure_test") else job.phrases("nitrogen")
        flow = job.phrases("nitrogen_flow")
        if not job.stated("nitrogen_purged", status=None) and flow:
            yield ok(
                f"Nitrogen flowed while brazing, as said{when(flow[0])}.", flow[0], equipment=job.machine
            )
        elif not job.stated("nitrogen_purged", status=None) and (other or heard):
            yield unsure(
                f"Nitrogen was mentioned, but not that it flowed while the joint was brazed "
                f"({because(called_by)}).",
                *other[:1], *heard[:1], *called_by, equipment=job.machine,
            )  # fmt: skip
        else:
            yield step_gap(job, ["nitrogen_purged"], "a nitrogen purge while brazing", called_by)
