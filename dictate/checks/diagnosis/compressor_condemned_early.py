"""A compressor condemned while hot, or without the tests that prove it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from dictate.checks.electrical._windings import PAIRS, PHASES, to_ground, triples
from dictate.checks.facts import Facts, cite_full, order, phrases, value_in, words
from dictate.checks.rule import Evidence, Finding, missing, ok, problem, rule, unsure
from dictate.record.visit import Reading

BAD = phrases("condemned")
NEGATED = phrases("not_condemned")
HOT = phrases("hot")
COOLED = phrases("cooled")
EARLIER = phrases("earlier")
MECHANICAL = phrases("mechanical")


def _about(facts: Facts, phrases_: tuple[str, ...]) -> bool:
    return facts.said(*phrases_)


def _condemned(facts: Facts, equipment: str | None) -> list[Evidence]:
    """Return what condemns or replaces the compressor of a machine; empty when nothing does."""
    found: list[Evidence] = []
    for conclusion in facts.conclusions(equipment=equipment):
        text = words(conclusion.text)
        if conclusion.component != "compressor" and "compressor" not in text:
            continue
        if any(f" {w} " in f" {text} " for w in NEGATED):
            continue
        if any(f" {w} " in f" {text} " for w in BAD):
            found.append(conclusion)
    found += [
        p
        for p in facts.parts("replaced", equipment=equipment)
        if p.name in ("compressor", "compressor assembly")
    ]
    found += [
        s
        for s in facts.steps("part_replaced", status=None, equipment=equipment)
        if s.component == "compressor" and s.status in ("done", "planned")
    ]
    # A new compressor alone condemns nothing: that it has a reason is asked for elsewhere.
    judged = any(c in found for c in facts.conclusions(equipment=equipment)) or _called_bad(facts)
    measured = [t for t in triples(facts) if t.component == "compressor" and t.equipment == equipment]
    return found if judged or measured else []


def _called_bad(facts: Facts) -> bool:
    """True when a sentence with the word compressor in it calls it bad."""
    for segment in facts.record.transcript:
        for sentence in re.split(r"[.?!;]", segment.text):
            text = f" {words(sentence)} "
            if " compressor" in text and any(f" {w} " in text for w in BAD):
                return True
    return False


def _proof(facts: Facts, equipment: str | None) -> tuple[list[Reading], str]:
    """Return the readings that prove a compressor bad, and what they prove; empty when none does."""
    resistances = facts.readings("resistance", component="compressor", equipment=equipment)
    grounded = [
        r for r in resistances if to_ground(r, facts) and r.value is not None and value_in(r, "ohm") < 1e6
    ]
    if grounded:
        return grounded, "it is grounded"
    opened = []
    for set_ in (t for t in triples(facts) if t.component == "compressor" and t.equipment == equipment):
        if any(set_.open(p) for p in set_.pairs) and not set_.overload_pattern:
            through_common = [p for p in ("common-run", "common-start") if p in set_.pairs]
            if "run-start" in set_.pairs or not all(set_.open(p) for p in through_common):
                opened += set_.readings
    opened += [r for r in resistances if r.point in PHASES and r.state == "open"]
    return opened, "a winding is open"


@rule(
    id="compressor.condemned-early",
    checks="A compressor is condemned cold, and by tests that prove it.",
    applies="a compressor was called bad, or was replaced after its windings were measured",
    source="Hermetic compressor service literature: an internal overload that is open on a hot shell is no "
    "failed winding, and the shell is left to cool below about 120 °F and tested again; cooling takes from "
    "minutes to several hours",
    tag="published",
    question="What do the three pairs and each terminal to ground read with the leads off and the shell "
    "cold?",
    caution="Leads off, power locked out and proved dead. A pressurised terminal can vent and ignite.",
)
def check(facts: Facts) -> Iterator[Finding]:
    for equipment in facts.machines():
        why = _condemned(facts, equipment)
        if not why:
            continue
        sets = [t for t in triples(facts) if t.component == "compressor" and t.equipment == equipment]
        first = min((order(w) for w in why), default=(0, 0.0))
        before = [t for t in sets if all(order(r) <= first or not first[1] for r in t.readings)] or sets
        overload = [t for t in before if t.overload_pattern]
        closed = [t for t in before if t.complete and t.finite]
        proof, text = _proof(facts, equipment)
        cooled = _about(facts, COOLED)
        if overload and not closed and not cooled:
            readings = overload[-1].readings
            yield problem(
                f"The compressor was condemned on {', '.join(cite_full(r) for r in readings)}: that is the "
                "internal "
                "overload, and no test with a cold shell was said.",
                *why,
                *readings,
            )
        elif overload and not closed:
            readings = overload[-1].readings
            yield unsure(
                f"It had time to cool, and what it read then was not said; before it was "
                f"{', '.join(cite_full(r) for r in readings)}.",
                *why,
                *readings,
            )
        elif proof and _about(facts, HOT) and not cooled and text == "a winding is open":
            yield problem(
                f"The compressor was condemned hot, on {', '.join(cite_full(r) for r in proof)}, and not "
                "tested "
                "cold.",
                *why,
                *proof,
            )
        elif proof:
            yield ok(
                f"What condemns the compressor was measured: {text} ({cite_full(proof[0])}).", *why, *proof
            )
        elif _about(facts, MECHANICAL) or _about(facts, EARLIER):
            yield ok("What condemns the compressor is mechanical, or was found on an earlier visit.", *why)
        elif closed:
            yield unsure(
                "The compressor was condemned, and its windings read "
                f"{', '.join(cite_full(r) for r in closed[-1].readings)}.",
                *why,
                *closed[-1].readings,
                question="What condemns it: locked rotor, no pumping, noise, a leak of its own?",
            )
        elif any(r.point in (*PAIRS, *PHASES) for r in facts.readings("resistance", equipment=equipment)):
            yield unsure("Only some of the windings were measured.", *why)
        else:
            yield missing("The compressor was condemned, and no test of it was said.", *why)
