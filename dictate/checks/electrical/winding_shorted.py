"""A winding well below the figure that was said for it, or with no resistance at all."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.electrical._windings import PAIRS, PHASES, is_motor
from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule, unsure

SHARE = 0.7
"""Below seven tenths of the published figure a winding is well under it."""


@rule(
    id="winding.shorted",
    checks="No winding reads zero, or well under the figure that the maker gives for it.",
    applies="a winding was measured with a number, and it reads zero or the maker's figure was said",
    source="Vocational HVACR textbooks, chapter on compressor motors: near zero, or well under the published "
    "value, is a short",
    tag="published",
    question="What does it read with the leads zeroed, and what does the maker's table give?",
    caution="Power off, locked out and proved dead; leads removed before measuring.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for reading in facts.readings("resistance", point=(*PAIRS, *PHASES)):
        if not is_motor(reading.component) or not exact(reading) or reading.state == "open":
            continue
        ohms = value_in(reading, "ohm")
        limits = [
            r
            for role in ("target", "rated")
            for r in facts.readings("resistance", role=role, point=reading.point)
            if r.component == reading.component and r.equipment == reading.equipment and exact(r)
        ]
        name = reading.component or "compressor"
        done = facts.replaced(name, reading.equipment)
        if ohms == 0:
            yield unsure(
                f"{name}, {cite(reading)}: a winding without resistance is a dead short, or was not touched.",
                reading,
            )
        elif limits:
            should_be = value_in(limits[-1], "ohm")
            computed = {"of the published value": (100 * ohms / should_be, "%")}
            text = f"{name}, {cite(reading)} where {cite(limits[-1])} was given"
            if ohms < SHARE * should_be:
                yield problem(
                    f"{text}: well under it.", reading, limits[-1], computed=computed, resolved=done
                )
            else:
                yield ok(f"{text}.", reading, limits[-1], computed=computed)
