"""Pictures where people would rather look than read: SVG drawn on the server, with the same facts in words.

Nothing here is a `style` attribute, because the page's policy allows none; colours come from classes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from dictate.export import wording
from dictate.export.digest import Digest, Machine
from dictate.record.base import At
from dictate.record.visit import Reading, Record, Test
from dictate.units import convert
from dictate.vocabulary.load import table

if TYPE_CHECKING:
    from markupsafe import Markup


@dataclass
class Figure:
    """A picture with its title and the sentences that say the same."""

    title: str
    svg: Markup
    words: list[str]


@dataclass
class Shift:
    """A value as found and as left, with the picture of its way from one to the other."""

    what: str
    found: Reading
    left: Reading
    svg: Markup


@dataclass
class Mark:
    """Something on the timeline: its number, what it is, where it was said."""

    number: int
    text: str
    at: At
    kind: str


def _markup(text: str) -> Markup:
    from markupsafe import Markup

    return Markup(text)


def _escape(text: str) -> str:
    from markupsafe import escape

    return str(escape(text))


# -- vacuum -----------------------------------------------------------------------------------------------


def vacuums(record: Record, machine: Machine) -> list[Figure]:
    """Return the curve of each evacuation of a machine: pull-down, hold, target and verdict."""
    by_id = {r.id: r for r in record.readings}
    target = _target(record, machine.id)
    out = []
    for test in machine.tests:
        if test.kind != "evacuation":
            continue
        values = [by_id[i] for i in test.readings if i in by_id]
        down, hold = _points(test, [r for r in values if r.quantity == "vacuum" and r.role == "measured"])
        if not down:
            continue
        words = _vacuum_words(record, machine, test, down, hold, target)
        title = f"Vacuum, attempt {test.attempt}"
        out.append(Figure(title, _curve(title, down, hold, target, words), words))
    return out


def _target(record: Record, machine: str | None) -> float:
    said = [
        convert(r.value, r.unit, "micron")
        for r in record.readings
        if r.quantity == "vacuum"
        and r.role in ("target", "rated")
        and r.value is not None
        and r.equipment in (machine, None)
    ]
    return min(said) if said else float(table("procedure_limits")["final_vacuum"]["value"])


def _points(test: Test, readings: list[Reading]) -> tuple[list[float], list[tuple[float, float]]]:
    """Return the pull-down in micron and the hold as (minutes, micron); minutes not said are nan."""
    values = [convert(r.value, r.unit, "micron") for r in readings if r.value is not None]
    amounts = [a for a in (test.reached, test.start) if a is not None and a.unit != "inHg"]
    if not values:
        values = [convert(a.value, a.unit, "micron") for a in amounts[:1]]
    if not values:
        return [], []
    lowest = values.index(min(values))
    down, rest = values[: lowest + 1], values[lowest + 1 :]
    if not rest and test.end is not None and test.end.unit != "inHg" and test.start is not None:
        rest = [convert(test.end.value, test.end.unit, "micron")]
    if not rest:
        return down, []
    minutes = test.minutes if test.minutes is not None else math.nan
    step = minutes / len(rest)
    return down, [(0.0, down[-1]), *((step * (n + 1), v) for n, v in enumerate(rest))]


def _vacuum_words(
    record: Record,
    machine: Machine,
    test: Test,
    down: list[float],
    hold: list[tuple[float, float]],
    target: float,
) -> list[str]:
    words = [f"Deepest {down[-1]:.0f} micron; at most {target:.0f} is asked for."]
    if hold:
        minutes = hold[-1][0]
        after = "" if math.isnan(minutes) else f" after {wording.number(minutes)} minutes"
        words.append(f"With the pump shut off: {hold[0][1]:.0f} to {hold[-1][1]:.0f} micron{after}.")
    else:
        words.append("No hold with numbers was said.")
    if test.result is not None:
        words.append(f"From the words it {test.result}.")
    ids = set(test.readings) | {test.id}
    for check in record.checks:
        if check.rule.startswith("evacuation.") and check.outcome != "not_applicable":
            mine = bool(ids & set(check.evidence)) or (not check.evidence and check.equipment == machine.id)
            if mine:
                words.append(f"{wording.OUTCOME_WORDS[check.outcome].capitalize()}: {check.message}")
    return list(dict.fromkeys(words))


def _curve(
    title: str, down: list[float], hold: list[tuple[float, float]], target: float, words: list[str]
) -> Markup:
    width, height, left, right, top, bottom = 480, 240, 62, 12, 14, 34
    every = [*down, *(v for _, v in hold), target]
    low = 10 ** math.floor(math.log10(max(1.0, min(every)) * 0.9))
    high = 10 ** math.ceil(math.log10(max(every) * 1.05))

    def y(value: float) -> float:
        part = math.log10(max(value, low) / low) / math.log10(high / low)
        return round(height - bottom - part * (height - top - bottom), 1)

    split = left + (width - left - right) * (0.45 if hold else 1.0)
    start = down if len(down) > 1 else [high, *down]
    xs = [left + (split - left) * n / (len(start) - 1) for n in range(len(start))]
    fall = " ".join(f"{x:.1f},{y(v)}" for x, v in zip(xs, start, strict=True))
    label = _escape(f"{title}. {words[0]}")
    lines = [f'<svg class="chart" viewBox="0 0 {width} {height}" role="img" aria-label="{label}">']
    value = low
    while value <= high * 1.01:
        lines.append(f'<path class="grid" d="M{left} {y(value)}H{width - right}"/>')
        lines.append(f'<text class="tick end" x="{left - 6}" y="{y(value) + 5}">{value:,.0f}</text>')
        value *= 10
    lines.append(f'<path class="target" d="M{left} {y(target)}H{width - right}"/>')
    lines.append(f'<text class="tick" x="{left + 6}" y="{y(target) + 16}">target {target:.0f}</text>')
    dash = " said-only" if len(down) == 1 else ""
    lines.append(f'<polyline class="line{dash}" points="{fall}"/>')
    lines += [
        f'<circle class="dot" cx="{x:.1f}" cy="{y(v)}" r="4"/>' for x, v in zip(xs, start, strict=True)
    ][-len(down) :]
    lines.append(f'<text class="tick" x="{left}" y="{height - 10}">pull-down, micron</text>')
    if hold:
        known = not math.isnan(hold[-1][0])
        last = hold[-1][0] if known and hold[-1][0] > 0 else float(len(hold) - 1)
        places = [
            (split + (width - right - split) * ((m if known else n) / last), y(v))
            for n, (m, v) in enumerate(hold)
        ]
        lines.append(f'<path class="grid" d="M{split:.1f} {top}V{height - bottom}"/>')
        lines.append(f'<polyline class="line hold" points="{" ".join(f"{x:.1f},{v}" for x, v in places)}"/>')
        lines += [f'<circle class="dot" cx="{x:.1f}" cy="{v}" r="4"/>' for x, v in places[1:]]
        text = f"hold, {wording.number(last)} min" if known else "hold, time not said"
        lines.append(f'<text class="tick end" x="{width - right}" y="{height - 10}">{text}</text>')
    lines.append("</svg>")
    return _markup("".join(lines))


# -- before and after -------------------------------------------------------------------------------------

_SHOWN = frozenset(
    {"pressure", "temperature", "superheat", "subcooling", "temperature_difference", "current", "voltage"}
)


MOST_SHIFTS = 16
"""More pictures than these help nobody; the table above them has every value."""


def shifts(machine: Machine) -> list[Shift]:
    """Return what was measured both as found and as left, with a picture of the change."""
    pairs = [
        (p.what, p.found[-1], p.left[-1])
        for p in machine.pairs
        if p.found and p.left and p.found[-1].quantity in _SHOWN and p.found[-1].unit == p.left[-1].unit
    ]
    pairs = [p for p in pairs if p[1].value is not None and p[2].value is not None][:MOST_SHIFTS]
    out = []
    for what, found, left in pairs:
        same = [p for p in pairs if p[1].unit == found.unit and p[1].quantity == found.quantity]
        values = [float(v.value or 0) for p in same for v in p[1:]]
        low, high = min([*values, 0.0]), max([*values, 0.0])
        out.append(Shift(what, found, left, _arrow(found.value or 0, left.value or 0, low, high)))
    return out


def _arrow(found: float, left: float, low: float, high: float) -> Markup:
    span = (high - low) or 1.0
    a, b = (round(8 + 184 * (v - low) / span, 1) for v in (found, left))
    head = 6 if b >= a else -6
    tip = f'<circle class="dot" cx="{b}" cy="12" r="3"/>'
    if abs(b - a) > 6:
        tip = f'<path class="dot" d="M{b} 12l{-head} -5v10z"/>'
    return _markup(
        f'<svg class="shift" viewBox="0 0 200 24" aria-hidden="true"><path class="grid" d="M8 12H192"/>'
        f'<path class="line" d="M{a} 12H{b}"/><circle class="hollow" cx="{a}" cy="12" r="5"/>{tip}</svg>'
    )


# -- the visit's timeline ---------------------------------------------------------------------------------


def marks(view: Digest) -> list[Mark]:
    """Return steps, events and movements with a place in the sound, in the order in which they were said."""
    record = view.record
    things: list[tuple[At, str, str]] = [
        (s.at, wording.STEP_WORDS[s.step] + (f" ({s.component})" if s.component else ""), "step")
        for s in record.steps
        if s.status == "done"
    ]
    things += [
        (e.at, f"{e.component or 'machine'} {e.event.replace('_', ' ')}", "event") for e in record.events
    ]
    things += [(m.at, f"{m.direction} {wording.movement(m)}", "moved") for m in record.refrigerant]
    known = [t for t in things if t[0].start_s is not None and t[0].clip is not None]
    order = {c.id: n for n, c in enumerate(record.clips)}
    known.sort(key=lambda t: (order.get(t[0].clip or "", 0), t[0].start_s or 0))
    return [Mark(n, text, at, kind) for n, (at, text, kind) in enumerate(known, start=1)]


def timeline(record: Record, found: list[Mark]) -> Markup | None:
    """Return the visit as a line with numbered marks, clip after clip; None without times."""
    clips = [(c.id, c.duration_s) for c in record.clips if c.duration_s]
    total = sum(d for _, d in clips if d)
    if not total or not found:
        return None
    begin, at = {}, 0.0
    for id, duration in clips:
        begin[id], at = at, at + (duration or 0)
    width, lanes = 720, 4
    taken = [-99.0] * lanes
    shapes = []
    for mark in found:
        if mark.at.clip not in begin:
            continue
        x = 14 + (width - 28) * (begin[mark.at.clip] + (mark.at.start_s or 0)) / total
        lane = next((n for n in range(lanes) if x - taken[n] > 26), min(range(lanes), key=lambda n: taken[n]))
        taken[lane] = x
        y = 92 - lane * 25
        shapes.append(
            f'<path class="grid" d="M{x:.1f} {y}V106"/>'
            f'<circle class="mark {mark.kind}" cx="{x:.1f}" cy="{y}" r="11"/>'
            f'<text class="number" x="{x:.1f}" y="{y + 4}">{mark.number}</text>'
        )
    ends = "".join(
        f'<path class="axis" d="M{14 + (width - 28) * begin[i] / total:.1f} 100V112"/>'
        f'<text class="tick" x="{14 + (width - 28) * begin[i] / total + 3:.1f}" y="126">{_escape(i)}</text>'
        for i, _ in clips
    )
    text = "; ".join(f"{m.number} {m.text} at {wording.clock(m.at.start_s)}" for m in found[:40])
    return _markup(
        f'<svg class="chart line-of-visit" viewBox="0 0 {width} 132" role="img" '
        f'aria-label="{_escape(f"The visit in order: {text}")}"><path class="axis" d="M14 106H{width - 14}"/>'
        f"{ends}{''.join(shapes)}</svg>"
    )


# -- the sound --------------------------------------------------------------------------------------------


def wave(peaks: list[int], duration: float, ticks: list[tuple[float, str]]) -> Markup:
    """Return the waveform (`peaks` 0 to 100, evenly spaced) with marks at (seconds, kind)."""
    count = len(peaks) or 1
    upper = "".join(f"L{n * 1000 / count:.0f} {40 - p * 0.38:.0f}" for n, p in enumerate(peaks))
    lower = "".join(
        f"L{n * 1000 / count:.0f} {40 + p * 0.38:.0f}" for n, p in reversed(list(enumerate(peaks)))
    )
    lines = []
    for kind, top in (("value", 64), ("look", 0)):
        places = sorted({round(1000 * t / duration) for t, k in ticks if k == kind}) if duration > 0 else []
        if places:
            lines.append(f'<path class="tick-{kind}" d="{"".join(f"M{x} {top}V80" for x in places)}"/>')
    return _markup(
        '<svg class="wave" viewBox="0 0 1000 80" preserveAspectRatio="none" aria-hidden="true">'
        f'<path class="peaks" d="M0 40{upper}{lower}Z"/>{"".join(lines)}'
        '<path class="cursor" d="M0 0V80"/></svg>'
    )
