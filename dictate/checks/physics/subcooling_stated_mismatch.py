"""A subcooling that does not follow from the pressure and the temperature that were said with it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure

ALLOWED = 4.0
FROM_DISCHARGE = 6.0
"""°F: more where only the discharge pressure was read, which lies above that of the liquid."""


@rule(
    id="subcooling.stated-mismatch",
    checks="The subcooling that was said agrees with the one worked out from pressure and liquid "
    "temperature.",
    applies="subcooling, head or liquid pressure, liquid line temperature and refrigerant were all said",
    source="Bubble temperature from the equations of state in CoolProp (Bell et al. 2014); subcooling is "
    "counted from the bubble and not the dew temperature",
    tag="published",
    question="Which of the three is off: the pressure, the liquid temperature or the subcooling?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        said = [r for r in moment.readings if r.quantity == "subcooling" and exact(r)]
        pairs = list(moment.subcoolings())
        for reading in said:
            close = facts.nearest(reading, [line for line, _, _, _ in pairs])
            match = next((p for p in pairs if p[0] is close), None)
            if match is None or abs(facts.place(reading) - facts.place(match[0])) > 6:
                continue
            line, pressure, bubble, subcooling = match
            value = value_in(reading, "delta_degF")
            dew = moment.dew(pressure)
            computed = {"subcooling": (subcooling, "delta_degF"), "bubble temperature": (bubble, "degF")}
            text = (
                f"The bubble temperature {facts.degrees(bubble)} of {moment.refrigerant} at {cite(pressure)} "
            )
            text += (
                f"less {cite(line)} makes {facts.difference(subcooling)}; "
                f"{cite(reading, 'subcooling')} was said"
            )
            used = [reading, line, pressure]
            allowed = FROM_DISCHARGE if pressure.point == "discharge" else ALLOWED
            if abs(value - subcooling) <= allowed:
                yield ok(f"{text}.", *used, computed=computed)
            elif (
                dew is not None
                and moment.glides(pressure)
                and abs(dew - value_in(line, "degF") - value) <= ALLOWED / 2
            ):
                yield unsure(
                    f"{text}. It fits the dew temperature {facts.degrees(dew)}, and subcooling is counted "
                    "from "
                    "the bubble temperature.",
                    *used,
                    computed=computed,
                    question="Was the dew (vapour) column of the chart used for the subcooling?",
                )
            else:
                yield unsure(f"{text}.", *used, computed=computed)
