"""A discharge line colder than the condensing temperature."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure

ALLOWED = 5.0


@rule(
    id="discharge.below-condensing",
    checks="The discharge line is warmer than the dew temperature at the head pressure.",
    applies="discharge line temperature, head pressure and refrigerant were said",
    source="Compressed gas is superheated (ASHRAE Handbook of Fundamentals, refrigeration cycle); dew "
    "temperature from the equations of state in CoolProp",
    tag="published",
    question="Is liquid coming back to the compressor, or was the probe loose or the refrigerant another?",
    caution="Liquid at the compressor breaks valves.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        if moment.refrigerant == "R-744":
            continue
        for line, head in moment.with_nearest(
            moment.temperatures("discharge"), moment.pressures("discharge")
        ):
            dew = moment.dew(head)
            if dew is None or " air" in f"{facts.around(line)[0]} {line.heard.lower()}":
                continue
            superheat = value_in(line, "degF") - dew
            computed = {"discharge superheat": (superheat, "delta_degF"), "dew temperature": (dew, "degF")}
            text = f"{cite(line)} against a dew temperature of {facts.degrees(dew)} at {cite(head)}"
            if superheat < -ALLOWED:
                yield unsure(f"{text}: colder than it condenses.", line, head, computed=computed)
            else:
                yield ok(f"{text}.", line, head, computed=computed)
