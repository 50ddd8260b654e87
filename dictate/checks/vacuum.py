"""Evacuations as rules ask about them: attempts, the deepest vacuum, and the rise with the pump shut off.

All vacuums are absolute, in micron. What a rise means is read from its shape: a leak keeps climbing at one
rate, water or refrigerant leaving the oil climbs and levels off at its vapour pressure, and gauge and hoses
settle with a small quick rise. Two readings tell that it rose, never why.

>>> classify([(0, 450), (5, 900), (10, 1350), (15, 1800)])
'leak'
>>> classify([(0, 450), (10, 1150), (20, 1160), (30, 1162)])
'levelled'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from dictate.checks.cited import show
from dictate.checks.values import number_in, value_in
from dictate.checks.words import Said, place, said_after
from dictate.checks.work import Job
from dictate.record.visit import Reading
from dictate.record.visit import Test as RecordTest
from dictate.vocabulary.load import table

Shape = Literal["leak", "levelled", "rising", "flat"]
LEVEL_SHARE = 0.2
"""A last rate below this share of the first one means that the rise has levelled off."""
STEADY_SHARE = 0.6
"""A last rate above this share of the mean rate means that the rise goes on as before."""
WATER_AT_ROOM = 25_000.0
"""Micron; water's vapour pressure on a warm day (about 79 degF). A level above this is not water."""


@dataclass
class Attempt:
    """One pull: points of the hold as (minutes or None, micron), and what was said of its result."""

    number: int
    lowest: float | None = None
    relation: str = "="
    points: list[tuple[float | None, float]] = field(default_factory=list)
    said: Literal["held", "failed"] | None = None
    things: list[Said] = field(default_factory=list)

    @property
    def rise(self) -> float | None:
        """Return the rise over the hold in micron; None when fewer than two points were said."""
        return self.points[-1][1] - self.points[0][1] if len(self.points) > 1 else None

    @property
    def end(self) -> float | None:
        """Return the last value of the hold; None without a hold that has numbers."""
        return self.points[-1][1] if len(self.points) > 1 else None

    @property
    def minutes(self) -> float | None:
        """Return how long the hold was, as far as it was said."""
        return self.points[-1][0] if len(self.points) > 1 else None


def classify(points: Sequence[tuple[float | None, float]]) -> Shape:
    """Return the shape of a rise from its points; with fewer than three it is "rising" or "flat"."""
    values = [v for _, v in points]
    if len(values) < 2 or values[-1] - values[0] <= max(20.0, 0.05 * values[0]):
        return "flat"
    if len(values) < 3:
        return "rising"
    times = [t for t, _ in points]
    known = all(t is not None for t in times[1:])
    clock = [float(t or 0) for t in times] if known else [float(k) for k in range(len(values))]
    pairs = pairwise(zip(clock, values, strict=True))
    rates = [(b - a) / (t1 - t0) for (t0, a), (t1, b) in pairs if t1 > t0]
    if len(rates) < 2:
        return "rising"
    mean = sum(rates) / len(rates)
    if rates[-1] <= LEVEL_SHARE * max(rates):
        return "levelled"
    if rates[-1] >= STEADY_SHARE * mean:
        return "leak"
    return "rising"


def attempts(job: Job) -> list[Attempt]:
    """Return the attempts at evacuating this machine, in order; [] when no vacuum was said."""
    tests = job.tests("evacuation")
    if not tests and job.machine is not None and not job.alone:
        tests = [t for t in job.facts.tests("evacuation") if t.equipment is None]
    by_id = {r.id: r for r in job.record.readings if r.id}
    made = [_of_test(t, [by_id[i] for i in t.readings if i in by_id]) for t in tests]
    made = [a for a in made if a.lowest is not None or a.said is not None]
    inside = {i for t in tests for i in t.readings}
    loose = [r for r in job.seen("vacuum") if r.value is not None and r.id not in inside]
    if made or not loose:
        return made
    return _of_readings(job, loose)


def limit(job: Job) -> tuple[float, Reading | None]:
    """Return the final vacuum that counts, in micron: what was said it should be, else the default."""
    said = [r for role in ("target", "rated") for r in job.seen("vacuum", role=role) if r.value is not None]
    if said:
        deepest = min(said, key=lambda r: value_in(r, "micron"))
        return value_in(deepest, "micron"), deepest
    return float(table("procedure_limits")["final_vacuum"]["value"]), None


def hold_limits(job: Job) -> tuple[float, float]:
    """Return (held up to, failed above) in micron for the end of the isolated hold.

    Between the two it depends on the oil. A limit that was said raises the first one, never lowers it below
    500 micron: the said figure is the depth to reach, and a small rise after it is usual.
    """
    entry = table("procedure_limits")
    low, high = float(entry["final_vacuum"]["value"]), float(entry["hold_limit"]["value"])
    said = [
        value_in(r, "micron")
        for role in ("target", "rated")
        for r in job.seen("vacuum", role=role)
        if r.value is not None
    ]
    low = max([low, *said])
    return low, max(low, high)


def failed(job: Job, attempt: Attempt) -> bool:
    """True when the vacuum of an attempt did not hold, or was said not to have."""
    low, _ = hold_limits(job)
    return attempt.said == "failed" or (attempt.end is not None and attempt.end > low)


_STAND = re.compile(r"\b(?:valved|closed|shut|isolat\w*|later|after|off|held|holding|sat|stood|standing)\b")


def watched(job: Job, attempt: Attempt, before: Attempt) -> bool:
    """True when the one vacuum of an attempt was read a stated time after the pump was valved off.

    "Second time 410, valved off, fifteen minutes, 460" is a hold even where only the 460 came through;
    "another thirty minutes down to 380" is not: the time alone does not tell, the words around it do.
    """
    last, first = attempt.things[-1], before.things[-1]
    for duration in job.seen("duration"):
        if not (said_after(duration, first) and said_after(last, duration)):
            continue
        at, end = duration.at, last.at
        if at.segment is None or at.segment != end.segment or at.first_word is None or end.first_word is None:
            continue
        said = job.record.transcript[at.segment].words[max(0, at.first_word - 4) : end.first_word + 1]
        if _STAND.search(" ".join(w.text.lower() for w in said)):
            return True
    return False


def numbers(attempt: Attempt) -> str:
    """Write the points of a hold: "450, 900, 1350 micron over 10 minutes"."""
    if len(attempt.points) < 2:
        return show(attempt.lowest, "micron") if attempt.lowest is not None else "no value"
    values = ", ".join(f"{v:.0f}" for _, v in attempt.points)
    over = f" over {attempt.minutes:g} minutes" if attempt.minutes else ""
    return f"{values} micron{over}"


def _of_test(test: RecordTest, readings: list[Reading]) -> Attempt:
    """Put one attempt together from the test of the record and its readings."""
    vacuums = [r for r in readings if r.quantity == "vacuum" and r.value is not None and r.role == "measured"]
    out = Attempt(test.attempt, said=test.result)
    out.things = [*vacuums] or [test]
    if vacuums:
        _fill(out, vacuums, [r for r in readings if r.quantity == "duration" and r.role == "measured"])
    amounts = [a for a in (test.reached, test.start, test.end) if a is not None and a.unit != "inHg"]
    values = [number_in(a.value, a.unit, "micron") for a in amounts]
    if values and (out.lowest is None or min(values) < out.lowest):
        out.lowest = min(values)
    if test.end is not None and test.end.unit != "inHg" and len(out.points) < 2:
        begin = test.start or test.reached
        if begin is not None and begin.unit != "inHg":
            out.points = [
                (0.0, number_in(begin.value, begin.unit, "micron")),
                (test.minutes, number_in(test.end.value, test.end.unit, "micron")),
            ]
    if len(out.points) > 1 and out.points[-1][0] is None and test.minutes is not None:
        out.points[-1] = (test.minutes, out.points[-1][1])
    return out


def _of_readings(job: Job, vacuums: list[Reading]) -> list[Attempt]:
    """Split loose vacuum readings into attempts: a value that falls after a rise begins the next one."""
    groups: list[list[Reading]] = [[]]
    for reading in vacuums:
        group = groups[-1]
        values = [value_in(r, "micron") for r in group]
        if (
            len(values) > 1
            and values[-1] > min(values)
            and value_in(reading, "micron") < min(values[-1], values[0])
        ):
            groups.append([])
        groups[-1].append(reading)
    out = []
    for number, group in enumerate(groups, start=1):
        attempt = Attempt(number, things=list(group))
        _fill(attempt, group, _between(job, group))
        out.append(attempt)
    return out


def _between(job: Job, vacuums: list[Reading]) -> list[Reading]:
    """Return the durations said among or right after some vacuum readings."""
    order = [r for r in job.record.readings if r.role == "measured" and r.quantity in ("vacuum", "duration")]
    index = [k for k, r in enumerate(order) if any(r is v for v in vacuums)]
    if not index:
        return []
    end = index[-1] + 2 if len(index) > 1 else index[-1] + 1
    return [r for r in order[index[0] : end] if r.quantity == "duration"]


def _fill(attempt: Attempt, vacuums: list[Reading], durations: list[Reading]) -> None:
    """Set the deepest vacuum and the points of the hold, which runs from the first lowest value on."""
    values = [value_in(r, "micron") for r in vacuums]
    lowest = min(values)
    first = values.index(lowest)
    attempt.lowest = lowest
    attempt.relation = vacuums[first].relation
    held = vacuums[first:]
    marks = [(d, number_in(d.value, d.unit, "min")) for d in durations if d.value is not None]
    start = place(held[0])
    if start is not None:
        # How long the pump ran before the hold says nothing of the hold.
        after = [m for m in marks if (p := place(m[0])) is None or p > start]
        marks = after or marks
    minutes = [m for _, m in marks]
    rest = len(held) - 1
    times: list[float | None] = [None] * rest
    if rest and len(minutes) == 1 and rest > 1 and _repeats(marks[0][0]):
        times = [minutes[0] * (k + 1) for k in range(rest)]
    elif rest and len(minutes) >= rest:
        times = list(minutes[:rest])
    elif rest and minutes:
        times[-1] = minutes[-1]
    known = [t for t in times if t is not None]
    if len(known) == rest and any(b <= a for a, b in pairwise(known)):
        running = 0.0
        for k, step in enumerate(known):  # "five minutes later ... another five": each counts from the last
            running += step
            times[k] = running
    attempt.points = [(0.0, values[first]), *zip(times, values[first + 1 :], strict=True)]


def _repeats(duration: Reading) -> bool:
    """True when a time was said as a step ("every five minutes")."""
    text = duration.heard.lower()
    return any(w in text for w in ("every", "each", "another", "apart", "step", "interval"))
