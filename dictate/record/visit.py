"""The service record: plain types, published as JSON Schema. Field names are the contract's."""

from typing import Literal

from pydantic import ConfigDict, Field

from dictate.record.base import At, Model
from dictate.record.transcript import Segment

SCHEMA = "dictate-record 1.0"

Quantity = Literal[
    "voltage", "current", "resistance", "capacitance", "power", "frequency", "pressure", "vacuum",
    "temperature", "temperature_difference", "superheat", "subcooling", "mass", "flow", "duration",
    "length", "speed", "concentration",
]  # fmt: skip
Unit = Literal[
    "V", "A", "ohm", "uF", "W", "Hz", "psi", "kPa", "bar", "mbar", "Pa", "inHg", "micron", "degF", "degC",
    "delta_degF", "delta_degC", "lb", "oz", "g", "kg", "ft3/h", "gal/min", "L/min", "s", "min", "h", "in",
    "ft", "mm", "rpm", "%", "ppm",
]  # fmt: skip
Reference = Literal["gauge", "absolute", "vacuum_depth", "differential"]
Relation = Literal["=", "<", "<=", ">", ">=", "~"]
State = Literal["value", "open"]
Role = Literal["measured", "target", "rated", "earlier", "expected", "retracted"]
Stage = Literal["as_found", "as_left"]
UnitSystem = Literal["us", "metric"]
StepStatus = Literal["done", "planned", "not_done"]
PartAction = Literal["replaced", "installed", "removed", "repaired", "cleaned", "adjusted"]
Outcome = Literal["ok", "problem", "missing", "unsure", "not_applicable"]

StepCode = Literal[
    "power_isolated", "absence_of_voltage_verified", "capacitor_discharged", "refrigerant_recovered",
    "brazed", "nitrogen_purged", "nitrogen_swept", "filter_drier_replaced", "part_replaced",
    "pressure_tested", "leak_checked", "evacuated", "vacuum_held", "charged", "ports_capped",
    "power_restored", "run_checked", "cleaned", "adjusted", "customer_informed",
]  # fmt: skip


class Amount(Model):
    """A number with its unit, as worked out or as entered."""

    value: float
    unit: str


class Candidate(Model):
    """Another value that the same words or the same sound may mean, and why."""

    value: float | None = None
    unit: str | None = None
    heard: str = ""
    why: str = ""


class Visit(Model):
    """The visit as a whole; everything that was not said is null."""

    id: str
    revision: int = 1
    date: str | None = None
    site: str | None = None
    customer: str | None = None
    technician: str | None = None
    certificate: str | None = None
    jurisdiction: str | None = None
    units: UnitSystem | None = None
    units_assumed: bool = True


class Clip(Model):
    """One recording or transcript that went into the visit."""

    id: str
    file: str
    sha256: str
    duration_s: float | None = None
    recorded_at: str | None = None
    model: str | None = None
    language: str | None = None
    engine: dict[str, str] = Field(default_factory=dict)


class Problem(Model):
    """An input that failed, with why and what to do next."""

    file: str
    error: str
    advice: str = ""
    waived: str | None = None
    """Why a person let the visit go on without it, with the name."""


class PlateValue(Model):
    """A value that a data plate, label or part marking gives."""

    quantity: Quantity
    value: float
    unit: Unit
    component: str | None = None
    name: str | None = None
    heard: str = ""


class Equipment(Model):
    """One machine of the visit."""

    id: str = ""
    name: str | None = None
    type: str | None = None
    model: str | None = None
    serial: str | None = None
    refrigerant: str | None = None
    plate: list[PlateValue] = Field(default_factory=list)
    at: At | None = None
    heard: str = ""
    review: list[str] = Field(default_factory=list)


class Reading(Model):
    """One value that was said, with what it is a value of, how it was said, and how sure that is."""

    id: str = ""
    equipment: str | None = None
    quantity: Quantity
    value: float | None = None
    unit: Unit
    ucum: str | None = None
    reference: Reference | None = None
    unit_assumed: bool = False
    derived: bool = False
    relation: Relation = "="
    state: State = "value"
    component: str | None = None
    point: str | None = None
    which: str | None = None
    role: Role = "measured"
    stage: Stage | None = None
    at: At = Field(default_factory=At)
    heard: str = ""
    confidence: float = Field(default=1.0, ge=0, le=1)
    review: list[str] = Field(default_factory=list)
    candidates: list[Candidate] = Field(default_factory=list)
    retracts: str | None = None
    """The id of the reading that this one corrects; that one has the role `retracted`."""


class Movement(Model):
    """Refrigerant that went out of or into the machine."""

    id: str = ""
    equipment: str | None = None
    direction: Literal["recovered", "charged"]
    refrigerant: str | None = None
    value: float | None = None
    unit: Literal["lb", "oz", "g", "kg"] | None = None
    at: At = Field(default_factory=At)
    heard: str = ""
    confidence: float = Field(default=1.0, ge=0, le=1)
    review: list[str] = Field(default_factory=list)
    candidates: list[Candidate] = Field(default_factory=list)
    retracted: list[Amount] = Field(default_factory=list)
    also_said: list[Amount] = Field(default_factory=list)


class Step(Model):
    """A piece of work, and whether it was done."""

    id: str = ""
    equipment: str | None = None
    step: StepCode
    status: StepStatus
    component: str | None = None
    at: At = Field(default_factory=At)
    heard: str = ""
    review: list[str] = Field(default_factory=list)


class Part(Model):
    """A part that was handled."""

    id: str = ""
    equipment: str | None = None
    name: str
    action: PartAction
    part_number: str | None = None
    rating: str | None = None
    quantity: float | None = None
    at: At = Field(default_factory=At)
    heard: str = ""
    review: list[str] = Field(default_factory=list)


class Event(Model):
    """What the machine did."""

    id: str = ""
    equipment: str | None = None
    event: str
    component: str | None = None
    at: At = Field(default_factory=At)
    heard: str = ""


class Test(Model):
    """A pressure test or an evacuation, put together from what was said about it."""

    __test__ = False  # not a test case, whatever a test runner makes of the name

    id: str = ""
    equipment: str | None = None
    kind: Literal["pressure_test", "evacuation"]
    attempt: int = 1
    gas: str | None = None
    start: Amount | None = None
    end: Amount | None = None
    minutes: float | None = None
    start_temperature: Amount | None = None
    end_temperature: Amount | None = None
    reached: Amount | None = None
    """The deepest vacuum, or the highest test pressure, that was said."""
    result: Literal["held", "failed"] | None = None
    readings: list[str] = Field(default_factory=list)
    at: At = Field(default_factory=At)
    heard: str = ""
    review: list[str] = Field(default_factory=list)


class Conclusion(Model):
    """What the technician says is wrong."""

    id: str = ""
    equipment: str | None = None
    text: str
    component: str | None = None
    at: At = Field(default_factory=At)


class Remark(Model):
    """Where a complaint, a recommendation or another remark was said, with the words."""

    kind: Literal["complaint", "recommendation", "note"]
    text: str
    equipment: str | None = None
    at: At = Field(default_factory=At)


class Labour(Model):
    """Working time, from clock times and durations as said. `hours` is null unless it can be told."""

    start: str | None = None
    end: str | None = None
    hours: float | None = None
    travel_hours: float | None = None
    break_hours: float | None = None
    at: list[At] = Field(default_factory=list)
    heard: list[str] = Field(default_factory=list)
    review: list[str] = Field(default_factory=list)


class Check(Model):
    """The verdict of one rule about one thing."""

    id: str = ""
    rule: str
    outcome: Outcome
    message: str
    question: str | None = None
    equipment: str | None = None
    evidence: list[str] = Field(default_factory=list)
    computed: dict[str, Amount] = Field(default_factory=dict)
    at: list[At] = Field(default_factory=list)
    source: str = ""
    tag: Literal["published", "common practice", "from memory"] = "common practice"
    caution: str | None = None
    blocking: bool = False
    """True when export must not go out as final while this is open."""
    resolved: bool = False
    """True when the same visit put it right afterwards: a finding of the repair, and nothing left open."""
    waived: str | None = None
    """Why a person set this question aside, with the name; it no longer stops an export and stays in view."""


class Anchor(Model):
    """What an entry of the log is about, so that it is found again when the record is written up anew.

    `kind` is the record's list (`readings`, `refrigerant` …); words and place count more than the id.
    """

    kind: str
    id: str
    heard: str = ""
    clip: str | None = None
    start_s: float | None = None
    first_word: int | None = None


class Correction(Model):
    """One entry of the append-only log of what a person changed after the recording.

    `target` is what the person pointed at (an item's id, a question's key, another entry's id), `before` and
    `after` are for people to read. The other fields are what a replay needs: `about` the items, `fields`
    their new values, `rule`, `equipment` and `message` the question, `clip` and `segments` a typed or spoken
    answer, `after_segment` the index into the base record's transcript behind which the answer belongs.
    """

    id: str
    made_at: str
    by: str
    target: str
    action: str
    before: str | None = None
    after: str | None = None
    note: str | None = None
    text: str | None = None
    rule: str | None = None
    equipment: str | None = None
    message: str | None = None
    about: list[Anchor] = Field(default_factory=list)
    fields: dict[str, str | float | None] = Field(default_factory=dict)
    clip: Clip | None = None
    segments: list[Segment] = Field(default_factory=list)
    after_segment: int | None = None
    base: str | None = None
    """Fingerprint of the record as it was first made, on which this entry was made."""
    shown: str | None = None
    """Hash of what the person saw; the save was refused unless it was still so."""


class Acknowledgement(Model):
    """That the customer saw the record: who, when, and which revision of it."""

    name: str
    at: str
    revision: int


class ExportMark(Model):
    """Stamped on a record that left through an export; never part of what the hash covers."""

    draft: bool
    open_questions: list[str] = Field(default_factory=list)
    sha256: str
    supersedes: int | None = None


class Record(Model):
    """One visit: what was said, what was taken from it, and what does not add up."""

    model_config = ConfigDict(
        extra="forbid", validate_assignment=True, populate_by_name=True, serialize_by_alias=True
    )

    schema_: str = Field(default=SCHEMA, alias="schema")
    visit: Visit
    clips: list[Clip] = Field(default_factory=list)
    problems: list[Problem] = Field(default_factory=list)
    transcript: list[Segment] = Field(default_factory=list)
    complaint: str | None = None
    recommendations: list[str] = Field(default_factory=list)
    remarks: list[Remark] = Field(default_factory=list)
    """The complaint and the recommendations again, each with the place in the sound."""
    equipment: list[Equipment] = Field(default_factory=list)
    readings: list[Reading] = Field(default_factory=list)
    refrigerant: list[Movement] = Field(default_factory=list)
    steps: list[Step] = Field(default_factory=list)
    parts: list[Part] = Field(default_factory=list)
    events: list[Event] = Field(default_factory=list)
    tests: list[Test] = Field(default_factory=list)
    conclusions: list[Conclusion] = Field(default_factory=list)
    labour: Labour | None = None
    checks: list[Check] = Field(default_factory=list)
    corrections: list[Correction] = Field(default_factory=list)
    acknowledgement: Acknowledgement | None = None
    export: ExportMark | None = None
