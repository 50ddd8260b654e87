"""A standing pressure that is not the one of liquid at that temperature."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite, exact, show, value_in
from dictate.checks.physics._cycle import AMBIENT
from dictate.checks.refrigerants import bubble_psia, dew_psia
from dictate.checks.rule import Finding, ok, rule, unsure

ALLOWED_F = 8.0
STANDING = ("static", "standing")
PSI = 14.695949


@rule(
    id="standing-pressure.off-saturation",
    checks="At rest, with liquid in it, a system stands at the saturation pressure of the air around it.",
    applies="a standing pressure, the temperature around it and the refrigerant were said",
    source="Vapour pressure from the equations of state in CoolProp (Bell et al. 2014); it holds while "
    "liquid "
    "is left and everything has one temperature",
    tag="published",
    question="How long had it stood, and was the temperature that of the coldest part?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("pressure", point=STANDING):
        psia = absolute_psi(reading)
        refrigerant = facts.refrigerant_of(reading.equipment)
        airs = [
            r
            for r in facts.readings("temperature", point=(*AMBIENT, "box"))
            if exact(r) and r.equipment == reading.equipment
        ]
        air = facts.nearest(reading, airs)
        if psia is None or air is None or not exact(reading) or psia < 3:
            continue
        deg_f = value_in(air, "degF")
        low, high = dew_psia(refrigerant, deg_f - ALLOWED_F), bubble_psia(refrigerant, deg_f + ALLOWED_F)
        middle = bubble_psia(refrigerant, deg_f)
        if low is None or high is None or middle is None:
            continue
        computed = {"saturation pressure": (middle - PSI, "psi")}
        text = f"{cite(reading)} with {cite(air)}: liquid {refrigerant} there has {show(middle - PSI, 'psi')}"
        if psia < low:
            yield unsure(
                f"{text}. It stands lower, as a system does that holds vapour only.",
                reading,
                air,
                computed=computed,
                question="Is there any liquid left, and where has the charge gone?",
            )
        elif psia > high:
            yield unsure(
                f"{text}. It stands higher.",
                reading,
                air,
                computed=computed,
                question="Is there air or nitrogen in it, another refrigerant, or was it still warm?",
            )
        else:
            yield ok(f"{text}.", reading, air, computed=computed)
