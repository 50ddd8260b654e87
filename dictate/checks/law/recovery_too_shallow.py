"""Recovery did not reach the level that federal law asks for."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.law._recovery import recoveries
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule, unsure
from dictate.checks.words import when


@rule(
    id="recovery.too-shallow",
    checks="Recovery before opening reaches the level of Table 1 for the refrigerant's pressure class "
    "and charge.",
    applies="the visit is in the USA, a circuit was opened, and the recovery level was said",
    source="40 CFR 82.156 Table 1; major repair as defined in 82.152 (a non-major one needs 0 psig only)",
    tag="published",
    question="Was the recovery continued to the required level, and was the recovery machine made "
    "before November 1993?",
    caution=f"A rise after some minutes means liquid left in the oil or the unit. {RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for item in recoveries(facts):
        if not item.reached or item.required is None:
            continue
        last = item.reached[-1]
        depth = last.value or 0.0
        required = 4.0 if item.small else item.required
        computed = {"reached": (depth, "inHg"), "required": (required, "inHg")}
        text = f"Recovered to {show(depth, 'inHg')}{when(last)}; {item.name} needs {required:g} inHg here"
        if depth >= required - 0.05:
            yield ok(f"{text}.", last, computed=computed, equipment=item.job.machine)
        elif item.small:
            yield unsure(
                f"{text}, or 80 to 90 % of what was in the machine.",
                last, computed=computed, equipment=item.job.machine,
            )  # fmt: skip
        else:
            short = required - depth
            yield problem(
                f"{text}: short by {short:g} inHg.", last, computed=computed, equipment=item.job.machine
            )
