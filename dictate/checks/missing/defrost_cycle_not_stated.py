"""Defrost parts were changed or set, and no defrost was run."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said
from dictate.checks.work import jobs, shows_running


@rule(
    id="defrost.cycle-not-stated",
    checks="After work on the defrost a defrost is run: heaters draw current, and it ends by itself.",
    applies="a defrost part was changed, repaired or adjusted",
    source="service practice: defrosts end at about 50 to 55 °F coil within 15 to 45 minutes",
    tag="common practice",
    question="Was a defrost run, what did the heaters draw, and at what coil temperature did it end?",
    caution="Heaters and their terminals are live during the test.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        parts: list[Said] = [h.thing for h in job.handled_named("defrost") if h.action != "removed"]
        parts += [s for s in job.steps("adjusted") if "defrost" in (s.component or "").lower()]
        if not parts or job.phrases("left_off"):
            continue
        shown: list[Said] = [
            e for e in job.events() if _of_defrost(e.event, e.component) and shows_running(e)
        ]
        shown += [
            r
            for r in job.seen("current", "duration", "power", "temperature")
            if r.stage == "as_left" and _of_defrost(r.heard, r.component, r.point)
        ]
        shown += [s for s in job.stated("run_checked") if _of_defrost(s.heard, s.component)]
        shown += job.phrases("defrost_run")
        if shown:
            yield ok("A defrost was run after the work.", *shown[:2], equipment=job.machine)
        else:
            yield missing(
                f"A defrost after the work was not stated ({because(parts)}).", *parts, equipment=job.machine
            )


def _of_defrost(*texts: str | None) -> bool:
    return any(w in (t or "").lower() for t in texts for w in ("defrost", "heater", "coil", "terminat"))
