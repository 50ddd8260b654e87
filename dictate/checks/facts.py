"""The record as rules ask about it: lookups that several rules share, and no verdicts.

Units: every number handed out by `value_in` and its relatives is in the unit asked for. Pressures are handed
out by `absolute_psi` and `gauge_psi` at sea level, because the altitude of a site is not part of the record.

Rules ask at one door: what is worked out of a reading's number (values.py) and how it is written (cited.py)
is handed on from here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import groupby
from typing import Any, Protocol, TypeVar

from dictate.checks.cited import cite, cite_full, clock, show
from dictate.checks.values import (
    absolute_psi,
    bounds,
    exact,
    gauge_psi,
    number_in,
    spans,
    value_in,
)
from dictate.record.base import At
from dictate.record.visit import (
    Conclusion,
    Equipment,
    Event,
    Movement,
    Part,
    PlateValue,
    Reading,
    Record,
    Step,
)
from dictate.record.visit import Test as RecordTest
from dictate.vocabulary.load import table

__all__ = [
    "Facts",
    "absolute_psi",
    "bounds",
    "cite",
    "cite_full",
    "clock",
    "exact",
    "gauge_psi",
    "number_in",
    "order",
    "phrases",
    "same_part",
    "show",
    "spans",
    "value_in",
    "words",
]

UNSET = object()


class OfMachine(Protocol):
    """Anything of the record that belongs to a machine."""

    equipment: str | None


class Placed(Protocol):
    """Anything of the record that was said somewhere."""

    at: At


T = TypeVar("T", bound=OfMachine)


def words(*texts: str | None) -> str:
    """Join texts into one lower-case string of bare words with single spaces, for looking up phrases."""
    said = " ".join(t.lower().replace("-", " ").replace("\u2019", "'") for t in texts if t).split()
    return " ".join(bare for word in said if (bare := word.strip(',.;:!?"()')))


def phrases(name: str) -> tuple[str, ...]:
    """Return a list of phrases of vocabulary/check_words.toml, in the form that `words` gives."""
    return tuple(words(phrase) for phrase in table("check_words")[name]["said"])


def same_part(one: str | None, other: str | None) -> bool:
    """True when two trade names mean the same part: one's words are all among the other's."""
    if not one or not other:
        return False
    a, b = set(words(one).split()), set(words(other).split())
    return a <= b or b <= a


def order(thing: Placed) -> tuple[int, float]:
    """Return a key that sorts by when something was said, as far as the record tells."""
    at = thing.at
    return (at.segment if at.segment is not None else 0, at.start_s if at.start_s is not None else 0.0)


@dataclass
class Facts:
    """A record with the questions that rules put to it."""

    record: Record
    _text: str | None = field(default=None, repr=False)
    phrases_said: dict[str, list[Any]] = field(default_factory=dict, repr=False, compare=False)
    """What the phrase lists found in the transcript, by list: many rules ask for the same."""

    # Lookups -------------------------------------------------------------------------------------------

    def readings(
        self,
        *quantities: str,
        component: str | Iterable[str] | None = None,
        point: str | Iterable[str] | None = None,
        role: str | None = "measured",
        stage: str | None = None,
        equipment: object = UNSET,
    ) -> list[Reading]:
        """Return the readings that fit, in the order in which they were said.

        Only measured ones unless another role (or None for any) is asked for.
        """
        components = {component} if isinstance(component, str) else set(component or ())
        points = {point} if isinstance(point, str) else set(point or ())
        return [
            r
            for r in self.record.readings
            if (role is None or r.role == role)
            and (not quantities or r.quantity in quantities)
            and (not components or r.component in components)
            and (not points or r.point in points)
            and (stage is None or r.stage == stage)
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

    def events(self, *names: str, equipment: object = UNSET) -> list[Event]:
        """Return what the machine did, in order."""
        return [
            e
            for e in self.record.events
            if (not names or e.event in names) and (equipment is UNSET or e.equipment == equipment)
        ]

    def tests(self, kind: str | None = None, *, equipment: object = UNSET) -> list[RecordTest]:
        """Return the pressure tests or evacuations, attempt by attempt."""
        return [
            t
            for t in self.record.tests
            if (kind is None or t.kind == kind) and (equipment is UNSET or t.equipment == equipment)
        ]

    def conclusions(self, *, equipment: object = UNSET) -> list[Conclusion]:
        """Return what the technician says is wrong."""
        return [c for c in self.record.conclusions if equipment is UNSET or c.equipment == equipment]

    # Machines ------------------------------------------------------------------------------------------

    def machine(self, id: str | None) -> Equipment | None:
        """Return the machine with this id; with one machine in the visit, None means that one."""
        if id is None and len(self.record.equipment) == 1:
            return self.record.equipment[0]
        return next((e for e in self.record.equipment if e.id == id), None)

    def machines(self) -> list[str | None]:
        """Return the ids under which anything was recorded; [None] when no machine was named."""
        record = self.record
        ids = [s.equipment for s in record.steps] + [r.equipment for r in record.readings]
        ids += [m.equipment for m in record.refrigerant] + [p.equipment for p in record.parts]
        ids += [e.equipment for e in record.events]
        seen = list(dict.fromkeys(ids))
        return seen or [None]

    def by_machine(self, things: Iterable[T]) -> dict[str | None, list[T]]:
        """Group things by machine, in order of first mention."""
        groups: dict[str | None, list[T]] = {}
        for thing in things:
            groups.setdefault(thing.equipment, []).append(thing)
        return groups

    def refrigerant_of(self, equipment: str | None) -> str | None:
        """Return the one refrigerant said for a machine (plate first, then what was charged or recovered).

        None when none was said, or when what was said does not agree.
        """
        machine = self.machine(equipment)
        if machine is not None and machine.refrigerant:
            return machine.refrigerant
        said = {m.refrigerant for m in self.movements(equipment=equipment) if m.refrigerant}
        return said.pop() if len(said) == 1 else None

    def plate(self, equipment: str | None, quantity: str, component: str | None = None) -> list[PlateValue]:
        """Return the plate values of a quantity: those on the machine, then readings said as rated."""
        machine = self.machine(equipment)
        values = [
            p
            for p in (machine.plate if machine is not None else [])
            if p.quantity == quantity and (component is None or p.component in (component, None))
        ]
        have = {(p.value, p.unit) for p in values}
        for r in self.readings(quantity, role="rated"):
            if r.equipment not in (equipment, None) or r.value is None or (r.value, r.unit) in have:
                continue
            if component is None or r.component in (component, None):
                values.append(
                    PlateValue(
                        quantity=r.quantity,
                        value=r.value,
                        unit=r.unit,
                        component=r.component,
                        name=r.which or r.point,
                        heard=r.heard,
                    )
                )
        return values

    def targets(
        self, quantity: str, *, equipment: object = UNSET, component: str | None = None
    ) -> list[Reading]:
        """Return what was said that the value should be ("should be eight to twelve")."""
        return [
            r
            for r in self.readings(quantity, role="target")
            if (equipment is UNSET or r.equipment in (equipment, None))
            and (component is None or r.component in (component, None))
        ]

    # Numbers as this visit speaks --------------------------------------------------------------------

    def degrees(self, deg_f: float) -> str:
        """Write a temperature given in °F in the unit system of the visit."""
        if self.record.visit.units == "metric":
            return show((deg_f - 32) / 1.8, "degC")
        return show(deg_f, "degF")

    def difference(self, deg_f: float) -> str:
        """Write a difference of temperatures given in °F in the unit system of the visit."""
        if self.record.visit.units == "metric":
            return f"{deg_f / 1.8:.1f} K".replace(".0 ", " ")
        return f"{deg_f:.1f} °F".replace(".0 ", " ")

    # Words and order -----------------------------------------------------------------------------------

    def context(self, thing: Placed, before: int = 0, after: int = 0) -> str:
        """Return the words around a thing in lower case: its segment, and so many before and after."""
        segment = thing.at.segment
        heard = getattr(thing, "heard", "") or ""
        if segment is None:
            return words(heard)
        segments = self.record.transcript[max(0, segment - before) : segment + after + 1]
        return words(*(s.text for s in segments)) or words(heard)

    @cached_property
    def _by_segment(self) -> dict[int | None, list[Reading]]:
        found: dict[int | None, list[Reading]] = {}
        for reading in self.record.readings:
            found.setdefault(reading.at.segment, []).append(reading)
        return found

    @cached_property
    def _places(self) -> dict[int, int]:
        """Number the readings, by their identity."""
        return {id(r): n for n, r in reversed(list(enumerate(self.record.readings)))}

    def around(
        self, reading: Reading, before: int = 8, after: int = 8, *, sentence: bool = False
    ) -> tuple[str, str]:
        """Return the words just before and just after a reading, in lower case.

        Both stop at the neighbouring readings of the segment, so that a word about another number is not
        taken for one about this; with `sentence` also at the ends of the sentence. Without word positions the
        whole segment stands on both sides.
        """
        at = reading.at
        if at.segment is None or at.first_word is None or at.last_word is None:
            text = self.context(reading)
            return text, text
        segment = self.record.transcript[at.segment]
        spoken = [w.text for w in segment.words] or segment.text.split()
        start, end = max(0, at.first_word - before), min(len(spoken), at.last_word + 1 + after)
        for other in self._by_segment.get(at.segment, ()):
            o = other.at
            if other is reading or o.first_word is None or o.last_word is None:
                continue
            if o.last_word < at.first_word:
                start = max(start, o.last_word + 1)
            elif o.first_word > at.last_word:
                end = min(end, o.first_word)
        if sentence:
            stops = (".", "!", "?", ";")
            start = max(start, *(n + 1 for n in range(start, at.first_word) if spoken[n].endswith(stops)), 0)
            last = (n + 1 for n in range(at.last_word, end) if spoken[n].endswith(stops))
            end = min(end, next(last, end))
        return words(*spoken[start : at.first_word]), words(*spoken[at.last_word + 1 : end])

    def one_sentence(self, one: Reading, other: Reading) -> bool:
        """True when no end of a sentence stands between two readings, as far as the words can tell."""
        a, b = one.at, other.at
        if a.segment != b.segment or a.segment is None:
            return a.segment == b.segment
        if a.last_word is None or b.first_word is None:
            return True
        segment = self.record.transcript[a.segment]
        spoken = [w.text for w in segment.words] or segment.text.split()
        between = spoken[a.last_word : b.first_word]
        return not any(w.endswith((".", "!", "?", ";")) for w in between)

    def said(self, *phrases: str) -> bool:
        """True when one of the phrases stands anywhere in the transcript, as whole words."""
        if self._text is None:
            self._text = f" {words(*(s.text for s in self.record.transcript))} "
        return any(f" {phrase.replace('-', ' ')} " in self._text for phrase in phrases)

    def same_moment(self, readings: Sequence[Reading]) -> list[list[Reading]]:
        """Split readings into those of one side of the repair: as found, as left, or neither told."""
        ordered = sorted(readings, key=lambda r: {"as_found": 0, None: 1, "as_left": 2}[r.stage])
        return [list(group) for _, group in groupby(ordered, key=lambda r: r.stage)]

    def final(self, readings: Sequence[Reading]) -> list[Reading]:
        """Return the readings that describe how the machine was left, as far as can be told.

        Those said as left; when there are none, all of them.
        """
        left = [r for r in readings if r.stage == "as_left"]
        return left or list(readings)

    def as_found_only(self, readings: Sequence[Reading]) -> bool:
        """True when every one of the readings was taken before the repair."""
        return bool(readings) and all(r.stage == "as_found" for r in readings)

    def place(self, reading: Reading) -> int:
        """Return the place of a reading in the order in which things were said."""
        return self._places.get(id(reading), 0)

    def nearest(self, reading: Reading, others: Sequence[Reading]) -> Reading | None:
        """Return the one of the others that was said closest to a reading, counted in readings between."""
        here = self.place(reading)
        return min(others, key=lambda r: abs(self.place(r) - here), default=None)

    def replaced(self, component: str | None, equipment: str | None) -> bool:
        """True when the part was replaced in this visit (as a part, or as a step with its component)."""
        return any(same_part(p.name, component) for p in self.parts("replaced", equipment=equipment)) or any(
            same_part(s.component, component) for s in self.steps("part_replaced", equipment=equipment)
        )
