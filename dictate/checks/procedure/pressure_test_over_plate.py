"""A test pressure above what the plate allows."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, number_in, show
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.tightness import tests
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="pressure-test.over-plate",
    checks="The test pressure stays at or below the design or test pressure on the plate, each side for "
    "itself.",
    applies="a pressure test and a plate pressure were said",
    source="ASHRAE 15, marking and field test; EPA section 608 examination topics (low-side test pressure)",
    tag="published",
    question="Which side was tested, and what does the plate give for that side?",
    caution="The plate's low-side pressure is usually far below its high-side pressure: test them "
    "apart, or to the "
    "lower one.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        plates = sorted(
            number_in(p.value, p.unit, "psi")
            for p in facts.plate(job.equipment_id, "pressure")
            if p.unit not in ("inHg", "micron")
        )
        plates = [p for p in plates if p >= 50]
        for test in tests(job):
            if test.highest is None or not plates:
                continue
            said = f"Tested to {show(test.highest, 'psi')}{when(test.things[0])}"
            computed = {"test": (test.highest, "psi"), "plate": (plates[-1], "psi")}
            if test.highest > plates[-1] * 1.005:
                yield problem(
                    f"{said}, the plate gives {show(plates[-1], 'psi')}.",
                    *test.things, computed=computed, equipment=job.machine,
                )  # fmt: skip
            elif test.highest > plates[0] * 1.005:
                yield unsure(
                    f"{said}: within the plate's {show(plates[-1], 'psi')}, over its "
                    f"{show(plates[0], 'psi')} for "
                    "the other side.",
                    *test.things, computed=computed, equipment=job.machine,
                )  # fmt: skip
            else:
                yield ok(f"{said}, within the plate.", *test.things, computed=computed, equipment=job.machine)
