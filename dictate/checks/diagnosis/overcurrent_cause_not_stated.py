"""A breaker tripped or a fuse blew, and no cause was named."""

from __future__ import annotations

from collections.abc import Iterator

from dictate.checks.facts import Facts, phrases, words
from dictate.checks.rule import Finding, missing, ok, rule
from dictate.record.visit import Event, Part

DEVICES = ("breaker", "fuse")
CAUSES = phrases("overcurrent_cause")


@rule(
    id="overcurrent.cause-not-stated",
    checks="A tripped breaker or a blown fuse has its cause named, or the words that none was found.",
    applies="a breaker tripped or a fuse blew",
    source="Trade rule: a tripped breaker is a symptom; record the ground, short, locked rotor or loose "
    "lug, or "
    "that none was found",
    tag="common practice",
    question="What had tripped it: a ground, a short, a locked rotor, a loose lug, or was nothing found?",
    caution="Do not reset again and again into a fault.",
)
def check(facts: Facts) -> Iterator[Finding]:
    blown: list[Event | Part] = [
        e
        for e in facts.events()
        if any(w in e.event for w in ("trip", "blow", "blew", "blown"))
        and (
            any(d in (e.component or "") for d in DEVICES)
            or any(d in words(e.event, e.heard) for d in DEVICES)
        )
    ]
    blown += [p for p in facts.parts("replaced") if p.name == "fuse"]
    for thing in blown:
        evidence = [
            r
            for r in facts.readings("resistance", equipment=thing.equipment)
            if r.point and "ground" in r.point and r.state != "open"
        ]
        concluded = facts.conclusions(equipment=thing.equipment)
        if evidence or concluded or facts.said(*CAUSES):
            yield ok("What opened the circuit was said.", thing, *evidence, *concluded)
        else:
            yield missing("A breaker tripped or a fuse blew, and what caused it was not said.", thing)
