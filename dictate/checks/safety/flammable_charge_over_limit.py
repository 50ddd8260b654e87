"""More hydrocarbon than a circuit of that kind holds."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, show
from dictate.checks.refrigerant_data import data
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.checks.words import when
from dictate.checks.work import jobs, total
from dictate.vocabulary.load import table


@rule(
    id="flammable.charge-over-limit",
    checks="A hydrocarbon charge is at most 150 g, or at most 500 g where the plate says so.",
    applies="a class A3 refrigerant was charged",
    source="76 FR 78832 (150 g), IEC 60335-2-89:2019 clause 22.110 and 89 FR 50410 (500 g open, 300 g "
    "closed)",
    tag="published",
    question="Was the amount in grams or ounces, and what does the plate say?",
    caution="The plate's charge always governs. A machine not built for a hydrocarbon is never "
    "converted to one.",
)
def check(facts: Facts) -> Iterator[Finding]:
    limits = table("procedure_limits")["hydrocarbon"]
    for job in jobs(facts):
        moved = [m for m in job.movements("charged") if m.value is not None]
        names = {m.refrigerant or job.refrigerant for m in moved}
        known = next((d for n in names if (d := data(n)) is not None and d.highly_flammable), None)
        grams = total(moved, "g")
        if known is None or grams is None:
            continue
        computed = {"charged": (grams, "g")}
        plate = job.plate_charge("g")
        said = f"{show(grams, 'g')} of {known.name} charged{when(moved[0])}"
        if grams > limits["most"] * 1.02:
            yield problem(
                f"{said}: more than the {limits['most']} g that a self-contained circuit may hold; a "
                f"unit or a "
                "number may be misheard.",
                *moved, computed=computed, equipment=job.machine,
            )  # fmt: skip
        elif grams > limits["unusual"] * 1.02 and (plate is None or plate < 0.95 * grams):
            yield unsure(
                f"{said}: over {limits['unusual']} g, which only a plate of a newer machine allows.",
                *moved, computed=computed, equipment=job.machine,
            )  # fmt: skip
        else:
            yield ok(f"{said}.", *moved, computed=computed, equipment=job.machine)
