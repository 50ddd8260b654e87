"""A pressure test that lost pressure, after the change of temperature is taken out."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.rule import Finding, Numbers, ok, problem, rule, unsure
from dictate.checks.tightness import PressureTest, expected_psi, readable, tests
from dictate.checks.words import when
from dictate.checks.work import Job, jobs
from dictate.vocabulary.load import table


@rule(
    id="pressure-test.dropped",
    checks="The end pressure is the start pressure corrected for the gas's temperature, both taken absolute.",
    applies="start and end of a pressure test, or its result, were said",
    source="ideal gas law at constant volume, absolute pressure and temperature; UFGS refrigerant "
    "piping (legacy 15182) "
    "(corrected end "
    "pressure equals start pressure)",
    tag="published",
    question="What were the temperatures at the start and at the end, and was the leak found and the "
    "test repeated?",
    caution="Read the temperature of the pipe, not of the sun on it. Gas stays under pressure until it "
    "is let out.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        all_tests = [t for t in tests(job) if t.said or (t.start is not None and t.end is not None)]
        if all_tests:
            # The last attempt counts; the failed ones before it stay visible in its words.
            earlier = [t for t in all_tests[:-1] if _lost(t)[0] or t.said == "failed"]
            yield _judge(job, all_tests[-1], earlier)


def _lost(test: PressureTest) -> tuple[float, float | None, bool]:
    """Return (psi lost beyond what a gauge can tell or 0, expected end, temperatures known)."""
    if test.start is None or test.end is None:
        return 0.0, None, False
    known = test.start_temperature is not None and test.end_temperature is not None
    want = (
        expected_psi(test.start, test.start_temperature, test.end_temperature)
        if test.start_temperature is not None and test.end_temperature is not None
        else test.start
    )
    lost = want - test.end
    return (lost if lost > readable(test.start) else 0.0), want, known


def _judge(job: Job, test: PressureTest, earlier: list[PressureTest]) -> Finding:
    lost, want, known = _lost(test)
    things = [*test.things, *(t for e in earlier for t in e.things)]
    before = "".join(f" Attempt {e.number} before it failed{_numbers(e)}." for e in earlier)
    said = f"Pressure test{_numbers(test)}{when(test.things[0])}"
    computed: Numbers = {}
    if test.start is not None and test.end is not None and want is not None:
        computed = {"expected end": (want, "psi"), "lost": (want - test.end, "psi")}
    if test.said == "failed" and not lost:
        return problem(
            f"{said}: said to have failed.{before}", *things, computed=computed, equipment=job.machine
        )
    if not lost:
        warm = f", {show(want, 'psi')} expected after the change of temperature" if known and want else ""
        unsaid = "" if known or test.end is None else " Temperatures were not stated."
        return ok(f"{said}: held{warm}.{unsaid}{before}", *things, computed=computed, equipment=job.machine)
    if not known:
        # How much colder would the gas have to be for this drop: (P + atm) / T is the slope per degree.
        swing = table("procedure_limits")["pressure_test"]["swing"]
        assert test.start is not None
        by_cold = test.start - expected_psi(test.start, 75.0, 75.0 - swing)
        if lost <= by_cold:
            return unsure(
                f"{said}: {show(lost, 'psi')} lower. {swing} °F colder gas would read "
                f"{show(by_cold, 'psi')} lower; "
                f"the temperatures were not stated.{before}",
                *things, computed=computed, equipment=job.machine,
            )  # fmt: skip
    assert test.start is not None and test.end is not None
    if test.end < test.start / 2 and test.said != "failed":
        return unsure(
            f"{said}: less than half is left. Whether the second value is the end of this test is not "
            f"clear.{before}",
            *things, computed=computed, equipment=job.machine,
        )  # fmt: skip
    why = (
        f"{show(want, 'psi')} was expected at the end temperature" if known and want else
        "more than a change of temperature in a short hold makes"
    )  # fmt: skip
    return problem(
        f"{said}: {show(lost, 'psi')} lost ({why}).{before}",
        *things,
        computed=computed,
        equipment=job.machine,
    )


def _numbers(test: PressureTest) -> str:
    """Write an attempt's numbers: " 250 psi at 75 °F to 232 psi at 55 °F"."""
    if test.start is None:
        return ""
    text = f" {show(test.start, 'psi')}"
    text += f" at {show(test.start_temperature, 'degF')}" if test.start_temperature is not None else ""
    if test.end is not None:
        text += f" to {show(test.end, 'psi')}"
        text += f" at {show(test.end_temperature, 'degF')}" if test.end_temperature is not None else ""
    return text
