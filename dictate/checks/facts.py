"""The record as rules ask about it: lookups that several rules share, and no verdicts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from dictate.record.visit import Equipment, Movement, Part, Reading, Record, Step

UNSET = object()


@dataclass
class Facts:
    """A record with the questions that rules put to it."""

    record: Record

    def readings(
        self,
        quantity: str | None = None,
        *,
        component: str | None = None,
        point: str | None = None,
        role: str = "measured",
        equipment: object = UNSET,
    ) -> list[Reading]:
        """Return the readings that fit, in the order in which they were said."""
        return [
            r
            for r in self.record.readings
            if r.role == role
            and (quantity is None or r.quantity == quantity)
            and (component is None or r.component == component)
            and (point is None or r.point == point)
            and (equipment is UNSET or r.equipment == equipment)
        ]

    def steps(self, *codes: str, status: str | None = "done", equipment: object = UNSET) -> list[Step]:
        """Return the steps with one of the codes and the status (None for any)."""
        return [
            s
            for s in self.record.steps
            if (not codes or s.step in codes)
            and (status is None or s.status == status)
            and (equipment is UNSET or s.equipment == equipment)
        ]

    def movements(self, direction: str | None = None, *, equipment: object = UNSET) -> list[Movement]:
        """Return the refrigerant movements."""
        return [
            m
            for m in self.record.refrigerant
            if (direction is None or m.direction == direction)
            and (equipment is UNSET or m.equipment == equipment)
        ]

    def parts(self, *actions: str, equipment: object = UNSET) -> list[Part]:
        """Return the parts handled in one of these ways."""
        return [
            p
            for p in self.record.parts
            if (not actions or p.action in actions) and (equipment is UNSET or p.equipment == equipment)
        ]

    def machine(self, id: str | None) -> Equipment | None:
        """Return the machine with this id."""
        return next((e for e in self.record.equipment if e.id == id), None)

    def machines(self) -> Iterable[str | None]:
        """Return the ids under which anything was recorded; [None] when no machine was named."""
        record = self.record
        ids = [s.equipment for s in record.steps] + [r.equipment for r in record.readings]
        ids += [m.equipment for m in record.refrigerant] + [p.equipment for p in record.parts]
        seen = list(dict.fromkeys(ids))
        return seen or [None]
