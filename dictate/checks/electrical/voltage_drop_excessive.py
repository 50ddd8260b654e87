"""Too much voltage lost between the panel and the load."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading

BRANCH, TOTAL = 3.0, 5.0
SOURCE = ("panel", "breaker", "disconnect switch", "disconnect", "receptacle", "outlet", "plug")
SWITCHES = ("disconnect switch", "disconnect", "breaker", "fuse", "fuse block", "terminal block")
NOT_A_LOAD = ("contactor", "transformer", "relay", "board", "thermostat", "capacitor", "sensor", "timer")


def _is_source(r: Reading) -> bool:
    return (r.component in SOURCE or r.point in ("panel", "supply")) and r.point != "load"


def _is_load(r: Reading) -> bool:
    if r.component is None or r.component in SOURCE or any(w in r.component for w in NOT_A_LOAD):
        return False
    return r.point in (None, "load", "line", "terminals", "common-run", "L1-L2", "L2-L3", "L1-L3")


@rule(
    id="voltage.drop-excessive",
    checks="Between panel and load no more than 3 % is lost in the branch, and 5 % in all.",
    applies="the voltage was measured at the panel or disconnect and at the load, or a loss was said",
    source="NFPA 70 (NEC), informational notes to 210.19(A) and 215.2(A): 3 % for the branch, 5 % with the "
    "feeder; advice, not a requirement",
    tag="published",
    question="What are the two voltages under load, and where between them is it lost?",
    caution="Line voltage is measured live: by qualified persons only, under the employer's rules.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine(facts.readings("voltage")).values():
        for moment in facts.same_moment(group):
            live = [r for r in moment if exact(r) and not r.derived and value_in(r, "V") >= 60]
            for load in live:
                if _is_load(load):
                    sources = [r for r in live if _is_source(r) and _fits(r, load)]
                elif load.component in SWITCHES and load.point == "load":
                    sources = [r for r in live if r.component == load.component and r.point == "line"]
                else:
                    continue
                source = facts.nearest(load, sources)
                if source is not None and value_in(load, "V") >= 0.6 * value_in(source, "V"):
                    yield _judge(facts, value_in(source, "V") - value_in(load, "V"), source, load)
            for lost in moment:
                if not lost.derived or not exact(lost) or "contactor" in (lost.component or ""):
                    continue
                sources = [r for r in live if value_in(r, "V") > 4 * value_in(lost, "V")]
                source = max(sources, key=lambda r: value_in(r, "V"), default=None)
                device = any(r.component == "contactor" for r in live)
                if source is not None and not device and not any(_is_load(r) for r in live):
                    yield _judge(facts, value_in(lost, "V"), source, lost)


def _fits(source: Reading, load: Reading) -> bool:
    """True when the two were read on the same pair of lines, as far as that was said."""
    lines = ("L1-L2", "L2-L3", "L1-L3")
    return source.point == load.point or source.point not in lines or load.point not in lines


def _judge(facts: Facts, lost: float, source: Reading, load: Reading) -> Finding:
    percent = 100 * lost / value_in(source, "V")
    computed = {"lost": (lost, "V"), "drop": (percent, "%")}
    name = load.component or "load"
    text = f"{lost:.3g} V or {percent:.1f} % is lost: {cite(source)} to {name} {cite(load)}"
    if percent < -2:
        text = f"{name} {cite(load)} is higher than {cite(source)}, which cannot be on one circuit"
        return unsure(f"{text}.", source, load, computed=computed)
    if percent <= BRANCH:
        return ok(f"{text}.", source, load, computed=computed)
    if percent <= TOTAL:
        return unsure(
            f"{text}: over 3 %, within the 5 % for feeder and branch together.",
            source,
            load,
            computed=computed,
            question="Is the panel reading at the service or at the last panel, and was it under load?",
        )
    done = load.stage != "as_left" and (
        facts.replaced(load.component, load.equipment) or facts.replaced(source.component, source.equipment)
    )
    return problem(f"{text}: over 5 %.", source, load, computed=computed, resolved=done)
