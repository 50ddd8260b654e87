"""What a reader of text returned, in one shape for our pipeline and for every peer."""

from __future__ import annotations

import re
import time
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from tests.narrations.labels import Labelled


@dataclass
class Found:
    """One value that a reader took; `first` and `last` are words of the whole text (inclusive)."""

    first: int
    last: int
    value: float | None
    unit: str | None
    state: str = "value"
    quantity: str | None = None
    relation: str | None = None
    role: str = "measured"
    stage: str | None = None
    component: str | None = None
    point: str | None = None
    reference: str | None = None
    equipment: str | None = None
    unit_assumed: bool = False
    derived: bool = False
    review: list[str] = field(default_factory=list)
    heard: str = ""


@dataclass
class Movement:
    """One amount of refrigerant that went out or in."""

    first: int
    last: int
    direction: str
    refrigerant: str | None
    value: float | None
    unit: str | None
    equipment: str | None
    review: list[str]
    heard: str


@dataclass
class Answer:
    """Everything that our pipeline took from one narration."""

    readings: list[Found]
    movements: list[Movement] = field(default_factory=list)
    steps: list[tuple[str, str, str | None, str | None, str]] = field(default_factory=list)
    parts: list[tuple[str, str, str | None, float | None, str]] = field(default_factory=list)
    equipment: list[dict[str, Any]] = field(default_factory=list)
    labour: dict[str, Any] = field(default_factory=dict)
    checks: list[tuple[str, str, str | None, str]] = field(default_factory=list)
    seconds: float = 0.0
    missing_stages: list[str] = field(default_factory=list)


def ours(labelled: Labelled) -> Answer:
    """Read one narration with the pipeline; a stage that does not exist yet is named and left out."""
    from dictate.mentions.narration import segments_of
    from dictate.record.visit import Clip, Record, Visit

    lines = labelled.lines
    segments = list(segments_of(lines, "c1"))
    clips = [Clip(id="c1", file="narration.txt", sha256="0" * 64)]
    missing: list[str] = []
    start = time.process_time()
    try:
        from dictate.pipeline import read

        record = read(clips, segments)
    except ImportError as error:
        missing.append(f"pipeline: {error}")
        from dictate.mentions import find

        mentions = find(segments)
        try:
            from dictate.mentions.confidence import judge

            judge(mentions, segments)
        except ImportError as gap:
            missing.append(f"confidence: {gap}")
        try:
            from dictate.writeup import compose

            record = compose(mentions, clips, segments, [])
        except ImportError as gap:
            missing.append(f"writeup: {gap}")
            record = Record(
                visit=Visit(id="v"),
                equipment=mentions.equipment,
                readings=mentions.readings,
                refrigerant=mentions.movements,
                steps=mentions.steps,
                parts=mentions.parts,
            )
        try:
            from dictate.checks.run import run

            record.checks = run(record)
        except ImportError as gap:
            missing.append(f"checks: {gap}")
    seconds = time.process_time() - start
    offsets = [0]
    for segment in segments:
        offsets.append(offsets[-1] + len(segment.words))

    def place(at: Any) -> tuple[int, int]:
        if at.segment is None:
            return -1, -1
        base = offsets[at.segment]
        first = base + (at.first_word or 0)
        last = base + at.last_word if at.last_word is not None else offsets[at.segment + 1] - 1
        return first, max(first, last)

    answer = Answer([], seconds=seconds, missing_stages=missing)
    for r in record.readings:
        answer.readings.append(
            Found(
                *place(r.at), r.value, r.unit, r.state, r.quantity, r.relation, r.role, r.stage, r.component,
                r.point, r.reference, r.equipment, r.unit_assumed, r.derived, list(r.review), r.heard,
            )
        )  # fmt: skip
    for m in record.refrigerant:
        answer.movements.append(
            Movement(
                *place(m.at),
                m.direction,
                m.refrigerant,
                m.value,
                m.unit,
                m.equipment,
                list(m.review),
                m.heard,
            )
        )
    answer.steps = [(s.step, s.status, s.component, s.equipment, s.heard) for s in record.steps]
    answer.parts = [(p.name, p.action, p.part_number, p.quantity, p.heard) for p in record.parts]
    answer.equipment = [e.model_dump() for e in record.equipment]
    answer.labour = record.labour.model_dump() if record.labour else {}
    answer.checks = [(c.rule, c.outcome, c.equipment, c.message) for c in record.checks]
    return answer


def words_of(text: str, start: int, end: int) -> tuple[int, int]:
    """Turn a character span of a text into the inclusive span of its blank-separated words."""
    places = [m.span() for m in re.finditer(r"\S+", text)]
    touched = [i for i, (a, b) in enumerate(places) if a < end and start < b]
    return (touched[0], touched[-1]) if touched else (-1, -1)


@cache
def _names() -> dict[str, str]:
    """Every way to say a component or a part, in small letters -> its preferred name."""
    from dictate.vocabulary.load import table

    out: dict[str, str] = {}
    for row in table("components")["component"]:
        for form in [row["name"], *row.get("said", [])]:
            out.setdefault(form.lower(), row["name"].lower())
    for preferred, forms in table("parts")["names"].items():
        for form in [preferred, *forms]:
            out.setdefault(form.lower(), preferred.lower())
    return out


def name(text: str | None) -> str | None:
    """Return the preferred name of a component in small letters."""
    if text is None:
        return None
    lower = " ".join(text.lower().replace("_", " ").split())
    return _names().get(lower, lower)
