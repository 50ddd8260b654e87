"""A motor for 230 V alone on a 208 V supply."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._supply import is_supply, ratings
from dictate.checks.facts import Facts, cite_full, exact, value_in
from dictate.checks.rule import Finding, ok, rule, unsure


@rule(
    id="voltage.rated-230-on-208",
    checks="Equipment rated for 230 V alone is not fed from a 208 V system.",
    applies="the plate gives 230 or 240 V and a supply voltage was measured",
    source="Arithmetic from NEMA MG 1-2016, 12.44.1: 230 V less 10 % is 207 V, so any sag of a 208 V "
    "supply is "
    "out of range",
    tag="common practice",
    question="Is the supply a 208 V system, and does the plate say 208/230 or 230 alone?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine([r for r in facts.readings("voltage") if is_supply(r)]).values():
        reading = next((r for r in reversed(group) if exact(r) and 195 <= value_in(r, "V") <= 260), None)
        if reading is None:
            continue
        rated = [v for v in ratings(facts, reading) if 195 <= v <= 260]
        if not rated or min(rated) < 220:
            continue
        value = value_in(reading, "V")
        computed = {"least": (0.9 * min(rated), "V")}
        if 200 <= value < 216:
            yield unsure(
                f"{cite_full(reading)} looks like a 208 V supply, and the plate says {min(rated):.0f} V "
                "alone.",
                reading,
                computed=computed,
            )
        else:
            yield ok(f"{cite_full(reading)} with a plate of {min(rated):.0f} V.", reading, computed=computed)
