"""A frequency away from the plate."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule


@rule(
    id="frequency.out-of-tolerance",
    checks="The supply frequency lies within 5 % of the rating (60 Hz where none was said, 50 Hz if nearer).",
    applies="a supply frequency was measured",
    source="NEMA MG 1-2016, 12.44.1: motors run within 5 % of rated frequency at rated voltage",
    tag="published",
    question="Is the site on a generator, or was the frequency measured behind a drive?",
)
def check(facts: Facts) -> Iterator[Finding]:
    driven = facts.said("inverter", "drive", "vfd", "variable speed", "variable frequency")
    for reading in facts.readings("frequency"):
        if not exact(reading) or driven or not reading.value or reading.value > 120:
            continue
        hertz = value_in(reading, "Hz")
        rated = [p.value for p in facts.plate(reading.equipment, "frequency")] or [50.0, 60.0]
        nearest = min(rated, key=lambda v: abs(v - hertz))
        percent = 100 * (hertz / nearest - 1)
        computed = {"deviation": (percent, "%")}
        text = f"{cite(reading)} against {nearest:.0f} Hz: {percent:+.1f} %"
        if abs(percent) <= 5:
            yield ok(f"{text}.", reading, computed=computed)
        else:
            yield problem(f"{text}: outside 5 %.", reading, computed=computed)
