"""Visits made by hand for the review tests: an invented walk-in freezer with gaps, and a large one."""

from __future__ import annotations

import math
import struct
import wave
from pathlib import Path

from dictate.export.folder import write_folder
from dictate.pipeline import check
from dictate.record.base import At
from dictate.record.transcript import Segment, Word
from dictate.record.visit import (
    Amount,
    Candidate,
    Clip,
    Equipment,
    Labour,
    Movement,
    Part,
    Reading,
    Record,
    Step,
    Visit,
)
from dictate.record.visit import Test as RecordTest

SENTENCES = [
    "Walk-in freezer at the quay, low suction, nine psi.",
    "Pulled the disconnect and checked it dead with the meter.",
    "Recovered two point six ounces of R-404A.",
    "Common to run is four point three ohms.",
    "Brazed in a new filter drier.",
    "Pulled a vacuum down to four eighty microns.",
    "Charged eighteen pounds.",
    "Put the power back on, running now, suction is fifteen psi, box temperature minus four.",
]


def segments(texts: list[str] = SENTENCES, clip: str = "c1", each: float = 4.0) -> list[Segment]:
    """Make segments with evenly spread word times, one sentence every `each` seconds."""
    out = []
    for n, text in enumerate(texts):
        start = n * each
        words = text.split()
        step = (each - 0.5) / len(words)
        timed = [
            Word(
                text=w,
                start_s=round(start + k * step, 2),
                end_s=round(start + (k + 1) * step, 2),
                probability=0.9,
            )
            for k, w in enumerate(words)
        ]
        out.append(Segment(clip=clip, start_s=start, end_s=start + each - 0.5, text=text, words=timed))
    return out


def at(segment: int, each: float = 4.0) -> At:
    return At(
        clip="c1",
        start_s=segment * each + 0.5,
        end_s=segment * each + 2.0,
        segment=segment,
        first_word=1,
        last_word=3,
    )


def freezer() -> Record:
    """One machine: a doubtful resistance and a doubtful amount, and the gaps that the rules find."""
    record = Record(
        visit=Visit(id="v-quay", date="2026-03-04", site="12 Quay Road", units="us", units_assumed=False),
        clips=[Clip(id="c1", file="freezer.m4a", sha256="ab" * 32, duration_s=32.0)],
        transcript=segments(),
        equipment=[
            Equipment(
                id="e1",
                name="walk-in freezer",
                type="walk-in freezer",
                at=at(0),
                heard="Walk-in freezer",
                refrigerant="R-404A",
            )
        ],
    )
    record.readings = [
        Reading(id="r1", equipment="e1", quantity="pressure", value=9, unit="psi", reference="gauge", point="suction", stage="as_found", at=at(0), heard="suction, nine psi"),
        Reading(
            id="r2", equipment="e1", quantity="resistance", value=4.3, unit="ohm", component="compressor", point="common-run", stage="as_found",
            at=at(3), heard="four point three ohms", confidence=0.5, review=["two readings of the words: 4.3 or 40.3"],
            candidates=[Candidate(value=40.3, unit="ohm", heard="forty point three ohms", why="sounds alike")],
        ),
        Reading(id="r3", equipment="e1", quantity="vacuum", value=480, unit="micron", at=at(5), heard="four eighty microns", stage="as_left"),
        Reading(id="r4", equipment="e1", quantity="pressure", value=15, unit="psi", reference="gauge", point="suction", stage="as_left", at=at(7), heard="suction is fifteen psi"),
        Reading(id="r5", equipment="e1", quantity="temperature", value=-4, unit="degF", point="box", stage="as_left", at=at(7), heard="box temperature minus four"),
    ]  # fmt: skip
    record.refrigerant = [
        Movement(
            id="m1", equipment="e1", direction="recovered", refrigerant="R-404A", value=2.6, unit="oz", at=at(2), heard="two point six ounces", confidence=0.4,
            review=["pounds and ounces are often written like this"], candidates=[Candidate(value=2.375, unit="lb", heard="two pounds six ounces", why="pounds and ounces")],
        ),
        Movement(id="m2", equipment="e1", direction="charged", refrigerant="R-404A", value=18, unit="lb", at=at(6), heard="eighteen pounds"),
    ]  # fmt: skip
    record.steps = [
        Step(
            id="s1",
            equipment="e1",
            step="power_isolated",
            status="done",
            at=at(1),
            heard="Pulled the disconnect",
        ),
        Step(
            id="s2",
            equipment="e1",
            step="absence_of_voltage_verified",
            status="done",
            at=at(1),
            heard="checked it dead",
        ),
        Step(
            id="s3", equipment="e1", step="refrigerant_recovered", status="done", at=at(2), heard="Recovered"
        ),
        Step(id="s4", equipment="e1", step="brazed", status="done", at=at(4), heard="Brazed"),
        Step(
            id="s5",
            equipment="e1",
            step="filter_drier_replaced",
            status="done",
            at=at(4),
            heard="a new filter drier",
        ),
        Step(id="s6", equipment="e1", step="evacuated", status="done", at=at(5), heard="Pulled a vacuum"),
        Step(id="s7", equipment="e1", step="charged", status="done", at=at(6), heard="Charged"),
        Step(
            id="s8",
            equipment="e1",
            step="power_restored",
            status="done",
            at=at(7),
            heard="Put the power back on",
        ),
        Step(id="s9", equipment="e1", step="run_checked", status="done", at=at(7), heard="running now"),
    ]
    record.parts = [
        Part(id="p1", equipment="e1", name="filter drier", action="replaced", at=at(4), heard="filter drier")
    ]
    record.tests = [
        RecordTest(
            id="t1",
            equipment="e1",
            kind="evacuation",
            reached=Amount(value=480, unit="micron"),
            readings=["r3"],
            at=at(5),
            heard="vacuum",
        )
    ]
    record.labour = Labour(start="08:15", end="11:00", hours=2.75)
    return check(record)


def two_machines() -> Record:
    """Two machines, and three things that were not said of either."""
    record = freezer()
    record.equipment = [
        *record.equipment,
        Equipment(id="e2", name="ice machine", type="ice machine", at=at(5), heard="ice machine"),
    ]
    for reading in record.readings[3:]:
        reading.equipment = None
    record.steps[-1].equipment = None
    return check(record)


def hostile() -> Record:
    """Words and names that try to break the page: markup, right-to-left marks, one line of a megabyte."""
    record = freezer()
    evil = '<script>document.title="owned"</script>‮ <img src=x onerror=alert(1)> {{ 7*7 }} "\' &amp;'
    record.clips[0].file = evil
    record.visit.site = evil
    record.complaint = evil
    record.readings[1].heard = evil
    record.transcript = [
        *record.transcript,
        Segment(clip="c1", start_s=30, end_s=31, text=evil),
        Segment(clip="c1", start_s=31, end_s=32, text="drone " * 170_000),
    ]
    return record


def large() -> Record:
    """Two hours, some 20 000 words, and 400 readings on two machines."""
    record = freezer()
    filler = "and the head pressure is at two hundred and ten now while the box comes down slowly again today"
    record.transcript = segments([*SENTENCES, *(f"Number {n}, {filler}." for n in range(1000))], each=7.1)
    record.clips[0].duration_s = 7200.0
    record.equipment = [
        *record.equipment,
        Equipment(id="e2", name="ice machine", type="ice machine", at=at(5)),
    ]
    for n in range(395):
        segment = 8 + 2 * n
        words = record.transcript[segment].words
        record.readings.append(
            Reading(
                id=f"r{n + 6}", equipment="e1" if n % 2 else "e2", quantity="temperature", value=-10 + n % 40, unit="degF",
                component="evaporator", point="coil" if n % 3 else "return", which=str(n // 4), stage="as_found" if n % 4 < 2 else "as_left",
                at=At(clip="c1", start_s=words[4].start_s, end_s=words[8].end_s, segment=segment, first_word=4, last_word=8),
                heard=f"two hundred and ten {n}", review=["the recogniser was unsure"] if n % 50 == 0 else [],
            )
        )  # fmt: skip
    return check(record)


def sound(path: Path, seconds: float, rate: int = 16000) -> None:
    """Write a wave file with a beep every second."""
    path.parent.mkdir(parents=True, exist_ok=True)
    second = b"".join(
        struct.pack("<h", int(9000 * math.sin(n / 6) * (0.2 + 0.8 * (n < rate // 3)))) for n in range(rate)
    )
    with wave.open(str(path), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(rate)
        for _ in range(int(seconds)):
            file.writeframes(second)


def folder(path: Path, record: Record, *, with_sound: bool = True) -> Path:
    """Write a visit as `dictate note --out` does."""
    write_folder(record, path)
    if with_sound:
        for clip in record.clips:
            sound(path / "sound" / f"{clip.id}.wav", min(clip.duration_s or 1.0, 60.0))
    return path
