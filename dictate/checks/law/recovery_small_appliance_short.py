"""A small appliance gave up less than the share that federal law asks for."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.law._recovery import recoveries
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies, small_appliance_share
from dictate.checks.rule import Finding, not_applicable, ok, rule, unsure
from dictate.checks.words import Said, when
from dictate.checks.work import Job, total


@rule(
    id="recovery.small-appliance-short",
    checks="From a small appliance 90 % of what is in it is recovered, 80 % with a dead compressor, or "
    "4 inHg reached.",
    applies="the visit is in the USA, a small appliance was opened, and the amount and the plate charge "
    "were said",
    source="40 CFR 82.156(b); the share is of what is in the appliance, not of the plate",
    tag="published",
    question="Had the machine leaked before, and did the compressor run during recovery?",
    caution=RULES_ABOVE,
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in recoveries(facts):
        if not item.small or any((r.value or 0) >= 4 for r in item.reached):
            continue
        job = item.job
        moved = job.movements("recovered")
        recovered, plate = total(moved, "oz"), job.plate_charge("oz")
        if recovered is None or not plate:
            continue
        dead = _compressor_dead(job)
        share = small_appliance_share(compressor_runs=not dead)
        got = 100 * recovered / plate
        computed = {"share of plate": (got, "%"), "required": (share, "%")}
        out = f"{show(recovered, 'oz')} recovered{when(moved[0])}"
        text = f"{out}, {got:.0f}% of the plate's {show(plate, 'oz')}"
        if got >= share - 1e-6:
            yield ok(f"{text}; {share:.0f}% is asked for.", *moved, computed=computed, equipment=job.machine)
        else:
            yield unsure(
                f"{text}; {share:.0f}% of what was in it is asked for. A leaking machine may hold less "
                f"than its plate.",
                *moved, *dead[:1], computed=computed, equipment=job.machine,
            )  # fmt: skip


def _compressor_dead(job: Job) -> list[Said]:
    """Return what says that the compressor does not run: it was replaced, or did not start."""
    dead: list[Said] = [h.thing for h in job.handled_named("compressor") if h.kind == "circuit"]
    dead += [e for e in job.events() if e.component == "compressor" and "not" in e.event.lower()]
    return dead
