"""A superheat that does not follow from the pressure and the temperature that were said with it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.physics._cycle import Moment, moments
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.record.visit import Reading

ALLOWED = 4.0
"""°F: what a gauge, a pipe clamp and a chart may be off together."""


@rule(
    id="superheat.stated-mismatch",
    checks="The superheat that was said agrees with the one worked out from pressure and line temperature.",
    applies="superheat, suction line temperature, and its pressure with the refrigerant or its saturation "
    "temperature were all said",
    source="Dew temperature from the equations of state in CoolProp (Bell et al. 2014); superheat is counted "
    "from the dew and not the bubble temperature",
    tag="published",
    question="Which of the three is off: the pressure, the line temperature or the superheat?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        said = [r for r in moment.readings if r.quantity == "superheat" and exact(r)]
        pairs = list(moment.superheats())
        for reading in said:
            close = facts.nearest(reading, [line for line, _, _, _ in pairs])
            match = next((p for p in pairs if p[0] is close), None)
            if match is None or abs(facts.place(reading) - facts.place(match[0])) > 6:
                yield from _from_said_saturation(moment, reading)
                continue
            line, pressure, dew, superheat = match
            value = value_in(reading, "delta_degF")
            bubble = moment.bubble(pressure)
            computed = {"superheat": (superheat, "delta_degF"), "dew temperature": (dew, "degF")}
            text = f"{cite(line)} less the dew temperature {facts.degrees(dew)} of {moment.refrigerant} at "
            text += (
                f"{cite(pressure)} makes {facts.difference(superheat)}; {cite(reading, 'superheat')} was said"
            )
            used = [reading, line, pressure]
            if abs(value - superheat) <= ALLOWED:
                yield ok(f"{text}.", *used, computed=computed)
            elif (
                bubble is not None
                and moment.glides(pressure)
                and abs(value_in(line, "degF") - bubble - value) <= ALLOWED / 2
            ):
                yield unsure(
                    f"{text}. It fits the bubble temperature {facts.degrees(bubble)}, and superheat is "
                    "counted from the dew temperature.",
                    *used,
                    computed=computed,
                    question="Was the bubble (liquid) column of the chart used for the superheat?",
                )
            else:
                yield unsure(f"{text}.", *used, computed=computed)


def _from_said_saturation(moment: Moment, reading: Reading) -> Iterator[Finding]:
    """Compare with the saturated suction temperature that was said, where no pressure goes with the line."""
    facts = moment.facts
    lines = moment.temperatures("suction", "evaporator outlet")
    saturations = moment.temperatures("saturated suction")
    line, saturation = facts.nearest(reading, lines), facts.nearest(reading, saturations)
    if line is None or saturation is None or max(len(lines), len(saturations)) > 1:
        return
    superheat = value_in(line, "degF") - value_in(saturation, "degF")
    computed = {"superheat": (superheat, "delta_degF")}
    text = f"{cite(line)} less {cite(saturation)} makes {facts.difference(superheat)}; "
    text += f"{cite(reading, 'superheat')} was said"
    used = [reading, line, saturation]
    if abs(value_in(reading, "delta_degF") - superheat) <= ALLOWED:
        yield ok(f"{text}.", *used, computed=computed)
    else:
        yield unsure(
            f"{text}.",
            *used,
            computed=computed,
            question="Were pressure and temperature read at the same place?",
        )
