"""Winding readings put together as they were taken: three pairs of a single-phase motor, and to ground."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

from dictate.checks.facts import Facts, phrases, value_in
from dictate.record.visit import Reading

PAIRS = ("common-run", "common-start", "run-start")
PHASES = ("L1-L2", "L2-L3", "L1-L3")
NOT_A_WINDING = ("heater", "sensor", "thermistor", "thermostat", "switch", "fuse", "valve", "relay",
                 "contactor", "transformer", "capacitor", "breaker", "overload", "board")  # fmt: skip


def is_motor(component: str | None) -> bool:
    """True for a compressor or a motor, and where no component was said at all."""
    if component is None:
        return True
    return not any(word in component for word in NOT_A_WINDING)


def to_ground(reading: Reading, facts: Facts | None = None) -> bool:
    """True for a reading from a terminal to the shell or to earth.

    With `facts` the words right before it count as well ("to ground it's eleven ohms", "megged it, forty").
    """
    if reading.point is not None and reading.point.split("-")[-1] in ("ground", "shell", "earth"):
        return True
    if facts is None or reading.point in PAIRS or reading.at.first_word is None:
        return False
    before, after = facts.around(reading, before=7, after=3, sentence=True)
    text = f" {before} {reading.heard.lower()} "
    for phrase in phrases("to_ground"):
        if f" {phrase} " in text:
            since = text.split(f" {phrase} ")[-1].split()
            return not any(w in since for w in ("then", "leg", "legs", "winding", "windings", "run", "start"))
    return after.startswith("to ground")


@dataclass
class Triple:
    """The readings of one set of windings, by pair, in the order in which they were said."""

    component: str
    equipment: str | None
    pairs: dict[str, Reading] = field(default_factory=dict)

    @property
    def complete(self) -> bool:
        """True when all three pairs were read."""
        return all(p in self.pairs for p in PAIRS)

    @property
    def finite(self) -> bool:
        """True when every pair that was read has a number."""
        return all(r.state == "value" and r.value is not None for r in self.pairs.values())

    def ohms(self, pair: str) -> float:
        """Return the ohms of a pair; infinite for an open one."""
        return value_in(self.pairs[pair], "ohm")

    def open(self, pair: str) -> bool:
        """True when this pair was read and is open."""
        return pair in self.pairs and math.isinf(self.ohms(pair))

    @property
    def overload_pattern(self) -> bool:
        """Common-run and common-start open while run-start reads: the common leg or the overload."""
        if not (self.open("common-run") and self.open("common-start")):
            return False
        return "run-start" in self.pairs and not self.open("run-start")

    @property
    def readings(self) -> list[Reading]:
        """The readings, in the usual order of the pairs."""
        return [self.pairs[p] for p in PAIRS if p in self.pairs]


def triples(facts: Facts) -> list[Triple]:
    """Return the sets of single-phase winding readings, a new set whenever a pair is read again."""
    found: list[Triple] = []
    for reading in facts.readings("resistance", point=PAIRS):
        if not is_motor(reading.component) or reading.relation in ("<", "<=", ">", ">="):
            continue
        component = reading.component or "compressor"
        current = next(
            (t for t in reversed(found) if t.component == component and t.equipment == reading.equipment),
            None,
        )
        stage = next(iter(current.pairs.values())).stage if current else None
        if current is None or reading.point in current.pairs or (reading.stage and stage != reading.stage):
            current = Triple(component, reading.equipment)
            found.append(current)
        assert reading.point is not None
        current.pairs[reading.point] = reading
    return found


def later(all_: list[Triple], this: Triple) -> list[Triple]:
    """Return the sets of the same motor that were read after this one."""
    index = next(n for n, t in enumerate(all_) if t is this)
    return [t for t in all_[index + 1 :] if t.component == this.component and t.equipment == this.equipment]


def came_back(facts: Facts, all_: list[Triple], this: Triple) -> Triple | None:
    """Return a later set of the same motor in which the open pairs read again, if it was not replaced."""
    if facts.replaced(this.component, this.equipment):
        return None
    opened = [p for p in this.pairs if this.open(p)]
    for other in later(all_, this):
        if all(p in other.pairs and not other.open(p) for p in opened):
            return other
    return None
