"""Another refrigerant went in than the machine takes."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.refrigerant_data import same
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="charge.refrigerant-mismatch",
    checks="The refrigerant charged is the one on the plate, or else the one that came out.",
    applies="a refrigerant was charged and the machine's own was said",
    source="equipment nameplate; EPA section 608 examination topics (no mixing of refrigerants)",
    tag="published",
    question="Which refrigerant went in, and is that the one on the plate; or was the machine "
    "retrofitted and "
    "relabelled?",
    caution="Mixed refrigerant cannot be reclaimed normally, and pressures and oil may not fit.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        own = job.equipment.refrigerant if job.equipment is not None else None
        basis = "the plate or the machine's entry"
        if own is None:
            out = {m.refrigerant for m in job.movements("recovered") if m.refrigerant}
            own, basis = (out.pop() if len(out) == 1 else None), "what was recovered"
        if own is None:
            continue
        for moved in job.movements("charged"):
            if not moved.refrigerant:
                continue
            text = f"{moved.refrigerant} was charged{when(moved)}; {own} is {basis}"
            if same(moved.refrigerant, own):
                yield ok(f"{moved.refrigerant} was charged, as {basis} has it.", moved, equipment=job.machine)
            elif retrofit := job.phrases("retrofit"):
                yield unsure(
                    f"{text}. A change of refrigerant was mentioned{when(retrofit[0])}.",
                    moved, retrofit[0], equipment=job.machine,
                )  # fmt: skip
            else:
                yield problem(f"{text}.", moved, equipment=job.machine, blocking=True)
