"""What the page shows of a visit, worked out from its state; the templates only lay it out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from dictate.export import wording
from dictate.export.digest import Digest, Machine, digest
from dictate.record.base import At
from dictate.record.corrections import active, item_by_id
from dictate.record.transcript import Segment
from dictate.record.visit import Clip, Correction, Record
from dictate.review import pictures, sound
from dictate.review.answers import describe
from dictate.review.desk import Desk, State
from dictate.review.questions import HEADINGS, Question, reasons

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

INLINE_WORDS = 4000
"""A longer transcript is a page of its own, loaded when it is asked for."""
INLINE_SECONDS = 20 * 60
"""The waveform of a longer clip is drawn when it is asked for."""
SEGMENTS_A_PAGE = 120
LONGEST_TEXT = 4000
"""Characters of one stretch of speech that are shown; the record keeps all of it."""


@cache
def environment() -> Environment:
    """Return the template environment: everything that is not markup of ours is escaped."""
    from jinja2 import Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=PackageLoader("dictate.review", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.globals |= {"say": wording, "short": short, "describe": describe, "src": src}
    return made


def short(text: str, most: int = LONGEST_TEXT) -> str:
    """Cut a text that is too long to show, and say so."""
    return (
        text if len(text) <= most else f"{text[:most]} … ({len(text) - most} more characters in the record)"
    )


def src(at: At) -> str:
    """Return the address of a span of sound, as a W3C media fragment; empty where there is no sound."""
    if at.clip is None or at.start_s is None:
        return ""
    end = at.end_s if at.end_s is not None and at.end_s > at.start_s else at.start_s + 3
    return f"sound/{at.clip}.wav#t={_seconds(at.start_s)},{_seconds(end)}"


def _seconds(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


@dataclass
class Section:
    """One machine with its pictures."""

    machine: Machine
    vacuums: list[pictures.Figure]
    shifts: list[pictures.Shift]


@dataclass
class Said:
    """A stretch of the transcript as shown: the text, its place, and the word times for the player."""

    segment: Segment
    number: int
    words: str
    answer: bool
    asked: bool


@dataclass
class Strip:
    """A clip's sound: the player's address, and the waveform where it is at hand."""

    clip: Clip
    wave: Markup | None
    there: bool

    @property
    def name(self) -> str:
        """Return the recording's name without its folders, of whichever system they were."""
        return self.clip.file.replace("\\", "/").rsplit("/", 1)[-1]


@dataclass
class Answered:
    """An entry of the log as shown."""

    entry: Correction
    taken_back: bool


@dataclass
class View:
    """Everything that the page of one visit shows."""

    slug: str
    state: State
    record: Record
    digest: Digest
    by: str
    asked: list[tuple[str, list[Question]]]
    later: list[Question]
    settled: list[Any]
    answered: list[Answered]
    sections: list[Section]
    marks: list[pictures.Mark]
    timeline: Markup | None
    strips: list[Strip]
    said: list[Said] | None
    reasons: list[str]
    evidence: dict[str, tuple[str, Any]]

    @property
    def title(self) -> str:
        """Return what a person calls the visit: its site, its customer, or its machines."""
        visit = self.record.visit
        machines = ", ".join(m.name or m.type or m.id for m in self.record.equipment[:3])
        return short(visit.site or visit.customer or machines or "Service visit", 200)


def view(desk: Desk, slug: str) -> View:
    """Work out the page of a visit."""
    state = desk.now()
    record = state.record
    boiled = digest(record)
    soft = [q for q in state.questions if q.kind == "cannot be told" and not q.blocking]
    later = soft if len(soft) > 2 else []
    asked = [q for q in state.questions if not any(q is s for s in later)]
    counted = {id(e) for e in active(record.corrections)}
    marks = pictures.marks(boiled)
    ids = {i for q in state.questions for i in q.evidence}
    return View(
        slug=slug,
        state=state,
        record=record,
        digest=boiled,
        by=desk.by,
        asked=[
            (h, [q for q in asked if q.kind == k])
            for k, h in HEADINGS.items()
            if any(q.kind == k for q in asked)
        ],
        later=later,
        settled=[look for look in boiled.looks if look.kind in ("set aside", "put right")],
        answered=[Answered(e, id(e) not in counted) for e in record.corrections if e.action != "withdraw"],
        sections=[Section(m, pictures.vacuums(record, m), pictures.shifts(m)) for m in boiled.machines],
        marks=marks,
        timeline=pictures.timeline(record, marks),
        strips=[strip(desk.folder, record, c) for c in record.clips],
        said=_inline(record),
        reasons=reasons(),
        evidence={i: found for i in ids if (found := item_by_id(record, i)) is not None},
    )


def strip(folder: Path, record: Record, clip: Clip, *, draw: bool = False) -> Strip:
    """Return a clip's sound; the waveform of a long clip only when it was drawn before or `draw` is true."""
    there = sound.sound_file(folder, clip.id) is not None
    if not there or not clip.duration_s:
        return Strip(clip, None, there)
    peaks = sound.kept_peaks(folder, clip.id)
    if peaks is None and (draw or clip.duration_s <= INLINE_SECONDS):
        peaks = sound.peaks(folder, clip.id)
    drawn = pictures.wave(peaks, clip.duration_s, _ticks(record, clip.id)) if peaks else None
    return Strip(clip, drawn, there)


def _ticks(record: Record, clip: str) -> list[tuple[float, str]]:
    ticks = [
        (r.at.start_s, "look" if r.review and r.role != "retracted" else "value")
        for r in record.readings
        if r.at.clip == clip and r.at.start_s is not None
    ]
    ticks += [
        (m.at.start_s, "look" if m.review else "value")
        for m in record.refrigerant
        if m.at.clip == clip and m.at.start_s is not None
    ]
    return ticks


def _inline(record: Record) -> list[Said] | None:
    words = sum(len(s.words) or len(s.text.split()) for s in record.transcript)
    if words > INLINE_WORDS or len(record.transcript) > 3 * SEGMENTS_A_PAGE:
        return None
    return said(record, 0, len(record.transcript))


def said(record: Record, start: int, end: int) -> list[Said]:
    """Return stretches of the transcript as shown."""
    own = {c.clip.id for c in record.corrections if c.clip is not None}
    return [
        Said(s, n, _word_times(s), s.clip in own, s.source == "question")
        for n, s in enumerate(record.transcript[start:end], start=start)
    ]


def _word_times(segment: Segment) -> str:
    """Return the words' starts in hundredths of a second after the segment's, or nothing where unknown.

    The player lights the n-th word of the text; that needs as many times as words.
    """
    begin = segment.start_s
    if begin is None or len(segment.words) != len(segment.text.split()) or len(segment.text) > LONGEST_TEXT:
        return ""
    if any(w.start_s is None for w in segment.words):
        return ""
    return " ".join(str(max(0, round(((w.start_s or 0) - begin) * 100))) for w in segment.words)
