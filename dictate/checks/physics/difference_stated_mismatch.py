"""A difference that was said and is not the difference of the two values said with it."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, number_in, value_in
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.record.visit import Reading

ALLOWED = {"temperature_difference": (2.0, "delta_degF"), "voltage": (2.0, "V"), "pressure": (2.0, "psi")}
PAIRS = {
    "temperature_difference": (
        ("return", "supply"), ("box", "saturated suction"), ("saturated condensing", "ambient"),
        ("entering water", "leaving water"), ("inlet", "outlet"),
    ),
    "voltage": (("line", "load"),),
    "pressure": (("inlet", "outlet"),),
}  # fmt: skip


def _value(reading: Reading, quantity: str) -> float:
    """Return a reading in the unit that differences of its kind are compared in."""
    if quantity == "temperature_difference":
        return value_in(reading, "degF")
    return number_in(reading.value or 0.0, reading.unit, ALLOWED[quantity][1])


@rule(
    id="difference.stated-mismatch",
    checks="A split, a drop or volts lost that were said are the difference of the two values said with "
    "them.",
    applies="a difference and the two values it comes from were said",
    source="Arithmetic: a difference is one value less the other",
    tag="published",
    question="Which of the three is off?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for said in facts.readings(*ALLOWED):
        if not said.derived or not exact(said) or said.quantity not in ALLOWED:
            continue
        quantity = said.quantity
        kind = "temperature" if quantity == "temperature_difference" else quantity
        near = [
            r
            for r in facts.readings(kind, equipment=said.equipment)
            if exact(r)
            and not r.derived
            and r.stage == said.stage
            and abs(facts.place(r) - facts.place(said)) <= 3
        ]
        for one, other in PAIRS[quantity]:
            first = facts.nearest(said, [r for r in near if r.point == one])
            second = facts.nearest(said, [r for r in near if r.point == other])
            if first is None or second is None or abs(facts.place(first) - facts.place(second)) > 2:
                continue
            tolerance, unit = ALLOWED[quantity]
            worked = abs(_value(first, quantity) - _value(second, quantity))
            value = abs(value_in(said, unit))
            computed = {"difference": (worked, unit)}
            text = f"{cite(first)} and {cite(second)} differ by {worked:.3g}; {cite(said, 'a difference of')}"
            if abs(worked - value) <= max(tolerance, 0.1 * worked):
                yield ok(f"{text} was said.", said, first, second, computed=computed)
            else:
                yield unsure(f"{text} was said.", said, first, second, computed=computed)
            break
