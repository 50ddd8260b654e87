"""Freeze and harvest times of a batch ice machine."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, bounds, cite, value_in
from dictate.checks.rule import Finding, ok, rule, unsure

USUAL = {"freeze": (7.0, 30.0), "harvest": (0.5, 5.0)}
ASK = {
    "freeze": "What are the water and air temperatures, and are condenser, charge and water flow right?",
    "harvest": "Is the harvest valve opening fully, is the evaporator scaled, and how cold is the room?",
}


@rule(
    id="ice.cycle-out-of-range",
    checks="A batch ice machine freezes in about 10 to 25 minutes and harvests in 1 to 4.",
    applies="a freeze or a harvest time was said",
    source="Usual times of batch ice machines; the maker's table by air and water temperature decides",
    tag="common practice",
    question="What does the maker's table give at these air and water temperatures?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("duration", point=tuple(USUAL)):
        assert reading.point is not None
        if reading.value is None:
            continue
        low, high = USUAL[reading.point]
        least, greatest = bounds(reading, "min")
        computed = {reading.point: (value_in(reading, "min"), "min")}
        if least >= low and greatest <= high:
            yield ok(f"{cite(reading)}: usual.", reading, computed=computed)
        elif greatest < low or least > high:
            found = "As found " if reading.stage == "as_found" else ""
            yield unsure(
                f"{found}{cite(reading)}: not usual.",
                reading,
                computed=computed,
                question=ASK[reading.point],
            )
