"""What was said of one machine, and what may answer a question about it.

With several machines, what belongs to none of them ("held at 400 micron", nobody said where) may answer a
question about any of them: `stated`, `moved` and `seen` give it as well, `steps`, `movements` and `readings`
do not.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from dictate.checks.facts import Facts
from dictate.checks.words import Phrase, phrases
from dictate.record.visit import (
    Conclusion,
    Equipment,
    Event,
    Movement,
    Part,
    Reading,
    Record,
    Remark,
    Step,
)
from dictate.record.visit import Test as RecordTest


@dataclass
class Told:
    """What was said of one machine; a `Job` tells what kinds of work that makes."""

    facts: Facts
    machine: str | None
    alone: bool
    """True when the visit has one machine at most: everything belongs to it."""

    @property
    def record(self) -> Record:
        """Return the record."""
        return self.facts.record

    @cached_property
    def equipment(self) -> Equipment | None:
        """Return the machine's entry."""
        if self.alone:
            return self.record.equipment[0] if self.record.equipment else None
        return self.facts.machine(self.machine) if self.machine is not None else None

    @property
    def equipment_id(self) -> str | None:
        """Return the id that plate values are filed under."""
        return self.equipment.id if self.equipment is not None else self.machine

    def _mine(
        self, thing: Step | Movement | Part | Reading | RecordTest | Event | Conclusion | Remark
    ) -> bool:
        return self.alone or thing.equipment == self.machine

    def _near(
        self, thing: Step | Movement | Part | Reading | RecordTest | Event | Conclusion | Remark
    ) -> bool:
        return self._mine(thing) or thing.equipment is None or self.machine is None

    def steps(self, *codes: str, status: str | None = "done") -> list[Step]:
        """Return this machine's steps with one of the codes and the status (None for any)."""
        return [s for s in self.facts.steps(*codes, status=status) if self._mine(s)]

    def stated(self, *codes: str, status: str | None = "done") -> list[Step]:
        """Return steps that may answer a question about this machine: its own, then unattributed ones."""
        own = self.steps(*codes, status=status)
        return own or [s for s in self.facts.steps(*codes, status=status) if self._near(s)]

    def movements(self, direction: str) -> list[Movement]:
        """Return this machine's refrigerant movements."""
        return [m for m in self.facts.movements(direction) if self._mine(m)]

    def moved(self, direction: str) -> list[Movement]:
        """Return movements that may answer a question about this machine."""
        return self.movements(direction) or [m for m in self.facts.movements(direction) if self._near(m)]

    def readings(self, *quantities: str, role: str | None = "measured") -> list[Reading]:
        """Return this machine's readings."""
        return [r for r in self.facts.readings(*quantities, role=role) if self._mine(r)]

    def seen(self, *quantities: str, role: str | None = "measured") -> list[Reading]:
        """Return readings that may answer a question about this machine."""
        return [r for r in self.facts.readings(*quantities, role=role) if self._near(r)]

    def tests(self, kind: str) -> list[RecordTest]:
        """Return this machine's pressure tests or evacuations, in order of attempt."""
        return sorted((t for t in self.facts.tests(kind) if self._mine(t)), key=lambda t: t.attempt)

    def events(self) -> list[Event]:
        """Return what this machine did."""
        return [e for e in self.facts.events() if self._near(e)]

    def conclusions(self) -> list[Conclusion]:
        """Return what the technician said is wrong with it."""
        return [c for c in self.record.conclusions if self._near(c)]

    def phrases(self, name: str) -> list[Phrase]:
        """Return the places of the whole transcript where a phrase list was said."""
        kept = self.facts.phrases_said
        if name not in kept:
            kept[name] = list(phrases(self.record, name))
        return list(kept[name])
