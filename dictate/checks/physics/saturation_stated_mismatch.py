"""A saturation temperature that does not belong to the pressure said with it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure

ALLOWED = 3.0
PAIRS = (
    ("saturated suction", ("suction", "vapor", "vapour")),
    ("saturated condensing", ("discharge", "liquid")),
)


@rule(
    id="saturation.stated-mismatch",
    checks="A saturation temperature that was said lies between bubble and dew at the pressure, within 3 °F.",
    applies="a saturation temperature, its pressure and the refrigerant were said",
    source="Saturation temperature from the equations of state in CoolProp (Bell et al. 2014)",
    tag="published",
    question="Which is off: the pressure, the chart used, or the refrigerant?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        for point, places in PAIRS:
            for said, pressure in moment.with_nearest(moment.temperatures(point), moment.pressures(*places)):
                dew, bubble = moment.dew(pressure), moment.bubble(pressure)
                if dew is None or bubble is None:
                    continue
                value = value_in(said, "degF")
                computed = {"dew temperature": (dew, "degF"), "bubble temperature": (bubble, "degF")}
                span = (
                    facts.degrees(dew)
                    if dew - bubble < 1.5
                    else f"{facts.degrees(bubble)} to {facts.degrees(dew)}"
                )
                text = f"{cite(said)} was said; {moment.refrigerant} at {cite(pressure)} has {span}"
                allowed = ALLOWED + (3.0 if said.relation == "~" else 0.0)
                if bubble - allowed <= value <= dew + allowed:
                    yield ok(f"{text}.", said, pressure, computed=computed)
                else:
                    yield unsure(f"{text}.", said, pressure, computed=computed)
