"""Food was left warmer than cold holding allows."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, value_in
from dictate.checks.leak_law import NOT_US, RULES_ABOVE, applies
from dictate.checks.rule import Finding, not_applicable, ok, problem, rule
from dictate.checks.work import jobs

COLD_HOLDING = 41.0
"""°F, measured in the product and not in the air."""


@rule(
    id="product.too-warm",
    checks="Product temperature as left is 41 °F or below, or the customer is told that it is not.",
    applies="the visit is in the USA and a product temperature was measured in a cooler",
    source="FDA Food Code 3-501.16(A)(2), cold holding at 41 °F (5 °C) or less; states differ",
    tag="published",
    question="Was the customer told that the product is above 41 °F?",
    caution=f"The technician does not certify food; what is kept or discarded is the operator's. "
    f"{RULES_ABOVE}",
)
def check(facts: Facts) -> Iterator[Finding]:
    if not applies(facts.record):
        yield not_applicable(NOT_US)
        return
    for job in jobs(facts):
        product = [r for r in job.readings("temperature") if r.point == "product" and r.value is not None]
        for reading in facts.final(product)[-1:]:
            degf = value_in(reading, "degF")
            computed = {"product": (degf, "degF"), "limit": (COLD_HOLDING, "degF")}
            if degf <= COLD_HOLDING:
                yield ok(f"{cite(reading)}, at or below 41 °F.", reading, computed=computed)
            else:
                told = bool(job.stated("customer_informed"))
                yield problem(
                    f"{cite(reading)}, above 41 °F{'; the customer was told' if told else ''}.",
                    reading, computed=computed, resolved=told,
                )  # fmt: skip
