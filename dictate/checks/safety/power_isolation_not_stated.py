"""Work on wired, moving or pressurised parts, and nothing said of isolating the power."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts
from dictate.checks.gaps import step_gap
from dictate.checks.rule import Finding, rule
from dictate.checks.work import jobs


@rule(
    id="power.isolation-not-stated",
    checks="Work on parts that are wired, turn, or belong to the refrigerant circuit says how power was "
    "isolated.",
    applies="such a part was handled, a winding was ohmed, or a capacitor was handled",
    source="29 CFR 1910.147(d) and 1910.333(b)(2), order of lockout; local rules where others hold",
    tag="published",
    question="Where was the power isolated, and was it locked out or the plug kept in hand?",
    caution="A thermostat, switch or control is no isolation. Isolate, lock, relieve stored energy and "
    "prove it "
    "dead under the rules that hold at the site.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        if job.hands_in:
            yield step_gap(job, ["power_isolated"], "isolation of the power", job.hands_in)
