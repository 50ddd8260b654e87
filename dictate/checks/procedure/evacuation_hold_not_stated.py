"""An evacuation, and nothing said of its holding."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.vacuum import Attempt, attempts, failed, numbers, watched
from dictate.checks.words import Said, said_after, when
from dictate.checks.work import jobs


@rule(
    id="evacuation.hold-not-stated",
    checks="After the final vacuum the pump is valved off and the rise is watched.",
    applies="the system was evacuated",
    source="UFGS refrigerant piping (legacy 15182), evacuation: pump isolated and vacuum held; training "
    "texts: 10 to 15 minutes "
    "isolated",
    tag="published",
    question="Was the pump valved off, for how many minutes, and where did the gauge end?",
    caution="A reading with the pump open says nothing of the system.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        pulled = attempts(job)
        steps = job.steps("evacuated")
        if not job.charged and job.phrases("pump_left_running"):
            continue  # the evacuation goes on after this visit
        if not pulled and not steps:
            continue
        # The last attempt counts: a hold of the one before says nothing of it.
        last = pulled[-1] if pulled else None
        if last is not None and (last.said or last.end is not None):
            yield ok("A hold was stated.", *last.things, equipment=job.machine)
            continue
        if last is not None and len(pulled) > 1 and watched(job, last, pulled[-2]):
            yield ok("A hold of the last attempt was stated.", *last.things, equipment=job.machine)
            continue
        finding = step_gap(
            job, ["vacuum_held"], "a hold of the vacuum with the pump valved off", steps or _things(last)
        )
        if finding.outcome == "ok" and last is not None and len(pulled) > 1:
            held = job.stated("vacuum_held")
            if all(said_after(h, last.things[0]) is False for h in held):
                finding = missing(
                    f"A hold of the last attempt at the vacuum{when(last.things[0])} was not stated.",
                    *last.things, equipment=job.machine,
                )  # fmt: skip
        if finding.outcome != "ok":
            finding.message += "".join(
                f" Attempt {a.number} before it failed ({numbers(a)})." for a in pulled[:-1] if failed(job, a)
            )
        yield finding


def _things(attempt: Attempt | None) -> list[Said]:
    return attempt.things if attempt is not None else []
