"""A pair of motor terminals that should conduct and does not."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import PHASES, came_back, is_motor, to_ground, triples
from dictate.checks.facts import Facts, cite
from dictate.checks.rule import Finding, ok, problem, rule, unsure

WINDING = {"common-run": "run", "common-start": "start"}


@rule(
    id="winding.open",
    checks="Every pair of motor terminals that should conduct does, apart from an internal overload.",
    applies="the resistance between two terminals of a compressor or motor was measured",
    source="Vocational HVACR textbooks, chapter on terminal identification: infinite resistance on a pair "
    "that "
    "should conduct is an open winding",
    tag="published",
    question="Were the leads off and the shell cold, and does it still read open then?",
    caution="Power off, locked out and proved dead; leads removed. A pressurised terminal can vent and "
    "ignite: "
    "keep the cover on while it is energised.",
)
def check(facts: Facts) -> Iterator[Finding]:
    sets = triples(facts)
    for set_ in sets:
        opened = [p for p in set_.pairs if set_.open(p)]
        used = set_.readings
        said = ", ".join(cite(r) for r in used)
        name = set_.component
        again = came_back(facts, sets, set_) if opened else None
        done = facts.replaced(name, set_.equipment)
        if not opened:
            yield ok(f"No winding of the {name} is open: {said}.", *used)
        elif again is not None:
            text = f"The {name} read open ({said}) and reads again later: no winding is open."
            yield ok(text, *used, *again.readings)
        elif set_.overload_pattern:
            continue  # an open overload is no open winding: winding.overload-open says what it is
        elif set_.complete and opened == ["run-start"]:
            yield unsure(
                f"{said}: run-start is open although both windings read through common, which cannot be.",
                *used,
                question="Can run to start be measured again, with clean terminals?",
            )
        elif "run-start" in opened and len(opened) == 3:
            yield problem(f"All three pairs of the {name} are open: {said}.", *used, resolved=done)
        elif "run-start" in opened and len(opened) == 2:
            one = next(p for p in opened if p != "run-start")
            yield problem(f"The {WINDING[one]} winding of the {name} is open: {said}.", *used, resolved=done)
        elif len(opened) == 1 and any(p in set_.pairs for p in PAIRS_TO_COMMON if p not in opened):
            yield problem(
                f"The {WINDING.get(opened[0], 'motor')} winding of the {name} is open: {said}.",
                *used,
                resolved=done,
            )
        else:
            yield unsure(
                f"{said} on the {name}. Without run-start this may be the internal overload.",
                *used,
                question="What does run to start read, and is the shell cold?",
            )
    for reading in facts.readings("resistance"):
        if reading.component is None or not is_motor(reading.component) or to_ground(reading, facts):
            continue
        if reading.point in PHASES:
            pair = f"{reading.component} {cite(reading)}"
            if reading.state == "open":
                done = facts.replaced(reading.component, reading.equipment)
                yield problem(f"{pair}: a winding is open.", reading, resolved=done)
            else:
                yield ok(f"{pair}: conducts.", reading)
        elif "motor" in reading.component and reading.point in (None, "windings") and reading.state == "open":
            done = facts.replaced(reading.component, reading.equipment)
            yield problem(
                f"{reading.component} winding: {cite(reading)}.",
                reading,
                resolved=done,
                question="Was its thermal protector cold when it was measured?",
            )


PAIRS_TO_COMMON = ("common-run", "common-start")
