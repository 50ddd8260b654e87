"""Working time from clock times and durations as said."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.mentions import LabourMention
from dictate.record.visit import Labour

_PART_OF_IT = 0.25
_HALF_OF_IT = 0.5
_LONG_DAY_H = 14.0  # a visit longer than this is mostly a time heard in the wrong half of the day
_ROUNDING_H = 0.3  # said durations are rounded to quarters and halves; beyond it the two do not agree


def labour_of(mentions: Sequence[LabourMention]) -> Labour | None:
    """Return the labour; `hours` is what was said, else what the clock times give, else null."""
    if not mentions:
        return None
    starts = [m for m in mentions if m.kind == "start" and m.clock]
    ends = [m for m in mentions if m.kind == "end" and m.clock]
    start = starts[0].clock if starts else None
    end = ends[-1].clock if ends else None
    out = Labour(
        start=start,
        end=end,
        travel_hours=_sum(mentions, "travel"),
        break_hours=_sum(mentions, "break"),
        at=[m.at for m in mentions],
        heard=[m.heard for m in mentions],
        review=[r for m in mentions for r in m.review],
    )
    stretches = _stretches(mentions)
    clocked = round(sum(stretches), 4) if len(stretches) > 1 else _between(start, end)
    if clocked is not None and out.break_hours and out.break_hours < clocked:
        clocked = round(clocked - out.break_hours, 4)
    other = _sum(mentions, "other_day")
    if clocked is not None and other:
        clocked = round(clocked + other, 4)
        out.review.append(f"{other:g} h of another day are added to {start} to {end}")
    if clocked is not None and not other and clocked > _LONG_DAY_H:
        out.review.append(f"{start} to {end} is {clocked:g} h: longer than a working day")
    said = [m.hours for m in mentions if m.kind == "work" and m.hours]
    distinct = list(dict.fromkeys(said))
    if len(distinct) > 1:
        out.review.append("several durations of work were said: " + ", ".join(f"{h:g} h" for h in distinct))
        out.hours = clocked if clocked is not None else distinct[-1]
    elif distinct:
        out.hours = distinct[0]
        alone = len(starts) == 1 and len(ends) == 1
        if clocked is not None and distinct[0] < (_HALF_OF_IT if alone else _PART_OF_IT) * clocked:
            out.hours = clocked  # some minutes said inside a visit of hours are not all of it
        if clocked is not None and abs(clocked - distinct[0]) > _ROUNDING_H:
            out.review.append(f"{start} to {end} is {clocked:g} h, and {distinct[0]:g} h was said")
        _worked_out(out, starts, ends)
    else:
        out.hours = clocked
    if len(stretches) > 1:
        out.review.append("more than one stretch of work was said; the hours are their sum")
    elif len({m.clock for m in starts}) > 1 or len({m.clock for m in ends}) > 1:
        out.review.append("more than one start or end was said; the first start and the last end are used")
    return out


def _worked_out(out: Labour, starts: Sequence[LabourMention], ends: Sequence[LabourMention]) -> None:
    """Work out the start from the end and the hours, or the end from the start; it carries that it was."""
    if not out.hours or out.hours > _LONG_DAY_H or out.travel_hours or len(starts) + len(ends) != 1:
        return
    minutes = round((out.hours + (out.break_hours or 0.0)) * 60)
    if ends and out.end is not None:
        out.start = _clock(_minutes(out.end) - minutes)
        out.review.append(f"the start was not said: {out.start} follows from the end and the hours")
    elif starts and out.start is not None:
        out.end = _clock(_minutes(out.start) + minutes)
        out.review.append(f"the end was not said: {out.end} follows from the start and the hours")


def _minutes(clock: str) -> int:
    return int(clock[:2]) * 60 + int(clock[3:])


def _clock(minutes: int) -> str:
    minutes %= 24 * 60
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def _stretches(mentions: Sequence[LabourMention]) -> list[float]:
    """Return the hours of each stretch of work: "eight to ten, then one to three"."""
    clocks = [m for m in mentions if m.kind in ("start", "end") and m.clock]
    if len(clocks) % 2 or any(m.kind != ("start", "end")[n % 2] for n, m in enumerate(clocks)):
        return []
    pairs = dict.fromkeys((a.clock, b.clock) for a, b in zip(clocks[::2], clocks[1::2], strict=True))
    return [h for a, b in pairs if (h := _between(a, b)) is not None]


def _sum(mentions: Sequence[LabourMention], kind: str) -> float | None:
    found = [m.hours for m in mentions if m.kind == kind and m.hours]
    return round(sum(found), 4) if found else None


def _between(start: str | None, end: str | None) -> float | None:
    """Return the hours from start to end; a job over midnight ends on the next day."""
    if start is None or end is None:
        return None
    first = int(start[:2]) * 60 + int(start[3:])
    last = int(end[:2]) * 60 + int(end[3:])
    if last < first:
        last += 24 * 60
    return round((last - first) / 60, 4)
