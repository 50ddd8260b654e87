"""Put a record together from what was found in the words."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from datetime import datetime, timedelta
from typing import Any, Literal, cast

from dictate.record.base import At
from dictate.record.mentions import Mentions
from dictate.record.transcript import Segment
from dictate.record.visit import (
    Clip,
    Conclusion,
    Equipment,
    Event,
    Movement,
    Part,
    PlateValue,
    Problem,
    Reading,
    Record,
    Remark,
    Step,
    Visit,
)
from dictate.units import UCUM
from dictate.writeup.machines import Machines
from dictate.writeup.order import place
from dictate.writeup.stages import set_stages, stages_by_words
from dictate.writeup.tests_of import tests_of
from dictate.writeup.working_time import labour_of

Belonging = Reading | Movement | Step | Part | Event | Conclusion | Remark


def compose(
    mentions: Mentions, clips: Sequence[Clip], segments: Sequence[Segment], problems: Sequence[Problem] = ()
) -> Record:
    """Return the record of one visit; the same words give the same ids, in the order of speech."""
    machines = Machines(mentions.equipment or _not_named(mentions))
    record = Record(
        visit=_visit(mentions, clips),
        clips=list(clips),
        problems=list(problems),
        transcript=list(segments),
        equipment=machines.machines,
        readings=[r.model_copy(deep=True) for r in mentions.readings],
        refrigerant=[m.model_copy(deep=True) for m in mentions.movements],
        steps=[s.model_copy(deep=True) for s in mentions.steps],
        parts=[p.model_copy(deep=True) for p in mentions.parts],
        events=[e.model_copy(deep=True) for e in mentions.events],
        conclusions=[c.model_copy(deep=True) for c in mentions.conclusions],
        remarks=[r.model_copy(deep=True) for r in mentions.remarks],
        labour=labour_of(mentions.labour),
    )
    _machines(record, machines)
    _ids(record)
    _units(record.readings)
    _plates(record, machines)
    record.tests = tests_of(record.readings, record.steps, mentions.holds)
    for number, test in enumerate(record.tests, start=1):
        test.id = f"t{number}"
    tested = {r for t in record.tests for r in t.readings}
    set_stages(record.readings, record.steps, tested, record.refrigerant)
    stages_by_words(record.readings, mentions.stages, tested)
    _run_checks(record)
    _refrigerants(record, machines)
    complaints = [r.text for r in record.remarks if r.kind == "complaint"]
    record.complaint = complaints[0] if complaints else None
    record.recommendations = [r.text for r in record.remarks if r.kind == "recommendation"]
    _said_at(record)
    return record


def _not_named(mentions: Mentions) -> list[Equipment]:
    """Return the one machine of a visit in which none was named: of no kind, and everything is its own.

    Nobody measures or mends without a machine. What it is was not said and stays open, like its plate.
    """
    told = (*mentions.readings, *mentions.movements, *mentions.steps, *mentions.parts)
    return [Equipment()] if told else []


def _visit(mentions: Mentions, clips: Sequence[Clip]) -> Visit:
    """Return the visit: its id comes from the clips, its date from the words or the recording."""
    digest = hashlib.sha256("\n".join(c.sha256 for c in clips).encode()).hexdigest()
    visit = Visit(
        id=f"v-{digest[:12]}",
        units=cast(Literal["us", "metric"], mentions.units),
        units_assumed=mentions.units_assumed,
    )
    for fact in mentions.visit:
        if getattr(visit, fact.field, "") is None:
            setattr(visit, fact.field, fact.value)
    if visit.date is None:
        recorded = sorted(c.recorded_at for c in clips if c.recorded_at)
        visit.date = recorded[0][:10] if recorded else None
    return visit


def _machines(record: Record, machines: Machines) -> None:
    """Set the machine of everything that has none yet."""
    for thing in _belongings(record):
        if thing.equipment is None:
            thing.equipment = machines.of(thing.at)


def _belongings(record: Record) -> Iterator[Belonging]:
    """Yield everything that belongs to a machine."""
    yield from record.readings
    yield from record.refrigerant
    yield from record.steps
    yield from record.parts
    yield from record.events
    yield from record.conclusions
    yield from record.remarks


def _ids(record: Record) -> None:
    """Number everything in the order of speech, and carry links between readings over to the new ids."""
    lists: tuple[tuple[str, list[Any]], ...] = (
        ("r", record.readings),
        ("m", record.refrigerant),
        ("s", record.steps),
        ("p", record.parts),
        ("v", record.events),
        ("d", record.conclusions),
    )
    renamed: dict[str, str] = {}
    for prefix, items in lists:
        items.sort(key=lambda x: place(x.at))
        for number, item in enumerate(items, start=1):
            if item.id:
                renamed[item.id] = f"{prefix}{number}"
            item.id = f"{prefix}{number}"
    for reading in record.readings:
        if reading.retracts is not None:
            reading.retracts = renamed.get(reading.retracts, reading.retracts)


def _units(readings: Sequence[Reading]) -> None:
    for reading in readings:
        reading.ucum = UCUM.get(reading.unit)


def _plates(record: Record, machines: Machines) -> None:
    """Put what a plate says into its machine."""
    for reading in record.readings:
        machine = machines.get(reading.equipment)
        if reading.role != "rated" or reading.value is None or machine is None:
            continue
        machine.plate.append(
            PlateValue(
                quantity=reading.quantity,
                value=reading.value,
                unit=reading.unit,
                component=reading.component,
                name=reading.point,
                heard=reading.heard,
            )
        )


_RUNNING = frozenset({"current", "superheat", "subcooling", "pressure"})


def _run_checks(record: Record) -> None:
    """Add the run check that as-left readings of a running machine are, where nobody called it one.

    Somebody who reads running amps or pressures after the repair has watched the machine run: two such
    readings of one machine, one of them of the running circuit itself, are a run check said in numbers.
    """
    added = False
    for machine in list(dict.fromkeys(r.equipment for r in record.readings)):
        if any(
            s.step == "run_checked" and s.status == "done" and s.equipment == machine for s in record.steps
        ):
            continue
        work = {s.step for s in record.steps if s.equipment == machine and s.status == "done"}
        if not work & {"power_restored", "charged", "part_replaced"}:
            continue
        left = [
            r
            for r in record.readings
            if r.equipment == machine and r.stage == "as_left" and r.role == "measured" and r.value
        ]
        running = [
            r
            for r in left
            if r.quantity in _RUNNING
            and r.reference not in ("vacuum_depth", "differential")
            and not (r.quantity == "pressure" and r.point is None)
        ]
        warm = [r for r in left if r.quantity in ("temperature", "temperature_difference", "speed")]
        box = [
            r
            for r in warm
            if "power_restored" in work and r.point in ("box", "supply", "product", "discharge air", None)
        ]
        if not (running and len(running) + len(warm) >= 2) and not box:
            continue
        first = min((*running, *warm), key=lambda r: place(r.at))
        record.steps.append(
            Step(
                equipment=machine,
                step="run_checked",
                status="done",
                at=first.at.model_copy(),
                heard=first.heard,
            )
        )
        added = True
    if added:
        record.steps.sort(key=lambda x: place(x.at))
        for number, step in enumerate(record.steps, start=1):
            step.id = f"s{number}"


def _refrigerants(record: Record, machines: Machines) -> None:
    """Give each movement its machine's refrigerant where none was said.

    And a machine the one moved if it has none.
    """
    for movement in record.refrigerant:
        machine: Equipment | None = machines.get(movement.equipment)
        if machine is None:
            continue
        if movement.refrigerant is None:
            movement.refrigerant = machine.refrigerant
        elif machine.refrigerant is None:
            machine.refrigerant = movement.refrigerant
    said = (*(m.refrigerant for m in record.refrigerant), *(e.refrigerant for e in record.equipment))
    named = {r for r in said if r}
    if len(named) != 1:
        return
    fed = any(e.refrigerant and e.type in _FEEDS for e in record.equipment)
    for movement in record.refrigerant:
        if movement.refrigerant is None:
            # One gas was named in the whole visit. What comes from a rack runs in all that it feeds.
            movement.refrigerant = next(iter(named))
            if not fed:
                movement.review.append(f"{movement.refrigerant} was said of another machine of the visit")


_FEEDS = frozenset(("rack", "condensing unit"))


def _said_at(record: Record) -> None:
    """Set the clock time of everything said in a clip whose recording time is known."""
    begins: dict[str, datetime] = {}
    for clip in record.clips:
        if clip.recorded_at:
            try:
                begins[clip.id] = datetime.fromisoformat(clip.recorded_at)
            except ValueError:
                continue
    if not begins:
        return
    for at in _places(record):
        begin = begins.get(at.clip or "")
        if begin is not None and at.start_s is not None:
            at.said_at = (begin + timedelta(seconds=at.start_s)).isoformat(timespec="seconds")


def _places(record: Record) -> Iterator[At]:
    """Yield every place in the record."""
    for item in _belongings(record):
        yield item.at
    for test in record.tests:
        yield test.at
    for machine in record.equipment:
        if machine.at is not None:
            yield machine.at
    if record.labour is not None:
        yield from record.labour.at
