"""More or less went in than came out, and no reason was said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs, total


@rule(
    id="charge.differs-from-recovered",
    checks="Where what went in differs from what came out, a leak, the plate, or a wrong charge explains it.",
    applies="both the recovered and the charged amount were said for a full charge",
    source="balance of mass: charged = recovered + leaked, against the plate",
    tag="common practice",
    question="Why did more or less go in than came out: was it leaking, or wrongly charged before?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        out, back = total(job.movements("recovered"), "oz"), total(job.movements("charged"), "oz")
        if out is None or back is None or not job.full_charge:
            continue
        moved = [*job.movements("recovered"), *job.movements("charged")]
        plate = job.plate_charge("oz")
        computed = {"difference": (back - out, "oz")}
        if plate is not None:
            computed["missing before"] = (plate - out, "oz")
        text = f"Recovered {show(out, 'oz')}, charged {show(back, 'oz')}{when(moved[-1])}"
        explained = job.phrases("leaking")
        if abs(back - out) <= max(0.5, 0.05 * back):
            yield ok(f"{text}: the same.", *moved, computed=computed, equipment=job.machine)
        elif plate is not None and abs(back - plate) <= max(0.5, 0.05 * plate):
            yield ok(
                f"{text}; the plate is {show(plate, 'oz')}, so {show(plate - out, 'oz')} was missing before.",
                *moved, computed=computed, equipment=job.machine,
            )  # fmt: skip
        elif explained:
            yield ok(
                f"{text}; a reason was mentioned.",
                *moved,
                explained[0],
                computed=computed,
                equipment=job.machine,
            )
        else:
            yield unsure(f"{text}; no reason was stated.", *moved, computed=computed, equipment=job.machine)
