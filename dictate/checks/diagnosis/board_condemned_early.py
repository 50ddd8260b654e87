"""A control board condemned without its inputs and outputs."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, phrases
from dictate.checks.rule import Finding, ok, rule, unsure

SEEN = phrases("board_seen")


@rule(
    id="board.condemned-early",
    checks="A control board is replaced after its supply and the output that is missing were measured.",
    applies="a control board was replaced",
    source="Trade rule: a board is bad when all its inputs are there and an output that should be there is "
    "not",
    tag="common practice",
    question="What supply and inputs did the board have, and which output was missing?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for part in facts.parts("replaced"):
        if "board" not in part.name and "controller" not in part.name:
            continue
        measured = [
            r
            for r in facts.readings("voltage", equipment=part.equipment)
            if "board" in (r.component or "")
            or "controller" in (r.component or "")
            or r.point in ("input", "output", "secondary", "coil")
        ]
        if measured:
            yield ok(f"The {part.name} was measured before it was replaced.", part, *measured)
        elif dead := [
            r for r in facts.readings("voltage", equipment=part.equipment) if r.value == 0 and r.component
        ]:
            yield ok(f"An output without voltage was found before the {part.name} was replaced.", part, *dead)
        elif facts.said(*SEEN):
            yield ok(f"What was seen of the {part.name} was said.", part)
        else:
            yield unsure(f"The {part.name} was replaced, and no voltage in or out of it was said.", part)
