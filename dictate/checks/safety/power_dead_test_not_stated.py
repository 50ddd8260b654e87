"""Hard-wired work, or a handled capacitor, and no test for absence of voltage."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import because, step_gap
from dictate.checks.rule import Finding, rule, unsure
from dictate.checks.words import type_is
from dictate.checks.work import jobs


@rule(
    id="power.dead-test-not-stated",
    checks="Hard-wired work, and any work on a capacitor, says that absence of voltage was tested.",
    applies="hard-wired parts or a capacitor were handled (a pulled plug in hand is outside it)",
    source="29 CFR 1910.333(b)(2)(iv)(B) and 1910.147(a)(2)(iii)(A) (cord and plug); NFPA 70E 120.5",
    tag="published",
    question="Was it tested dead with a meter that was proven on a known source before and after?",
    caution="A non-contact tester is no proof of absence of voltage. Test phase to phase and phase to "
    "ground.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        called_by = job.capacitor_work or job.hands_in
        if not called_by or (not job.capacitor_work and job.plugged):
            continue
        cord_is_likely = not job.capacitor_work and type_is(job.equipment, "plug_in")
        steps = job.stated("absence_of_voltage_verified", status=None)
        if cord_is_likely and not steps and not job.stated("power_isolated"):
            yield unsure(
                f"A test for absence of voltage was not stated ({because(called_by)}). This kind "
                f"of machine "
                "often has a cord and plug; hard-wired work calls for the test.",
                *called_by,
                question="Was it unplugged with the plug kept in hand, or is it hard-wired and was "
                "tested dead?",
                equipment=job.machine,
            )
        else:
            yield step_gap(job, ["absence_of_voltage_verified"], "a test for absence of voltage", called_by)
