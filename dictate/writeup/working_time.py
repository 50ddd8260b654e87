"""Working time from clock times and durations as said."""

from __future__ import annotations

from collections.abc import Sequence

from dictate.record.mentions import LabourMention
from dictate.record.visit import Labour

_PART_OF_IT = 0.25
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
    clocked = _between(start, end)
    if clocked is not None and out.break_hours and out.break_hours < clocked:
        clocked = round(clocked - out.break_hours, 4)
    said = [m.hours for m in mentions if m.kind == "work" and m.hours]
    distinct = list(dict.fromkeys(said))
    if len(distinct) > 1:
        out.review.append("several durations of work were said: " + ", ".join(f"{h:g} h" for h in distinct))
        out.hours = clocked if clocked is not None else distinct[-1]
    elif distinct:
        out.hours = distinct[0]
        if clocked is not None and distinct[0] < _PART_OF_IT * clocked:
            out.hours = clocked  # some minutes said inside a visit of hours are not all of it
        if clocked is not None and abs(clocked - distinct[0]) > _ROUNDING_H:
            out.review.append(f"{start} to {end} is {clocked:g} h, and {distinct[0]:g} h was said")
    else:
        out.hours = clocked
    if len({m.clock for m in starts}) > 1 or len({m.clock for m in ends}) > 1:
        out.review.append("more than one start or end was said; the first start and the last end are used")
    return out


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
