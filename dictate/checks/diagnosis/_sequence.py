"""The machine's sequence of operation, and where along it the events and readings stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from dictate.checks.facts import Facts, exact, order, value_in, words
from dictate.record.visit import Event, Reading
from dictate.vocabulary.load import table


@dataclass
class Mark:
    """A step of the sequence that was seen to come about, or not to, and what shows it."""

    step: int
    happened: bool
    on: Event | Reading


def of_type(kind: str | None) -> dict[str, Any] | None:
    """Return the sequence for an equipment type, or None."""
    text = (kind or "").lower()
    if not text:
        return None
    found: dict[str, Any] | None = next(
        (s for s in table("sequences")["sequence"] if any(t in text for t in s["types"])), None
    )
    return found


def _step_of(sequence: dict[str, Any], component: str | None, text: str = "") -> int | None:
    """Return the step that a component shows: the longest name of it that fits."""
    name = words(component) or words(text)
    best: tuple[int, int] | None = None
    for n, step in enumerate(sequence["step"]):
        for known in step["components"]:
            if words(known) and (words(known) == name or words(known) in name):
                size = len(known)
                if best is None or size > best[1]:
                    best = (n, size)
    return best[0] if best else None


def verdict(event: str) -> bool | None:
    """Return True for an event that came about, False for one that did not, None when it cannot be told."""
    text = f" {words(event.replace('_', ' '))} "
    lists = table("sequences")["events"]
    if any(f" {w} " in text for w in lists["failed"]) or " not " in text or "n't " in text:
        return False
    if any(f" {w} " in text for w in lists["happened"]):
        return True
    return None


def marks(facts: Facts, equipment: str | None, sequence: dict[str, Any]) -> list[Mark]:
    """Return what is known of each step of one machine, in the order in which it was said."""
    found: list[Mark] = []
    for event in facts.events(equipment=equipment):
        step = _step_of(sequence, event.component, event.event)
        happened = verdict(event.event)
        if step is not None and happened is not None:
            found.append(Mark(step, happened, event))
    for reading in facts.readings("current", equipment=equipment):
        step = _step_of(sequence, reading.component)
        if step is None or not exact(reading) or reading.component is None:
            continue
        amps = value_in(reading, "A")
        found.append(Mark(step, amps > 0.05, reading))
    return sorted(found, key=lambda m: order(m.on))
