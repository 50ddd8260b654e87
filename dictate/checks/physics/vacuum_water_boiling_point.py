"""The vacuum that was reached, and whether water boils off at it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, bounds, cite, exact, value_in
from dictate.checks.physics._cycle import AMBIENT
from dictate.checks.refrigerants import water_boils_f
from dictate.checks.rule import Finding, ok, problem, rule

ROOM = 70.0
TRIPLE_POINT = 4579.0


@rule(
    id="vacuum.water-boiling-point",
    checks="At the deepest vacuum that was said, water boils below the temperature of the system.",
    applies="a vacuum on a vacuum gauge was said",
    source="IAPWS-95 for water and IAPWS R14-08(2011) for ice: saturation temperature at a pressure; 70 °F "
    "is "
    "taken where no ambient was said",
    tag="published",
    question="How deep did it get on the vacuum gauge, with the pump shut off?",
    caution="A wet system pulled down fast freezes its water, and ice leaves slowly: warm the cold parts.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for equipment, group in facts.by_machine(
        [r for r in facts.readings("vacuum") if r.value and r.relation not in (">", ">=")]
    ).items():
        deepest = min(group, key=lambda r: value_in(r, "micron"))
        micron = bounds(deepest, "micron")[1]
        boils = water_boils_f(micron)
        if boils is None:
            continue
        ambient = [
            r for r in facts.readings("temperature", point=AMBIENT) if exact(r) and r.equipment == equipment
        ]
        deg_f = value_in(ambient[-1], "degF") if ambient else ROOM
        used = [deepest, *ambient[-1:]]
        computed = {"water boils at": (boils, "degF"), "system at": (deg_f, "degF")}
        word = "ice sublimes" if micron < TRIPLE_POINT else "water boils"
        text = f"At {cite(deepest)} {word} at {facts.degrees(boils)}"
        where = f"{facts.degrees(deg_f)}" + ("" if ambient else " (no ambient was said)")
        if boils >= deg_f - 10:
            yield problem(f"{text}, against {where}: it does not dry the system.", *used, computed=computed)
        else:
            yield ok(f"{text}, well below {where}.", *used, computed=computed)
