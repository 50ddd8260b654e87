"""An insulation resistance that calls for a second look, or for none."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import is_motor, to_ground
from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.rule import Finding, ok, rule, unsure

MEGOHM = 1e6
GOOD = 100 * MEGOHM


@rule(
    id="insulation.low",
    checks="A megohm reading to ground is weighed against the maker's figure, or called undecided without "
    "one.",
    applies="an insulation resistance of a megohm or more was measured on a compressor or motor",
    source="Published floors differ by a factor of fifty (1 megohm by the one-megohm rule, 5 in IEEE 43-2013 "
    "12.3, 50 in one chiller manual); bands of a hermetic compressor are common practice",
    tag="common practice",
    question="What does the maker ask for, and does it rise after the crankcase has been warmed?",
    caution="No insulation tester on a system in vacuum, and not with the terminal cover off on a "
    "pressurised "
    "shell.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance"):
        if not to_ground(reading, facts) or not is_motor(reading.component) or reading.value is None:
            continue
        ohms = value_in(reading, "ohm")
        if ohms < MEGOHM:
            continue  # that is a ground: winding.grounded
        limits = [
            r
            for r in facts.targets("resistance", equipment=reading.equipment)
            if to_ground(r, facts) and r.value is not None
        ]
        computed = {"insulation": (ohms / MEGOHM, "Mohm")}
        text = f"{reading.component or 'motor'}, {cite(reading)}"
        if limits and ohms < value_in(limits[-1], "ohm"):
            text += f": below the {cite(limits[-1])} that was given."
            yield unsure(text, reading, limits[-1], computed=computed)
        elif limits or ohms >= GOOD or reading.relation in (">", ">="):
            yield ok(f"{text}.", reading, computed=computed)
        elif ohms < 20 * MEGOHM:
            yield unsure(
                f"{text}: the trade reads that as moisture or contamination in the system.",
                reading,
                computed=computed,
            )
        else:
            yield unsure(
                f"{text}: no limit is known without the maker's figure; 100 megohm is usual for a dry one.",
                reading,
                computed=computed,
            )
