"""Where a value was read when nobody says it: the usual place on a thing, and the air in a cold box.

    settle_points(found, words)

A voltage at a plug, a cord, a disconnect or a contactor is of the line side unless the load is said; a
transformer is fed at its primary and gives from its secondary; a display or a thermometer without a place
shows the box. Only values without a point get one, after the doubts: a place that was not said proves
nothing. All common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from dictate.mentions.taken import Found, Taken
from dictate.mentions.word_lists import word_list

_LIVE = 90.0
"""Volts above which a voltage is one of the supply."""
_CONTROL = 60.0
"""Volts below which a voltage is one of a control circuit."""


def settle_points(found: Found, words: Sequence[str]) -> None:
    """Give the values without a point the usual one of the thing, in place."""
    _windings(found, words)
    _other_gauge(found, words)
    for i, t in enumerate(found.readings):
        r = t.reading
        before = found.readings[i - 1] if i else None
        if r.point is not None or r.state != "value" or r.value is None or r.derived:
            continue
        clause = _clause(t, found, i, words)
        if r.quantity == "voltage":
            if r.component == "transformer":
                r.point = _winding(r.value, clause)
            elif r.component in word_list("default_points_fed") and r.value >= _LIVE:
                r.point = "line"
            elif r.component == "contactor" and not r.which and not _row(t, found):
                r.point = "line" if r.value >= _LIVE else "coil" if r.value >= 18 else None
        elif r.quantity == "resistance" and r.component == "contactor" and r.value >= 4:
            r.point = "coil"
        elif r.quantity == "temperature" and (r.component is None or r.component == "temperature controller"):
            r.point = _air(t, clause, before, words)


def _row(t: Taken, found: Found) -> bool:
    """Tell whether a voltage is one of a row on a contactor of which others were told by leg or side."""
    return any(
        x is not t
        and x.reading.quantity == "voltage"
        and x.reading.component == t.reading.component
        and (x.reading.point or "l")[0] in "lL"
        and x.reading.point not in {None, "line"}
        and abs(x.sentence - t.sentence) <= 1
        and abs(x.start - t.start) <= 40
        for x in found.readings
    )


def _clause(t: Taken, found: Found, i: int, words: Sequence[str]) -> list[str]:
    """Return the words between the value before and a value, and some behind it, within the sentence."""
    begin = max(0, t.start - 14, found.readings[i - 1].end if i else 0)
    ends = [k for k in range(begin, t.start) if words[k] in {".", "?", "!", ";"}]
    stop = t.end
    while stop < len(words) and stop - t.end < 5 and words[stop] not in {".", "?", "!", ";", ",", "and"}:
        stop += 1
    return [*words[(ends[-1] + 1 if ends else begin) : t.start], "|", *words[t.end : stop]]


def _winding(value: float, clause: Sequence[str]) -> str | None:
    """Return the winding of a transformer that a voltage was read on."""
    said = set(clause)
    if value == 0:
        return "secondary" if {"out", "leaving"} & said else "primary" if {"in", "into"} & said else None
    if value < _CONTROL:
        return "secondary"
    return "secondary" if {"out", "leaving", "output"} & said and not {"in", "into"} & said else "primary"


def _air(t: Taken, clause: Sequence[str], before: Taken | None, words: Sequence[str]) -> str | None:
    """Return "box" for what a display, a thermometer or a shelf shows, None when it is of something else."""
    if t.reading.role not in {"measured", "earlier"}:
        return None
    said = set(clause)
    if said & word_list("default_points_elsewhere"):
        return None
    if said & word_list("default_points_box"):
        return "box"
    if before is not None and before.reading.quantity == "temperature" and before.reading.point == "box":
        gap = words[before.end : t.start]
        if len(gap) <= 8 and "." not in gap and set(gap) <= word_list("default_points_goes_on"):
            return "box"
    return None


def _windings(found: Found, words: Sequence[str]) -> None:
    """Name the ends between which one winding, or both in a row, were read ("main is 14, start 22")."""
    ends = {"run": "common-run", "start": "common-start"}
    pairs = {"common-run", "common-start"}
    for i, t in enumerate(found.readings):
        r = t.reading
        if r.quantity != "resistance":
            continue
        if r.point in ends and (r.value or 0) < 1000:
            r.point = ends[r.point]
            continue
        begin = max(t.start - 3, found.readings[i - 1].end if i else 0, 0)
        lead = [
            w
            for w in words[begin : t.start]
            if w not in {"is", "'s", "was", "at", "the", "reads", "read", "winding"}
        ]
        named = word_list("default_points_winding_alone")
        if r.point is None and r.component in word_list("readings_motors") and (r.value or 0) < 1000:
            word = lead[-1].removesuffix("'s") if lead else ""
            behind = [w for w in words[t.end : t.end + 5] if w not in {"ohm", "ohms", "the"}]
            if behind[:1] == ["on"] and (word == "," or not lead or lead[-1] in {".", "and"}):
                word = behind[1] if behind[1:] else ""
            r.point = "common-run" if word in {"main", "run"} else "common-start" if word in named else None
        if r.point in pairs | {None} and i >= 2:
            said = " ".join(
                [
                    *words[max(t.start - 6, found.readings[i - 1].end) : t.start],
                    "|",
                    *words[t.end : t.end + 4],
                ]
            )
            before = {x.reading.point for x in found.readings[i - 2 : i]}
            if before == pairs and any(p in said for p in word_list("default_points_both_windings")):
                r.point = "run-start"


def _other_gauge(found: Found, words: Sequence[str]) -> None:
    """Name the side of a pressure beside one of the other side: "355 with 128 on the suction"."""
    for a, b in pairwise(found.readings):
        pair = (a.reading, b.reading)
        if any(r.quantity != "pressure" or r.role != "measured" or not r.value for r in pair):
            continue
        if (
            b.start - a.end > 8
            or {".", ";", "nitrogen", "temp"} & set(words[a.end : b.start])
            or a.reading.unit != b.reading.unit
        ):
            continue
        for one, other in (pair, pair[::-1]):
            if (
                one.point is not None
                or one.component is not None
                or other.point not in {"suction", "discharge"}
            ):
                continue
            ratio = (one.value or 0) / (other.value or 1)
            if other.point == "suction" and ratio >= 1.8:
                one.point = "discharge"
            elif other.point == "discharge" and ratio <= 0.55:
                one.point = "suction"
