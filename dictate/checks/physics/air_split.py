"""Supply air against return air."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, phrases, value_in
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, rule, unsure

COMFORT = (14.0, 24.0)
COOLS = ("split", "rooftop", "air condition", "package", "window", "ptac", "mini")


@rule(
    id="air.split-out-of-range",
    checks="Supply air is colder than return air, by about 14 to 24 °F on an air conditioner.",
    applies="supply and return air of one machine were measured in cooling",
    source="Usual temperature drop over the coil of an air conditioner at normal airflow and humidity",
    tag="common practice",
    question="Was it cooling, and are filter, coil and airflow right?",
)
def check(facts: Facts) -> Iterator[Finding]:
    heating = facts.said(*phrases("heating"))
    for moment in moments(facts):
        machine = facts.machine(moment.equipment)
        kind = (machine.type or "").lower() if machine is not None else ""
        if "dehumidifier" in kind or "dryer" in kind:
            continue  # these give the heat back to the air
        pairs = moment.with_nearest(moment.temperatures("supply"), moment.temperatures("return"))
        for supply, back in pairs:
            split = value_in(back, "degF") - value_in(supply, "degF")
            computed = {"split": (split, "delta_degF")}
            text = f"{cite(back)} less {cite(supply)}: {facts.difference(split)}"
            if split < 0 and not heating:
                yield unsure(
                    f"{text}: the supply is the warmer.",
                    supply,
                    back,
                    computed=computed,
                    question="Was it cooling, and were supply and return named the right way round?",
                )
            elif heating or not any(w in kind for w in COOLS) or moment.stage == "as_found":
                yield ok(f"{text}.", supply, back, computed=computed)
            elif COMFORT[0] <= split <= COMFORT[1]:
                yield ok(f"{text}: usual.", supply, back, computed=computed)
            else:
                usual = f"{facts.difference(COMFORT[0])} to {facts.difference(COMFORT[1])}"
                yield unsure(f"{text}: not the usual {usual}.", supply, back, computed=computed)
