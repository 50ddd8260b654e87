"""Condensing temperature against the air that enters the condenser."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, cite, phrases, value_in
from dictate.checks.physics._cycle import AMBIENT, moments
from dictate.checks.rule import Finding, ok, problem, rule, unsure

LOW, HIGH, FAR = 5.0, 33.0, 40.0
COLD_AIR = 60.0
"""°F: in colder air the head pressure is held up on purpose, and the split says nothing."""


@rule(
    id="condenser.split-out-of-range",
    checks="The condensing temperature lies about 10 to 30 °F above the air that enters the condenser.",
    applies="condensing temperature (or head pressure and refrigerant) and entering air were said",
    source="Usual splits of air-cooled condensers: 15 to 25 °F, older ones 30, low temperature 10 to 20",
    tag="common practice",
    question="Is the condenser clean, do its fans run, and where was the air temperature taken?",
)
def check(facts: Facts) -> Iterator[Finding]:
    everything = moments(facts)
    judged = []
    for moment in everything:
        condensing = moment.condensing()
        air = moment.last(moment.temperatures(*AMBIENT))
        if condensing is None or air is None or facts.said(*phrases("heating")):
            continue
        if value_in(air, "degF") < COLD_AIR:
            continue
        sct, reading = condensing
        split = sct - value_in(air, "degF")
        computed = {"split": (split, "delta_degF"), "condensing temperature": (sct, "degF")}
        text = (
            f"Condensing at {facts.degrees(sct)} ({cite(reading)}) with air at {cite(air)}: split "
            f"{facts.difference(split)}"
        )
        judged.append((moment, split, [reading, air], text, computed))
    for moment, split, used, text, computed in judged:
        left = [
            j
            for j in judged
            if j[0].stage == "as_left" and j[0].equipment == moment.equipment and LOW <= j[1] <= HIGH
        ]
        done = moment.stage == "as_found" and bool(left)
        if split < 0:
            yield unsure(
                f"{text}: it cannot condense below the air.",
                *used,
                computed=computed,
                question="Was it running, and is the pressure, the refrigerant or the air temperature off?",
            )
        elif split < LOW:
            yield unsure(f"{text}: small.", *used, computed=computed)
        elif split <= HIGH:
            yield ok(f"{text}.", *used, computed=computed)
        elif split <= FAR and not done:
            yield unsure(
                f"{text}: somewhat above the usual {facts.difference(30)}.", *used, computed=computed
            )
        else:
            yield problem(
                f"{text}: above the usual {facts.difference(30)}.", *used, computed=computed, resolved=done
            )
