"""A control was changed or adjusted, and its setting was not said."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.checks.words import Said
from dictate.checks.work import jobs

CONTROLS = (
    "thermostat",
    "temperature control",
    "controller",
    "pressure control",
    "low pressure switch",
    "fan cycle control",
)


@rule(
    id="controls.setting-not-stated",
    checks="A control that was changed or adjusted is left with its setting told: set point, cut-in, "
    "cut-out.",
    applies="a thermostat, temperature control or adjustable pressure control was changed or adjusted",
    source="service practice: the setting left behind is part of the record",
    tag="common practice",
    question="At what set point, cut-in and cut-out was the control left?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        parts: list[Said] = [
            h.thing for h in job.handled_named(*CONTROLS) if h.action in ("replaced", "installed")
            and "defrost" not in h.name.lower()
        ]  # fmt: skip
        parts += [
            s
            for s in job.steps("adjusted")
            if any(c in (s.component or "").lower() for c in CONTROLS)
            and "defrost" not in (s.component or "").lower()
        ]
        if not parts:
            continue
        set_to = job.seen("temperature", "pressure", "temperature_difference", role="target")
        told: list[Said] = [*set_to, *job.phrases("setting")]
        if told:
            yield ok("A setting was stated.", *told[:2], equipment=job.machine)
        else:
            yield missing(
                f"The setting of the control was not stated ({because(parts)}).",
                *parts,
                equipment=job.machine,
            )
