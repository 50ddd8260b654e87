"""Working times that do not fit each other."""

from __future__ import annotations

from dictate.record.mentions import Mentions

_EVENING = "18:00"  # a call that began so late can end on the next day


def doubt_labour(mentions: Mentions) -> None:
    """Doubt working times that do not fit each other."""
    starts = [x for x in mentions.labour if x.kind == "start" and x.clock]
    ends = [x for x in mentions.labour if x.kind == "end" and x.clock]
    if len(starts) == 1 and len(ends) == 1:
        hours = _clock_hours(ends[0].clock) - _clock_hours(starts[0].clock)
        why = None
        over_midnight = (starts[0].clock or "") >= _EVENING and hours <= -14
        if hours <= 0 and not over_midnight:
            why = f"the end, {ends[0].clock}, is not after the start, {starts[0].clock}"
        elif hours > 14:
            why = f"{hours:g} hours from start to end is unusual"
        if why is not None:
            for item in (starts[0], ends[0]):
                if why not in item.review:
                    item.review.append(why)
    for item in mentions.labour:
        if item.hours is not None and not 0 < item.hours <= 16:
            item.review.append(f"{item.hours:g} hours is unusual for one visit")


def _clock_hours(clock: str | None) -> float:
    hours, _, minutes = (clock or "0:0").partition(":")
    return int(hours) + int(minutes) / 60
