"""What the moved refrigerant is in CO2 equivalent, with the basis named."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, number_in, show
from dictate.checks.refrigerant_data import co2_equivalent, data
from dictate.checks.rule import Finding, ok, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs


@rule(
    id="refrigerant.co2-equivalent",
    checks="Each amount of refrigerant is told in CO2 equivalent on a named basis (AR4, and AR5 beside it).",
    applies="an amount of a refrigerant was charged or recovered",
    source="IPCC AR4 and AR5 100-year GWP as in 40 CFR 98 Table A-1 (AR4 until 2024, AR5 from 2025); "
    "blends by mass "
    "from their ASHRAE 34 composition",
    tag="published",
    question="Which refrigerant was it?",
    caution="Never compare figures of two bases.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for job in jobs(facts):
        for moved in [*job.movements("recovered"), *job.movements("charged")]:
            name = moved.refrigerant or job.refrigerant
            if name is None or moved.value is None or moved.unit is None:
                continue
            kg = number_in(moved.value, moved.unit, "kg")
            found = co2_equivalent(name, kg)
            text = f"{moved.value:g} {moved.unit} {name} {moved.direction}{when(moved)}"
            if not found:
                yield unsure(f"{text}: no GWP is at hand for it.", moved, equipment=job.machine)
                continue
            told = ", ".join(f"{show(value, 'kg')} CO2e on {basis}" for basis, value in found.items())
            known = data(name)
            doubt = " (GWP from memory)" if known is not None and known.gwp_tag == "from memory" else ""
            yield ok(
                f"{text}: {told}{doubt}.", moved, equipment=job.machine,
                computed={f"CO2e {basis}": (value, "kg") for basis, value in found.items()},
            )  # fmt: skip
