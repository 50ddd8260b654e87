"""A discharge line hot enough to break down the oil."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, bounds, cite, value_in
from dictate.checks.physics._cycle import moments
from dictate.checks.rule import Finding, ok, problem, rule, unsure

LIMIT = 225.0


@rule(
    id="discharge.too-hot",
    checks="The discharge line six inches from the compressor stays below {facts.degrees(LIMIT)}.",
    applies="a discharge line temperature was measured",
    source="Trade rule of compressor service: below 225 °F on the line; the oil breaks down at about 250 "
    "to 275 "
    "°F at the valve",
    tag="common practice",
    question="What are the compression ratio and the superheat at the compressor?",
    caution="A discharge line burns skin.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for moment in moments(facts):
        if moment.refrigerant == "R-744":
            continue  # carbon dioxide runs hotter by its nature
        for line in moment.temperatures("discharge"):
            text = f"{facts.around(line)[0]} {line.heard.lower()}"
            if " air" in text or value_in(line, "degF") < 90:
                continue  # the air out of a display case
            least, greatest = bounds(line, "degF")
            computed = {"discharge line": (value_in(line, "degF"), "degF")}
            said = f"{cite(line)}"
            if greatest < LIMIT:
                yield ok(f"{said}: below {facts.degrees(LIMIT)}.", line, computed=computed)
            elif moment.stage == "as_found" and any(
                m.stage == "as_left" and m.equipment == moment.equipment and m.temperatures("discharge")
                for m in moments(facts)
            ):
                yield problem(f"As found {said}: hot.", line, computed=computed, resolved=True)
            elif least >= LIMIT + 25:
                yield problem(f"{said}: well above {facts.degrees(LIMIT)}.", line, computed=computed)
            else:
                yield unsure(f"{said}: at or above {facts.degrees(LIMIT)}.", line, computed=computed)
