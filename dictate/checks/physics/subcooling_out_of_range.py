"""Subcooling too low or too high."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, phrases, spans
from dictate.checks.physics._cycle import Moment, limits, moments
from dictate.checks.rule import Finding, ok, problem, rule, unsure
from dictate.record.visit import Reading

USUAL = (5.0, 15.0)
EDGE = (3.0, 20.0)
TARGET_SPREAD = 3.0
FROM_DISCHARGE = 4.0
"""°F: what the condenser's pressure drop adds where only the discharge pressure was read."""
FIXED = phrases("fixed_metering")
RECEIVER = phrases("receiver")

Found = tuple[float, float, list[Reading], str]


def found_in(moment: Moment) -> Iterator[Found]:
    """Yield (least, greatest, readings, words) of each subcooling said, or worked out where none was."""
    said = [r for r in moment.readings if r.quantity == "subcooling" and r.value is not None]
    for least, greatest, used in spans(said, "delta_degF"):
        yield least, greatest, used, ", ".join(cite(r, "subcooling") for r in used)
    if not said:
        for line, pressure, bubble, subcooling in moment.subcoolings():
            text = (
                f"subcooling {moment.facts.difference(subcooling)} (bubble {moment.facts.degrees(bubble)} "
                f"of {moment.refrigerant} at "
            )
            text += f"{cite(pressure)} less {cite(line)})"
            yield subcooling, subcooling, [line, pressure], text


@rule(
    id="subcooling.out-of-range",
    checks="The subcooling as left lies in the range that was said, else in the usual 5 to 15 °F. Counted "
    "from "
    "the bubble temperature.",
    applies="a subcooling was said, or liquid line temperature, head pressure and refrigerant were",
    source="Subcooling is bubble temperature less liquid line temperature (notes of pressure-temperature "
    "charts); the usual range is common practice and gives way to the maker's figure",
    tag="common practice",
    question="What does the maker give, and is there a receiver or a fixed metering device?",
)
def check(facts: Facts) -> Iterator[Finding]:
    fixed, receiver = facts.said(*FIXED), facts.said(*RECEIVER)
    judged = []
    for moment in moments(facts):
        for least, greatest, used, text in found_in(moment):
            said = limits(facts, "subcooling", moment.equipment, TARGET_SPREAD)
            low, high = (said[0], said[1]) if said is not None else USUAL
            if said is None and (fixed or receiver):
                low = 0.0
            edge = (low, high) if said is not None else (min(low, EDGE[0]), EDGE[1])
            if any(r.point == "discharge" for r in used):
                edge = edge[0], edge[1] + FROM_DISCHARGE
            judged.append(
                (moment, least, greatest, low, high, edge, used + (said[2] if said else []), text, said)
            )
    for moment, least, greatest, low, high, edge, evidence, text, said in judged:
        value = least if least > -900 else greatest
        which = (
            f"the range that was said ({facts.difference(low)} to {facts.difference(high)})"
            if said
            else f"the usual {facts.difference(low)} to {facts.difference(high)}"
        )
        computed = {
            "subcooling": (value, "delta_degF"),
            "least": (low, "delta_degF"),
            "greatest": (high, "delta_degF"),
        }
        name = text[0].upper() + text[1:]
        good = [
            j
            for j in judged
            if j[0].equipment == moment.equipment
            and j[0].stage == "as_left"
            and j[3] <= j[1]
            and j[2] <= j[4]
        ]
        if least >= low and greatest <= high:
            yield ok(f"{name}: within {which}.", *evidence, computed=computed)
        elif moment.stage == "as_found" and good and (greatest < low or least > high):
            yield ok(
                f"As found {text}: outside {which}. As left {good[-1][7]}: within it.",
                *evidence, *good[-1][6], computed=computed,
            )  # fmt: skip
        elif greatest < edge[0] or least > edge[1]:
            side = "below" if greatest < edge[0] else "above"
            found = "As found " if moment.stage == "as_found" else ""
            yield problem(f"{found}{text}: {side} {which}.", *evidence, computed=computed)
        elif greatest < low or least > high:
            yield unsure(f"{name}: just outside {which}.", *evidence, computed=computed)
        else:
            yield unsure(f"{name}: only a bound was said.", *evidence, computed=computed)
