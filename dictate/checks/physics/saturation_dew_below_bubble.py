"""Dew and bubble point the wrong way round."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, exact, value_in
from dictate.checks.rule import Finding, ok, problem, rule
from dictate.record.visit import Reading


def _named(facts: Facts, readings: list[Reading], word: str) -> list[Reading]:
    found = []
    for r in readings:
        text = f" {facts.around(r, before=4, after=3)[0]} {r.heard.lower()} {r.point or ''} {r.which or ''} "
        if f" {word}" in text:
            found.append(r)
    return found


@rule(
    id="saturation.dew-below-bubble",
    checks="At one pressure the dew temperature is not below the bubble temperature.",
    applies="a dew and a bubble temperature were both said",
    source="Phase equilibrium of mixtures (ASHRAE Handbook of Fundamentals, thermodynamic properties): at "
    "one "
    "pressure a blend boils at the bubble point and has boiled off at the dew point, which is not lower",
    tag="published",
    question="Were the two columns of the chart exchanged?",
)
def check(facts: Facts) -> Iterator[Finding]:
    for group in facts.by_machine([r for r in facts.readings("temperature") if exact(r)]).values():
        for moment in facts.same_moment(group):
            dews, bubbles = _named(facts, moment, "dew"), _named(facts, moment, "bubble")
            for dew in dews:
                bubble = facts.nearest(dew, [b for b in bubbles if b is not dew])
                if bubble is None or dew in bubbles:
                    continue
                glide = value_in(dew, "degF") - value_in(bubble, "degF")
                computed = {"glide": (glide, "delta_degF")}
                text = f"{cite(dew, 'dew')}, {cite(bubble, 'bubble')}"
                if glide < 0:
                    yield problem(f"{text}: dew lies below bubble.", dew, bubble, computed=computed)
                else:
                    yield ok(f"{text}.", dew, bubble, computed=computed)
