"""What was taken from the words, before it is put in order.

The mentions stage fills the record's own types, with `at` and `heard` set and `id`, `equipment` and `stage`
still empty unless the words themselves say them; the writeup stage gives ids, decides which machine and which
side of the repair each belongs to, joins what belongs together, and builds the tests.
"""

from dataclasses import dataclass, field

from dictate.record.base import At
from dictate.record.visit import (
    Conclusion,
    Equipment,
    Event,
    Movement,
    Part,
    Reading,
    Remark,
    Stage,
    Step,
)


@dataclass
class LabourMention:
    """A working time as said: a start, an end, or a duration of work, travel or a break."""

    kind: str  # "start", "end", "work", "travel", "break", "other_day" (hours of a day without clock times)
    clock: str | None  # "HH:MM", 24 h
    hours: float | None
    at: At
    heard: str
    review: list[str] = field(default_factory=list)


@dataclass
class HoldMention:
    """What was said of a pressure test: how long it stood, and whether it held. `at` is its step's place."""

    minutes: float | None
    result: str | None  # "held", "failed"
    at: At


@dataclass
class StageMention:
    """Whether the value at these words is as found or as left, by all the words around it.

    `certain` where it stands against what the order of the repair says.
    """

    stage: Stage
    certain: bool
    at: At


@dataclass
class VisitMention:
    """A fact about the visit as said: `field` is one of visit's field names (site, customer, date …)."""

    field: str
    value: str
    at: At
    heard: str


@dataclass
class Mentions:
    """Everything found in one visit's transcript, each list in the order in which it was said."""

    readings: list[Reading] = field(default_factory=list)
    movements: list[Movement] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    parts: list[Part] = field(default_factory=list)
    equipment: list[Equipment] = field(default_factory=list)
    events: list[Event] = field(default_factory=list)
    conclusions: list[Conclusion] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    labour: list[LabourMention] = field(default_factory=list)
    visit: list[VisitMention] = field(default_factory=list)
    holds: list[HoldMention] = field(default_factory=list)
    stages: list[StageMention] = field(default_factory=list)
    units: str = "us"
    units_assumed: bool = True
