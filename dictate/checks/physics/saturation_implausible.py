"""A pressure that would mean a temperature which no such machine runs at."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, absolute_psi, cite
from dictate.checks.physics._cycle import moments
from dictate.checks.refrigerants import known
from dictate.checks.rule import Finding, ok, problem, rule, unsure

SUCTION = (-50.0, 75.0)
CANNOT = -75.0
CONDENSING = (20.0, 155.0)


@rule(
    id="saturation.implausible",
    checks="Suction and head pressure mean saturation temperatures at which such a machine can run.",
    applies="a running pressure and the refrigerant were said",
    source="Saturation temperature from the equations of state in CoolProp (Bell et al. 2014); the span in "
    "which single-stage machines run is common practice",
    tag="published",
    question="Was the pressure heard right, in which unit, and is it the right refrigerant?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        if not known(moment.refrigerant) or moment.refrigerant == "R-744":
            continue
        for reading in moment.pressures("suction", "vapor", "vapour"):
            psia = absolute_psi(reading)
            dew = moment.dew(reading)
            text = f"{cite(reading)} of {moment.refrigerant}"
            if psia is None or psia <= 0:
                continue
            if dew is None:
                yield unsure(f"{text}: outside what the refrigerant has a saturation for.", reading)
                continue
            computed = {"saturation temperature": (dew, "degF")}
            text += f" means {facts.degrees(dew)}"
            if dew < CANNOT:
                yield problem(f"{text}: colder than a single-stage machine runs.", reading, computed=computed)
            elif dew < SUCTION[0] and moment.stage == "as_found":
                yield ok(
                    f"As found {text}: unusually cold, as with a starved coil.", reading, computed=computed
                )
            elif dew < SUCTION[0]:
                yield unsure(f"{text}: unusually cold.", reading, computed=computed)
            elif dew > SUCTION[1]:
                yield unsure(
                    f"{text}: too warm for a running suction.",
                    reading,
                    computed=computed,
                    question="Was the machine standing, or were suction and head exchanged?",
                )
            else:
                yield ok(f"{text}.", reading, computed=computed)
        for reading in moment.pressures("discharge"):
            bubble = moment.bubble(reading)
            text = f"{cite(reading)} of {moment.refrigerant}"
            if bubble is None:
                yield problem(f"{text}: above its critical pressure, where nothing condenses.", reading)
                continue
            computed = {"saturation temperature": (bubble, "degF")}
            text += f" means {facts.degrees(bubble)}"
            if bubble > CONDENSING[1]:
                yield unsure(f"{text}: hotter than a condenser should get.", reading, computed=computed)
            elif bubble < CONDENSING[0]:
                yield unsure(f"{text}: too cold for a running condenser.", reading, computed=computed)
            else:
                yield ok(f"{text}.", reading, computed=computed)
