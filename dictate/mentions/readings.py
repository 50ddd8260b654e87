"""Taking readings: each candidate value with what it is a value of, how it was said, and how sure that is.

    find_readings(narration) -> Found

Sentence by sentence the candidates of `values.py` are tied to the labels, components and points around
them. A stretch of words between two values belongs partly to the one before ("22 on the suction side,") and
partly to the next ("head 210"); `_Sentence.split` decides where. A bare number is a reading only when
something says of what: a label, a component with one thing to measure, a list that goes on, or the reading
before it. Its unit is then the one that the measured thing has in the visit's unit system, and
`unit_assumed` says so. What cannot be tied to anything stays out; what can be tied in two ways comes out
with a reason in `review`.
"""

from __future__ import annotations

import itertools
from bisect import bisect_left
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import cast

from dictate.mentions.labels import (
    ComponentAt,
    Label,
    LabelAt,
    PointAt,
    components,
    find_components,
    find_labels,
    find_points,
)
from dictate.mentions.narration import Narration
from dictate.mentions.plausible import fits, reason
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles import Roles, find_correction_cues, relation_of
from dictate.mentions.units_system import UnitSystem, unit_system
from dictate.mentions.values import Value, find_values
from dictate.mentions.word_lists import word_list
from dictate.record import visit as record
from dictate.record.visit import Candidate, Reading
from dictate.units import UCUM

PREPOSITIONS = word_list("readings_prepositions")
BREAKS = word_list("readings_breaks")
COPULAS = word_list("readings_copulas")
WORK = word_list("readings_work")

_POSSIBLE: dict[str, tuple[str, ...]] = {
    "V": ("voltage",), "A": ("current",), "ohm": ("resistance",), "uF": ("capacitance",), "W": ("power",),
    "Hz": ("frequency",), "psi": ("pressure",), "kPa": ("pressure",), "bar": ("pressure",),
    "mbar": ("vacuum", "pressure"), "Pa": ("vacuum", "pressure"), "inHg": ("pressure",),
    "micron": ("vacuum",),
    "degF": ("temperature", "superheat", "subcooling", "temperature_difference"),
    "degC": ("temperature", "superheat", "subcooling", "temperature_difference"),
    "delta_degF": ("superheat", "subcooling", "temperature_difference"),
    "delta_degC": ("superheat", "subcooling", "temperature_difference"),
    "lb": ("mass",), "oz": ("mass",), "g": ("mass",), "kg": ("mass",), "ft3/h": ("flow",),
    "gal/min": ("flow",),
    "L/min": ("flow",), "s": ("duration",), "min": ("duration",), "h": ("duration",), "in": ("length",),
    "ft": ("length",), "mm": ("length",), "rpm": ("speed",), "%": ("concentration",),
    "ppm": ("concentration",),
}  # fmt: skip
DIFFERENCES = frozenset({"superheat", "subcooling", "temperature_difference"})
ELECTRICAL = frozenset({"voltage", "current", "resistance", "capacitance", "power", "frequency", "speed"})
SWITCHGEAR = word_list("readings_switchgear")
NOMINAL_VOLTS = frozenset(
    {
        5,
        6,
        9,
        12,
        24,
        48,
        100,
        110,
        115,
        120,
        125,
        127,
        200,
        208,
        220,
        230,
        240,
        250,
        265,
        277,
        346,
        347,
        370,
        380,
        400,
        415,
        440,
        450,
        460,
        480,
        575,
        600,
        690,
    }
)
"""Voltages that plates and parts are marked with; common practice."""
MOTORS = word_list("readings_motors")


@dataclass(slots=True)
class Taken:
    """A reading with what later steps (corrections, context) need to know about it."""

    reading: Reading
    value: Value
    start: int
    end: int
    sentence: int
    label: Label | None = None
    said_unit: bool = True
    explicit: bool = False
    """True when a label, a component or a point stood beside the value itself."""
    place_said: bool = False
    """True when the component or the point was said in the same breath."""
    how: str = "unit"
    """What tied the value to what it measures: unit, label, component, point, setting, list, test, carry."""
    label_here: bool = False
    """True when the label stands in this value's own words."""

    def unlike_mains(self) -> bool:
        """Tell whether the value is far from any supply voltage, so that what goes on from it is none either."""
        return self.reading.value is not None and not _mains(self.reading.value) and self.reading.value > 0

    movement: bool = False
    """True for a mass that goes to the movements; it takes part in corrections only."""


@dataclass
class Found:
    """What came out: the readings in order, and the unit system of the visit."""

    readings: list[Taken] = field(default_factory=list)
    units: UnitSystem = field(default_factory=lambda: UnitSystem("us", True))


@dataclass(slots=True)
class _Zone:
    """The words that belong to one value (or one list of values): items before and after it."""

    pre: tuple[int, int]
    post: tuple[int, int]


@dataclass(slots=True)
class _Link:
    """What was decided for a value."""

    quantity: str
    unit: str
    amount: float
    label: Label | None = None
    label_at: LabelAt | None = None
    unit_said: bool = True
    explicit: bool = False
    reasons: list[str] = field(default_factory=list)
    point: str | None = None
    component: str | None = None
    which: str | None = None
    reference: str | None = None
    derived: bool = False
    rated: bool = False
    carried: Taken | None = None
    how: str = "unit"


class _Reader:
    """Goes through a narration once, keeping what the talk is about."""

    def __init__(self, narration: Narration) -> None:
        self.narration = narration
        self.tokens = narration.tokens
        self.words = narration.lowers
        self.values = find_values(narration)
        self.system = unit_system(narration)
        self.components = find_components(narration)
        long = {}
        for c in self.components:
            for t in range(c.start, c.end):
                long[t] = c.end - c.start
        valued = {t for v in self.values for t in range(v.start, v.end)}
        self.labels = [
            label
            for label in find_labels(narration)
            if not any(long.get(t, 0) > label.end - label.start for t in range(label.start, label.end))
            and valued.isdisjoint(range(label.start, label.end))
        ]
        for label in self.labels:
            for t in range(label.start, label.end):
                long[t] = max(long.get(t, 0), label.end - label.start)
        for p in find_points(narration):
            if p.kind == "point" and p.end - p.start > 1:
                self.labels = [
                    x
                    for x in self.labels
                    if not (p.start <= x.start and x.end <= p.end and x.end - x.start < p.end - p.start)
                ]
        self.points = [
            p
            for p in find_points(narration)
            if p.kind != "point" or not any(long.get(t, 0) > p.end - p.start for t in range(p.start, p.end))
        ]
        self.modes = [x for x in self.labels if x.label.mode]
        self.mode_starts = [x.start for x in self.modes]
        self.starts = {
            "labels": [x.start for x in self.labels],
            "components": [x.start for x in self.components],
            "points": [x.start for x in self.points],
        }
        self.found = Found(units=self.system)
        self.mode: tuple[str, int] | None = None
        """What the work is about, and the token at which it was said."""

    def span(self, kind: str, first: int, last: int) -> slice:
        """Return the slice of a list whose items start in the tokens [first, last)."""
        starts = self.starts[kind]
        return slice(bisect_left(starts, first), bisect_left(starts, last))

    def run(self) -> Found:
        position = 0
        for number, (first, last) in enumerate(self.narration.sentences):
            inside: list[Value] = []
            while position < len(self.values) and self.values[position].start < last:
                if self.values[position].start >= first:
                    inside.append(self.values[position])
                position += 1
            _Sentence(self, number, first, last, inside).run()
        return self.found

    # -- the memory

    def mode_at(self, token: int) -> str | None:
        """Return what the work is about at a token: vacuum, recovery, pressure_test or winding."""
        place = bisect_left(self.mode_starts, token)
        best = self.modes[place - 1] if place else None
        vacuum = next(
            (
                t
                for t in reversed(self.found.readings)
                if t.start < token and t.reading.quantity != "duration"
            ),
            None,
        )
        recent = vacuum is not None and vacuum.reading.quantity == "vacuum" and token - vacuum.end < 40
        if vacuum is not None and recent and (best is None or best.start < vacuum.start):
            return "vacuum"
        if best is None or best.label.mode is None:
            return None
        start = best.start
        if (
            self.tokens[start].segment != self.tokens[min(token, len(self.tokens) - 1)].segment
            and token - start > 40
        ):
            return None
        return best.label.mode if token - start < 150 else None

    def mode_start(self, token: int) -> int:
        """Return where the mode at a token was said."""
        place = bisect_left(self.mode_starts, token)
        return self.mode_starts[place - 1] if place else -1

    def last(self, quantity: str | None = None, within: int = 10**9, before: int = 10**9) -> Taken | None:
        """Return the last reading taken, of a quantity when one is given."""
        for taken in reversed(self.found.readings):
            if taken.start >= before:
                continue
            if before - taken.end > within and before < 10**9:
                return None
            if quantity is None and taken.how == "condition":
                continue  # "10 K at 77, mine read 9.6" goes on with the ohms
            if quantity is None or taken.reading.quantity == quantity:
                return taken
        return None

    def last_head(self) -> float | None:
        """Return the last head pressure that was taken."""
        for taken in reversed(self.found.readings):
            if taken.reading.quantity == "pressure" and taken.reading.point == "discharge":
                return taken.reading.value
        return None

    def component_before(self, token: int, quantity: str, within: int = 250) -> ComponentAt | None:
        """Return the component under talk at a token: the last one named on which this can be measured."""
        for c in reversed(self.components):
            if c.start >= token:
                continue
            if token - c.end > within:
                return None
            if (
                quantity == "voltage"
                and c.name in {"breaker", "panel", "disconnect switch"}
                and self.words[c.start - 1] not in {"at", "on", "the", "from"}
            ):
                continue
            if c.name == "motor":
                continue
            if quantity in c.component.measures:
                return c
        return None


class _Sentence:
    """The values of one sentence."""

    def __init__(self, reader: _Reader, number: int, first: int, last: int, values: list[Value]) -> None:
        self.r = reader
        self.number = number
        self.first, self.last = first, last
        self.values = values
        self.words = reader.words
        self.labels = reader.labels[reader.span("labels", first, last)]
        self.components = reader.components[reader.span("components", first, last)]
        self.points = reader.points[reader.span("points", first, last)]
        self.items = sorted(
            [(x.start, x.end) for x in self.labels]
            + [(x.start, x.end) for x in self.components]
            + [(x.start, x.end) for x in self.points]
        )
        self.reads = {
            (x.start, x.end)
            for x in self.labels
            if word_list("readings_reads_other") & set(self.words[x.start : x.end])
        }

    def run(self) -> None:
        if not self.values:
            return
        self._label_units()
        values = self.values
        roles = Roles(
            self.r.narration,
            (self.first, self.last),
            [(v.start + v.opens, v.end) for v in values],
            [(s, e) for s, e in self.items] + [(v.start, v.start + 1) for v in values if v.opens],
        )
        groups = self._groups()
        self.groups = groups
        zones = self._zones(groups)
        for group, zone in zip(groups, zones, strict=True):
            previous: Taken | None = None
            self._share_units(group)
            for value in group:
                taken = self._take(value, group, zone, previous)
                if taken is None:
                    continue
                self._role(taken, roles, values.index(value))
                for one in self._spread(taken):
                    self.r.found.readings.append(one)
                dashed = previous is not None and self.words[previous.end : taken.start] in (
                    ["-"],
                    ["/"],
                    ["slash"],
                    ["to"],
                )
                if (
                    previous is not None
                    and dashed
                    and taken.reading.role == "rated"
                    and previous.reading.role == "measured"
                ):
                    previous.reading.role = "rated"
                    previous.reading.component = taken.reading.component
                previous = taken

    def _label_units(self) -> None:
        """Read "rated load six point oh volts one seventeen": the unit word leads what follows it."""
        for a, b in zip(self.values, self.values[1:], strict=False):
            if a.quantity is None or b.quantity is not None or b.start != a.end or len(a.numbers) != 1:
                continue
            if a.word not in {"volt", "amp", "ohm", "degree"} or not self.words[a.end - 1].endswith("s"):
                continue
            if a.value < 0 and a.word != "degree":
                b.quantity, a.quantity = a.quantity, None  # "set point minus 10 amps 11.3 11.5"
                b.start, a.end = a.end - 1, a.numbers[0].end
                b.opens = True
                continue
            strong = [
                x
                for x in self.labels
                if x.end <= a.start
                and (a.start - x.end <= 2 if x.label.quantity else a.start == x.end and not x.label.weak)
            ]
            if not strong or strong[-1].label.fits(self._kind(a) or ""):
                continue
            b.quantity, a.quantity = a.quantity, None
            b.start, a.end = a.end - 1, a.numbers[0].end
            b.opens = True
        for a in self.values:
            self._label_behind(a)

    def _label_behind(self, a: Value) -> None:
        """Read "head two twenty amps on the compressor went ...": the unit word begins what comes next."""
        if a.quantity is None or len(a.numbers) != 1 or a.word not in {"volt", "amp", "ohm"}:
            return
        kind = self._kind(a)
        after = self.words[a.end : a.end + 1]
        if kind is None or after not in (
            ["on"],
            ["went"],
            ["are"],
            ["were"],
            ["was"],
            ["is"],
            ["at"],
            ["of"],
        ):
            return
        later = any(a.end < v.start <= a.end + 8 and v.quantity is None for v in self.values)
        led = [x for x in self.labels if x.end <= a.start and a.start - x.end <= 4]
        if not later or not led or led[-1].label.weak or led[-1].label.fits(kind):
            return
        unit = next((x for x in find_labels(self.r.narration) if x.start == a.numbers[0].end), None)
        if unit is None:
            return
        a.quantity, a.end = None, a.numbers[0].end
        self.labels = sorted([*self.labels, unit], key=lambda x: x.start)
        self.items = sorted([*self.items, (unit.start, unit.end)])

    # -- lists of values

    def _joined(self, a: Value, b: Value) -> bool:
        if b.opens:
            return False
        if a.start and self.words[a.start - 1] in {"over", "slash", "plus", "/"} and b.quantity is not None:
            return False  # "a 45 over 5, 440 volt"
        between = [w for w in self.words[a.end : b.start] if w not in FILLERS]
        if a.start == b.start:
            return True
        if between[:1] in (["down"], ["up"], ["back"]) and between[1:] == ["to"] and self._moves(a):
            return True
        moving = word_list("quantities_change_verbs") | {"and", "then", "it", ","}
        if between[-1:] == ["to"] and 2 <= len(between) <= 4 and set(between[:-1]) <= moving and b.bare:
            return True  # "suction 40 dropping to 22"
        if not all(w in word_list("readings_joined") for w in between):
            return False
        closed = {"duration", "mass", "length"} if "pound" not in {a.word, b.word} else {"duration", "length"}
        if (a.quantity is None) != (b.quantity is None) and (self._kind(a) or self._kind(b)) in closed:
            return bool(a.range or a.change or (between in (["to"], ["or"], ["-"]) and a.quantity is None))
        if a.state != "value" or b.state != "value":
            return False
        if a.word is None or b.word is None:
            return a.word == b.word or self._same_size(a, b)
        return self._kind(a) == self._kind(b)

    def _same_size(self, a: Value, b: Value) -> bool:
        """Tell whether a bare number and one with its unit can be values of one list."""
        if (a.range and b.range) or a.change or a.value <= 0 or b.value <= 0:
            return True
        ratio = b.value / a.value
        wide = (a.word or b.word) in {"ohm", "kilohm", "megohm", "meg", "k", "micron"}
        return 0.02 <= ratio <= 50 if wide else 0.3 <= ratio <= 3.4

    def _moves(self, a: Value) -> bool:
        """Tell whether a value is the start of a change: "went from 40 down to 36"."""
        before = set(self.words[max(self.first, a.start - 4) : a.start])
        return bool({"from", "went", "dropped", "rose", "came"} & before)

    def _kind(self, v: Value) -> str | None:
        if v.quantity is None or not v.quantity.means:
            return None
        unit = v.quantity.means[0][0]
        return _POSSIBLE[unit][0]

    def _groups(self) -> list[list[Value]]:
        groups: list[list[Value]] = []
        for v in self.values:
            if groups and self._joined(groups[-1][-1], v) and not v.clock:
                groups[-1].append(v)
            else:
                groups.append([v])
        return groups

    def _share_units(self, group: list[Value]) -> None:
        """Give a unit said once in a list to the members without one."""
        said = [v for v in group if v.quantity is not None]
        if not said or len(group) < 2:
            return
        for i, v in enumerate(group):
            if v.quantity is None and v.state == "value":
                if any(w.word == "volt" and w.value in {330, 370, 440} for w in group) and v.value < 100:
                    continue  # "dual cap thirty five and seven and a half, 370 volt"
                right = next((w for w in group[i + 1 :] if w.quantity is not None), None)
                left = next((w for w in reversed(group[:i]) if w.quantity is not None), None)
                after = self.words[v.end] if v.end < self.last else "."
                if right is None and after not in word_list("readings_share_units"):
                    continue
                source = right or left
                if source is not None and source.quantity is not None:
                    if (
                        source.quantity.word in {"minute", "second", "hour", "pound", "ounce", "inch"}
                        and right is None
                    ):
                        continue
                    v.quantity = source.quantity
                    v.reasons += []

    # -- whose words are these

    def _zones(self, groups: list[list[Value]]) -> list[_Zone]:
        edges = [(g[0].start, g[-1].end) for g in groups]
        cuts = []
        backward = self._backward(edges)
        for i in range(len(edges) - 1):
            cuts.append(self.split(edges[i][1], edges[i + 1][0], backward, groups[i]))
        zones = []
        for i, (start, end) in enumerate(edges):
            begin = self.first if i == 0 else cuts[i - 1]
            stop = cuts[i] if i + 1 < len(edges) else self._tail(end, self.last)
            zones.append(_Zone((begin, start), (end, stop)))
        return zones

    def _items_in(self, start: int, end: int) -> list[tuple[int, int]]:
        return [(s, e) for s, e in self.items if start <= s and e <= end]

    def _backward(self, edges: list[tuple[int, int]]) -> bool:
        """Tell whether this sentence says what was measured after each value ("22 suction, 210 head")."""
        if not edges:
            return False
        before = list(self._items_in(self.first, edges[0][0]))
        if before:
            return False
        first = next((v for v in self.values if v.start == edges[0][0]), None)
        if first is not None and self._kind(first) in {"duration", "mass", "flow"}:
            return (
                self._backward(edges[1:])
                if len(edges) > 1 and not self._items_in(edges[0][1], edges[1][0])
                else False
            )
        stop = edges[1][0] if len(edges) > 1 else self.last
        behind = self._items_in(edges[0][1], stop)
        kind = self._kind(first) if first is not None else None
        if kind is not None:
            spans = {(x.start, x.end) for x in self.labels if not x.label.fits(kind)}
            spans -= {(c.start, c.end) for c in self.components if kind in c.component.measures}
            behind = [x for x in behind if x not in spans]
        return bool(behind)

    def _breaks(self, start: int, end: int) -> list[int]:
        inside = {t for s, e in self.items for t in range(s, e)}
        return [i for i in range(start, end) if self.words[i] in BREAKS and i not in inside]

    def _starts_after(self, start: int, end: int) -> bool:
        """Tell whether the words [start, end) hang on the value before them."""
        i = start
        while i < end and self.words[i] in FILLERS:
            i += 1
        if i >= end:
            return False
        return self.words[i] in PREPOSITIONS

    def split(self, start: int, end: int, backward: bool, before: list[Value]) -> int:
        """Return where the words between two values change hands."""
        if start >= end:
            return start
        items = self._items_in(start, end)
        breaks = self._breaks(start, end)
        if not items:
            return breaks[0] if breaks else start
        tail_copula = self._copulas_only(items[-1][1], end)
        if not breaks:
            if self._starts_after(start, end):
                if len(items) >= 2 and items[-1][0] > items[0][1] - 1 and tail_copula:
                    # "on the line side | load side": the last label leads to the next value
                    return items[-1][0] if not self._same_noun(items) else end
                if (
                    tail_copula
                    and end > items[-1][1]
                    and self.words[end - 1] in {"is", "was", "'s", "at", "reads", "are"}
                ):
                    return start if self._has_pre(before) else end
                return end
            direct = items[0][0] - start <= 1
            if (
                direct
                and (backward or self._difference_after(before, items[0]))
                and not self._is_led(items, end)
            ):
                if len(items) >= 2 and tail_copula and items[-1][0] >= items[0][1]:
                    return items[-1][0]
                return end
            return start
        segments = []
        a = start
        for b in [*breaks, end]:
            segments.append((a, b))
            a = b + 1
        cut = start
        first = segments[0]
        if first[0] < first[1]:
            own = self._items_in(*first)
            if self._starts_after(*first) or (
                own
                and own[0][0] - first[0] <= 1
                and (
                    backward
                    or self._difference_after(before, own[0])
                    or (len(segments) > 1 and self._direct_label(before, own, first))
                )
            ):
                cut = first[1]
        else:
            cut = first[1]
        for seg in segments[1:-1]:
            if cut == seg[0] - 1 and self._starts_after(*seg) and self._items_in(*seg):
                cut = seg[1]
            else:
                break
        return cut

    def _difference_after(self, before: list[Value], item: tuple[int, int]) -> bool:
        """Tell whether a label of a difference follows its value at once: "8 degrees superheat"."""
        for label in self.labels:
            if (label.start, label.end) == item and label.label.quantity in DIFFERENCES:
                following = any(v.start == label.end for v in self.values)
                if self._has_pre(before) and (following or before[-1].quantity is None):
                    return False
                return not self._has_pre(before, DIFFERENCES)
        return False

    def _direct_label(
        self, before: list[Value], own: list[tuple[int, int]], segment: tuple[int, int]
    ) -> bool:
        """Tell whether "241 line side, 240 load side" puts the label right behind the value."""
        s, e = own[-1]
        if e != segment[1]:
            return False
        if self._has_pre(before):
            # "Voltage at the contactor 241 line side, 240 load side": the point still was missing
            start = before[0].start
            stop = max((v.end for v in self.values if v.end <= start), default=self.first)
            point = any(p.start == s for p in self.points)
            return point and s == segment[0] and not any(stop <= p.start < start for p in self.points)
        return True

    def _has_pre(self, group: list[Value], quantities: frozenset[str] | None = None) -> bool:
        """Tell whether the value already has a label of its own in front of it."""
        start = group[0].start
        stop = max((v.end for v in self.values if v.end <= start), default=self.first)
        labels = [x for x in self.labels if stop <= x.start and x.end <= start]
        if quantities is not None:
            return any(x.label.quantity in quantities for x in labels)
        others = list(self._items_in(stop, start))
        return bool(others)

    def _is_led(self, items: list[tuple[int, int]], end: int) -> bool:
        """Tell whether a copula leads from the last item to the next value."""
        gap = self.words[items[-1][1] : end]
        return bool(gap) and all(w in COPULAS for w in gap)

    def _copulas_only(self, start: int, end: int) -> bool:
        return all(w in COPULAS or w in FILLERS for w in self.words[start:end])

    def _same_noun(self, items: list[tuple[int, int]]) -> bool:
        """Tell whether the items are one phrase ("on the contactor line side")."""
        for (_, a), (b, _) in itertools.pairwise(items):
            if b - a > 1 or (b - a == 1 and self.words[a] not in {"'s", "the", "of", "on"}):
                return False
        points = [p for p in self.points if (p.start, p.end) in items]
        labels = [x for x in self.labels if (x.start, x.end) in items]
        return len(points) < 2 and len(labels) < 2

    def _tail(self, start: int, end: int) -> int:
        """Return how far the words after the last value belong to it."""
        breaks = self._breaks(start, end)
        segments = []
        a = start
        for b in [*breaks, end]:
            segments.append((a, b))
            a = b + 1
        stop = segments[0][1]
        for seg in segments[1:]:
            if self._starts_after(*seg) and self._items_in(*seg) and seg[1] - seg[0] <= 6:
                stop = seg[1]
            else:
                break
        return stop

    # -- what is it

    def _take(self, v: Value, group: list[Value], zone: _Zone, previous: Taken | None) -> Taken | None:
        link = self._link(v, group, zone, previous)
        if link is None:
            return None
        self._place(v, group, zone, link, previous)
        doubt = self._loose(v, zone, link)
        if doubt is not None:
            link.reasons.append(doubt)
        reading = self._reading(v, link)
        if reading is None:
            return None
        place = bool(self._comps(zone) or self._pts(zone, link.quantity))
        return Taken(
            reading,
            v,
            v.start,
            v.end,
            self.number,
            link.label,
            link.unit_said,
            link.explicit,
            place,
            link.how,
            link.label_at is not None,
        )

    def _loose(self, v: Value, zone: _Zone, link: _Link) -> str | None:
        """Return a reason to look when nothing close by says what a bare number is a value of."""
        if link.how == "carry":
            last = link.carried
            assert last is not None
            before = [w for w in self.words[zone.pre[0] : v.start] if w not in FILLERS]
            if before and self.number - last.sentence == 1 and all(w in _PLAIN for w in before):
                return None
            return f"what {self.r.narration.heard(v.start, v.end)!r} is a value of {LOOSE}"
        if link.how == "carry0":
            before = self.words[zone.pre[0] : v.start]
            known = {t for s, e in self.items for t in range(s, e)}
            names = [w for i, w in enumerate(before, zone.pre[0]) if i not in known]
            odd = [
                w
                for w in names
                if w.isalpha()
                and w not in _PLAIN
                and w not in COPULAS
                and w not in FILLERS
                and w not in _LINKING
            ]
            if len(odd) >= 2:
                return f"what {self.r.narration.heard(v.start, v.end)!r} is a value of {LOOSE}"
        if link.how in {"component", "weak label", "point"}:
            unknown = self._unknown_between(v, zone)
            if unknown:
                heard = self.r.narration.heard(v.start, v.end)
                return f"{unknown!r} stands between {heard!r} and what it may be a value of"
        return None

    def _unknown_between(self, v: Value, zone: _Zone) -> str | None:
        known = {t for s, e in self.items for t in range(s, e)}
        begin = max((e for s, e in self.items if e <= v.start and s >= zone.pre[0]), default=None)
        if begin is None:
            return None
        for i in range(begin + self._place_words(begin, v.start), v.start):
            w = self.words[i]
            if (
                i not in known
                and w.isalpha()
                and w not in _PLAIN
                and w not in COPULAS
                and w not in _LINKING
                and w not in FILLERS
            ):
                return w
        return None

    def _labels(self, zone: _Zone, v: Value) -> list[tuple[float, LabelAt]]:
        """Return the labels of a zone with their cost: near and strong ones are cheap."""
        out = []
        for label in self.labels:
            if zone.post[0] <= label.start and label.end <= zone.post[1]:
                gap = label.start - v.end
                cost = gap + 1.0 + 4 * len(self._breaks(zone.post[0], label.start))
                if gap > 8:
                    continue
            elif zone.pre[0] <= label.start and label.end <= zone.pre[1]:
                words = self.words[label.end : zone.pre[1]]
                if len(words) - self._place_words(label.end, v.start) > label.label.gap:
                    continue
                cost = (
                    float(len(words))
                    + 3 * sum(w in {",", ";", "but"} for w in words)
                    + sum(w in {"and", "so", "then", "with", "while"} for w in words)
                )
                if WORK & set(words):
                    cost += 12
            else:
                continue
            if (
                label.label.weak
                and label.label.default == "current"
                and label.end <= v.start
                and "down" in self.words[label.end : v.start]
            ):
                continue  # "pulled down to 38" is no current
            if label.label.weak:
                cost += 5
            if label.label.quantity is not None:
                cost -= 3
            if label.end <= v.start and self._only_place(label):
                cost += 8
            out.append((cost, label))
        return sorted(out, key=lambda x: x[0])

    def _place_words(self, start: int, end: int) -> int:
        """Return how many words at `start` only say where: "fan | on the roof | 1.1", "air | at the remote | 99"."""
        words = self.words[start:end]
        if len(words) < 3 or words[0] not in {"on", "at", "in", "by", "under", "behind"} or words[1] != "the":
            return 0
        inside = any(s < start + 3 and start < e for s, e in self.items)
        return 0 if inside or not words[2].isalpha() else 3

    def _only_place(self, label: LabelAt) -> bool:
        """Tell whether a label only says where another one was read: "suction at the case was 68"."""
        i = label.start - 1
        if i >= self.first and self.words[i] in {"the", "this", "that"}:
            i -= 1
        moments = {"end", "start", "beginning", "middle"}
        if i > self.first and self.words[i] in {"of", "in"} and moments & set(self.words[i - 1 : i]):
            return any(x.end <= i and i - x.end <= 4 and x.label.point for x in self.labels)
        if i < self.first or self.words[i] not in {"at", "in", "on", "from", "by", "near", "off", "to"}:
            return False
        return any(
            x.end == i and (x.label.quantity or x.label.default) and not x.label.mode for x in self.labels
        )

    def _comps(self, zone: _Zone) -> list[ComponentAt]:
        post = [c for c in self.components if zone.post[0] <= c.start and c.end <= zone.post[1]]
        pre = [c for c in self.components if zone.pre[0] <= c.start and c.end <= zone.pre[1]]
        return [*post, *reversed(pre)]

    def _pts(self, zone: _Zone, quantity: str) -> list[PointAt]:
        fits_ = [p for p in self.points if quantity in p.only]
        post = [p for p in fits_ if zone.post[0] <= p.start and p.end <= zone.post[1]]
        pre = [p for p in fits_ if zone.pre[0] <= p.start and p.end <= zone.pre[1]]
        return [*post, *reversed(pre)]

    def _link(self, v: Value, group: list[Value], zone: _Zone, previous: Taken | None) -> _Link | None:
        if v.state == "open":
            return _Link("resistance", "ohm", 0.0, explicit=True)
        if v.state == "zero":
            return self._zero(v, previous)
        if v.quantity is not None:
            return self._with_unit(v, zone, previous)
        return self._bare(v, group, zone, previous)

    def _zero(self, v: Value, previous: Taken | None) -> _Link:
        said = self.words[v.start : v.end]
        last = previous or self.r.last(before=v.start, within=25)
        current = {"amps", "current", "amp"} & set(said) or (
            last is not None and last.reading.quantity == "current" and last.sentence == self.number
        )
        return _Link("current" if current else "voltage", "A" if current else "V", 0.0, explicit=True)

    # .. a value with its unit

    def _with_unit(self, v: Value, zone: _Zone, previous: Taken | None) -> _Link | None:
        q = v.quantity
        assert q is not None
        costs = self._labels(zone, v)
        if self._circuit_letter(v, costs):
            v.quantity = None
            return self._bare(v, [v], zone, None)
        labels = [label for _, label in costs]
        mode = self.r.mode_at(v.start)
        unit = self._meaning(v, labels, mode, zone, previous)
        if unit is None:
            return None
        amount = tidy(v.value * dict(q.means)[unit]) if unit in dict(q.means) else v.value
        possible = _POSSIBLE[unit]
        chosen: LabelAt | None = None
        quantity = possible[0]
        for label in labels:
            if label.label.mode == "recovery" and unit in {"mbar", "Pa"} and amount < 50:
                continue  # "pumped down ..., pulled to 0.5 millibar"
            hits = [
                x
                for x in possible
                if label.label.fits(x) and (label.label.quantity or label.label.default or label.label.only)
            ]
            if not hits:
                continue
            own = label.label.quantity or label.label.default
            if own in possible:
                chosen, quantity = label, own
                break
            if label.label.point is not None or label.label.mode is None:
                chosen, quantity = label, hits[0]
                break
        if chosen is None and previous is not None and previous.reading.quantity in possible:
            quantity = previous.reading.quantity
        off = self.words[max(self.first, v.start - 2) : v.start] == ["off", "by"]
        across = self._across(v) or off or self._stated_difference(v) if unit in {"degF", "degC", "delta_degC"} else False
        if (
            unit in {"degF", "degC"}
            and self.words[v.start - 1 : v.start] in (["down"], ["up"], ["off"])
            and v.end < self.last
            and self.words[v.end] in {"since", "from", ".", ",", "in", "already"}
        ):
            across = chosen is None
        if across and (chosen is None or chosen.label.quantity not in DIFFERENCES):
            chosen, quantity = None, "temperature_difference"
        link = _Link(
            quantity, unit, amount, chosen.label if chosen else None, chosen, explicit=chosen is not None
        )
        link.derived = bool(across) and quantity == "temperature_difference"
        if quantity in DIFFERENCES and unit in {"degF", "degC"}:
            link.unit = "delta_" + unit
        if quantity == "temperature" and unit in {"delta_degC", "delta_degF"}:
            link.unit = unit.removeprefix("delta_")
        if (
            quantity == "vacuum"
            and unit in {"mbar", "Pa"}
            and (q.word == "inch_water" or not self._is_vacuum(labels, mode, amount, unit))
        ):
            link.quantity = "pressure"
        if link.quantity == "duration" and not self._machine_time(v, labels, mode):
            return None
        if link.quantity == "length" and not (chosen is not None and chosen.label.default == "length"):
            return None
        if link.quantity == "concentration" and chosen is None and unit != "ppm" and not self._percent(zone):
            return None
        if link.quantity in {"voltage", "pressure"} and self._drop(v):
            link.derived = True
        if link.quantity == "pressure":
            link.reference = self._reference(v, link, chosen)
            if link.derived and link.unit != "inHg":
                link.reference = "differential"
        self._wrong_kind(v, link, labels, zone)
        return link

    def _circuit_letter(self, v: Value, costs: list[tuple[float, LabelAt]]) -> bool:
        """Tell whether the A behind a number names a circuit: "discharge 352 A, 349 B"."""
        unit = self.r.tokens[v.end - 1]
        if unit.text != "A" or not unit.space_before or not costs or v.value < 60:
            return False
        wanted = costs[0][1].label.quantity or costs[0][1].label.default
        return wanted in {"pressure", "temperature"} and not costs[0][1].label.weak and costs[0][0] <= 3

    def _drop(self, v: Value) -> bool:
        """Tell whether a value with its unit is a drop: "three volts drop", "8 volts lost"."""
        after = self.words[v.end : v.end + 2]
        return bool(after) and (
            after[0] in {"drop", "lost", "loss", "less"}
            or self.words[v.start - 1 : v.start] in (["dropping"], ["losing"])
            or after == ["of", "drop"]
            or (
                after == ["across", "it"]
                and {"dropping", "losing", "lose", "drop", "drops"}
                & set(self.words[max(self.first, v.start - 4) : v.start])
                != set()
            )
        )

    def _stated_difference(self, v: Value) -> bool:
        """Tell whether degrees are what lies between the two before: "off at 34, on at 41, that's seven degrees"."""
        if not {"that's", "'s", "so", "makes", "is"} & set(self.words[max(self.first, v.start - 3) : v.start]):
            return False
        two = [t.reading.value for t in self.r.found.readings[-2:] if t.reading.quantity == "temperature"]
        if len(two) < 2 or two[0] is None or two[1] is None or self.r.found.readings[-1].sentence != self.number:
            return False
        return abs(abs(two[0] - two[1]) - v.value) < 0.11

    def _across(self, v: Value) -> bool:
        """Tell whether degrees are a difference: "twenty six degrees across it", "5 degrees difference"."""
        after = self.words[v.end : v.end + 2]
        if after[:1] == ["across"]:
            return True
        return bool(word_list("readings_across") & set(after[:1]))

    def _meaning(
        self, v: Value, labels: list[LabelAt], mode: str | None, zone: _Zone, previous: Taken | None
    ) -> str | None:
        """Choose what an ambiguous unit means here."""
        q = v.quantity
        assert q is not None
        word = q.word
        kinds = [
            x
            for label in labels
            for x in (
                [label.label.quantity or label.label.default]
                if label.label.quantity or label.label.default
                else []
            )
        ]
        first = kinds[0] if kinds else None
        around = set(self.words[max(self.first, v.start - 8) : min(self.last, v.end + 6)])
        if word == "pound" or word == "sterling":
            return self._pounds(v, first, labels, mode, around, previous)
        if word == "inch" and v.value < 10 and {"static", "airflow", "cfm", "duct", "column"} & around:
            return None  # inches of water, which the record has no unit for unless it is said
        if word == "inch":
            depth = (
                first in {"pressure", "vacuum"}
                or mode in {"vacuum", "recovery"}
                or {"vacuum", "mercury", "compound"} & around
            )
            not_size = v.end >= self.last or self.words[v.end] in word_list("readings_meaning")
            if first == "length":
                return "in"
            pulled = mode in {"vacuum", "recovery"} and {"down", "to", "at", "pulled"} & set(
                self.words[max(self.first, v.start - 3) : v.start]
            )
            return "inHg" if depth and (not_size or pulled) and v.value <= 30 and "by" not in around else "in"
        if word in {"degree", "fahrenheit", "celsius"} and self._angle(v):
            return None
        if word == "degree":
            return "degC" if self.r.system.name == "metric" else "degF"
        if word == "k":
            if first in DIFFERENCES:
                return "delta_degC"
            resist = first == "resistance" or any(
                p.kind in {"winding", "ground", "legs"} for p in self._pts(zone, "resistance")
            )
            last = previous or self.r.last(before=v.start, within=40)
            if (
                resist
                or (last is not None and last.reading.quantity == "resistance")
                or {"ohm", "ohms", "ohmed", "sensor", "thermistor", "probe"} & around
            ):
                return "ohm"
            if self.r.system.name == "metric" and (
                (last is not None and last.reading.quantity in DIFFERENCES)
                or not {"dollars", "btu", "btus"} & around
            ):
                return "delta_degC"
            comps = self._comps(zone)
            if comps and "resistance" in comps[0].component.measures:
                return "ohm"
            return None
        if word in {"mike", "micro"}:
            comps = self._comps(zone) or [
                c for c in [self.r.component_before(v.start, "capacitance", 40)] if c
            ]
            cap = (
                first == "capacitance"
                or (comps and "capacitor" in comps[0].name and mode != "vacuum")
                or {"cap", "capacitor"} & around
            )
            return (
                "uF"
                if cap and v.value < 300 and mode != "vacuum"
                else ("micron" if mode == "vacuum" or v.value >= 100 else "uF")
            )
        if word == "second" and v.numbers and v.numbers[0].form == "ordinal":
            return None
        return q.means[0][0] if q.means else None

    def _angle(self, v: Value) -> bool:
        """Tell whether degrees are those of an elbow, a blade or the weather, or an accuracy."""
        after = self.words[v.end] if v.end < self.last else "."
        if (
            self.words[v.end - 1] == "degree"
            and v.value != 1
            and after.isalpha()
            and after not in word_list("readings_angle_2")
        ):
            label = any(x.start == v.end for x in self.labels)
            return not label
        if after in word_list("readings_angle"):
            return True
        before = set(self.words[max(self.first, v.start - 4) : v.start])
        return "within" in before and bool(
            {"accurate", "accuracy", "good", "tolerance", "calibrated"}
            & set(self.words[max(self.first, v.start - 8) : v.start])
        )

    def _pounds(
        self,
        v: Value,
        first: str | None,
        labels: list[LabelAt],
        mode: str | None,
        around: set[str],
        previous: Taken | None,
    ) -> str:
        q = v.quantity
        assert q is not None
        if q.parts or q.word == "sterling":
            return "lb"
        front = self.words[max(self.first, v.start - 6) : v.start]
        if "pumped" in front and front[-1:] == ["to"]:
            return "psi"
        told = previous or self.r.last(before=v.start, within=12)
        if (
            told is not None
            and told.sentence == self.number
            and told.reading.quantity == "pressure"
            and told.reading.point in {"suction", "discharge"}
            and not word_list("readings_pounds") & set(front)
        ):
            return "psi"
        if (
            mode == "pressure_test"
            and v.value >= 50
            and not {"cylinder", "tank", "jug", "refrigerant"} & around
        ):
            return "psi"
        after = self.words[v.end : v.end + 3]
        if after[:2] in (["of", "nitrogen"], ["of", "pressure"], ["nitrogen"]) or after[:1] == ["nitrogen"]:
            return "psi"
        if after[:1] == ["of"] or first == "mass":
            mass = word_list("readings_pounds_2")
            if (first == "mass" or (after[:1] == ["of"] and after[1:2] != ["drop"])) and not (
                first == "pressure" and labels and labels[0].label.mode is None and not mass & around
            ):
                return "lb"
        moving = word_list("readings_pounds")
        if first == "pressure" and labels and labels[0].label.mode is None:
            return "psi"
        if moving & around:
            return "lb"
        if first == "pressure" or mode == "pressure_test":
            return "psi" if v.value >= 5 else "lb"
        if previous is not None and previous.reading.quantity == "pressure":
            return "psi"
        last = self.r.last(before=v.start, within=12)
        if last is not None and last.reading.quantity == "pressure" and v.value >= 20:
            return "psi"
        return "psi" if v.value >= 100 else "lb"

    def _is_vacuum(self, labels: list[LabelAt], mode: str | None, amount: float, unit: str) -> bool:
        if (
            labels
            and labels[0].label.default == "pressure"
            and labels[0].label.mode is None
            and unit == "mbar"
            and amount > 200
        ):
            return False
        return mode == "vacuum" or (amount < 100 if unit == "mbar" else amount < 5000)

    def _machine_time(self, v: Value, labels: list[LabelAt], mode: str | None) -> bool:
        """Tell whether a duration is one of the machine or of a test, and not working time."""
        named = [x for x in labels if x.label.default == "duration" or x.label.point == "hold"]
        if mode == "defrost" and {"took", "ran", "lasted", "in", "terminated"} & set(
            self.words[max(self.first, v.start - 4) : v.end + 3]
        ):
            return True
        near = self.words[max(self.first, v.start - 6) : min(self.last, v.end + 5)]
        if word_list("readings_machine_time") & set(near) and not named:
            return False
        if (
            {"sit", "cool"} & set(near)
            and {"cool", "down"} & set(near)
            and not any(x.label.mode for x in labels)
        ):
            return False
        if any(x.label.default == "duration" and not x.label.weak for x in labels):
            return True
        if named and not {"an", "hour"} >= set(self.words[v.start : v.end]):
            return True
        if False:
            return True
        later = self.words[v.end : v.end + 1] == ["later"]
        if (
            later or {"in", "within"} & set(self.words[max(self.first, v.start - 2) : v.start])
        ) and v.word in {"minute", "second"}:
            partner = {"temperature", "pressure", "vacuum"}
            same = [
                t
                for t in self.r.found.readings
                if t.sentence == self.number and t.reading.quantity in partner
            ]
            if same or any(self._kind(w) in partner for w in self.values):
                return True
        if v.state == "value" and mode in {"vacuum", "pressure_test"}:
            # A test time stands in a sentence with the test, or right after one.
            return self._test_near(v)
        return False

    def _test_near(self, v: Value) -> bool:
        for label in self.labels:
            if label.label.mode in {"vacuum", "pressure_test"} or label.label.point == "hold":
                return True
        for taken in reversed(self.r.found.readings):
            if self.number - taken.sentence > 1:
                break
            if taken.reading.quantity in {"vacuum"} or (
                taken.reading.quantity == "pressure" and taken.reading.point is None
            ):
                return True
        return any(
            w.word in {"micron", "psi", "bar", "millibar", "pascal"} for w in self.values if w is not v
        )

    def _percent(self, zone: _Zone) -> bool:
        near = set(self.words[zone.pre[0] : zone.post[1]])
        if {"glycol", "humidity", "brix", "propylene", "relative"} & near:
            return True
        return any("concentration" in c.component.measures for c in self._comps(zone))

    def _reference(self, v: Value, link: _Link, label: LabelAt | None) -> str | None:
        q = v.quantity
        if link.unit == "inHg":
            return "vacuum_depth"
        if label is not None and label.label.reference:
            return label.label.reference
        said = set(self.words[v.start : min(self.last, v.end + 2)])
        if q is not None and (q.word == "psia" or "absolute" in said or "bara" in said):
            return "absolute"
        return "gauge"

    def _wrong_kind(self, v: Value, link: _Link, labels: list[LabelAt], zone: _Zone) -> None:
        """Note a unit that does not go with the words beside it ("suction 22 volts")."""
        if link.label is not None or not labels:
            return
        nearest = labels[0]
        wanted = nearest.label.quantity or nearest.label.default
        if wanted is None or nearest.label.weak or nearest.label.mode:
            return
        gap = v.start - nearest.end
        comps = self._comps(zone)
        if "," in self.words[nearest.end : v.start] or (link.unit == "V" and wanted == "resistance"):
            return
        if nearest.label.point == "supply" and link.unit == "V":
            return
        if 0 <= gap <= 3 and not any(link.quantity in c.component.measures for c in comps):
            said = self.r.narration.heard(nearest.start, nearest.end)
            if not (
                wanted in {"temperature", "pressure"}
                and link.quantity in {"temperature", "pressure", "duration", "concentration"}
            ):
                link.reasons.append(f"the unit does not fit {said!r}")

    # .. a bare number

    def _bare(self, v: Value, group: list[Value], zone: _Zone, previous: Taken | None) -> _Link | None:
        costs = self._labels(zone, v)
        pair = self._over_pair(v, group)
        if pair is not None:
            return pair
        if self._air_side(v, costs):
            return None
        own = next((x for _, x in costs if 0 <= x.start - v.end <= 2), None) if v is group[-1] else None
        if previous is not None and v is not group[0] and not self._capacitor_marking(v):
            wanted = (own.label.quantity or own.label.default) if own is not None else None
            if wanted is None or (wanted == previous.reading.quantity and own is not None and own.label.weak):
                return self._like(v, previous)
            if wanted == previous.reading.quantity and (own is None or not own.label.point):
                return self._like(v, previous)
            if own is not None and own.label.weak and previous.reading.quantity in ELECTRICAL:
                return self._like(v, previous)  # "480, 480, 0 on the bottom"
            return self._assume(v, wanted, own)
        if self._which_one(v):
            return None
        if (
            last_here := self.r.last(before=v.start, within=8)
        ) is not None and self._parallel_place(v, last_here):
            return self._like(v, last_here)
        best: tuple[float, LabelAt] | None = None
        for cost, label in costs:
            if label.label.quantity or label.label.default:
                if label.label.default == "duration" and not self._time_size(v):
                    continue
                if cost <= self._limit(label, v):
                    best = (cost, label)
                    break
        component = self._bare_component(v, zone)
        point = self._bare_point(v, zone)
        last = self.r.last(before=v.start, within=60)
        if v.clock and (
            v.numbers[0].form == "clock" or self.words[v.start - 2 : v.start] in _CLOCKED
        ):
            timed = best is not None and best[1].label.default == "duration" and best[0] <= 3
            if not timed or self.words[v.start - 1] == "at":
                return None  # "in at four ten, out at four forty five", "at 12:50"
        if v.clock and (best is None or best[1].label.weak) and not self._test_goes_on(v):
            near_mode = (
                best is not None and best[1].label.mode in {"vacuum", "pressure_test"} and best[0] <= 9
            )
            if not near_mode:
                return None
        if self._dual_voltage(v):
            return self._assume(v, "voltage", None, "marking")
        if self._fed(v) and (best is None or best[1].label.weak or best[1].label.default != "pressure"):
            return self._assume(v, "voltage", None, "row")
        if self._at_temperature(v, last):
            link = self._assume(v, "temperature", None, "condition")
            if link is not None and not self._tested_at(v):
                link.reasons.append(
                    f"{self.r.narration.heard(v.start, v.end)!r} was said without its degrees"
                )
            return link
        if v.below or self._signed(v, best):
            cold = best[1] if best is not None and best[1].label.fits("temperature") else None
            link = self._assume(v, "temperature", cold, "label")
            before = self._tracked(v)
            if link is not None and cold is None and before is not None:
                link.carried = before
            return link
        if self._capacitor_marking(v):
            return self._assume(v, "capacitance", None, "marking")
        if (
            v.value in NOMINAL_VOLTS
            and v.value >= 100
            and self.words[v.start - 2 : v.start] in (["amps", "at"], ["watts", "at"], ["ohms", "at"])
        ):
            return self._assume(v, "voltage", None)
        if (
            last is not None
            and last.reading.quantity == "power"
            and self.words[last.end : v.start] in (["at"], ["on"])
        ):
            return self._assume(v, "voltage", None)
        weak = best is None or best[1].label.weak
        getting = {"getting", "gets"} & set(self.words[max(self.first, v.start - 3) : v.start])
        if getting and weak and _mains(v.value):
            return self._assume(v, "voltage", None)
        setting = self._setting(v) if best is None or best[1].label.weak else None
        if setting is not None:
            return self._assume(v, setting, None, "setting")
        circuit = next((x for x in self.values if x.start == v.end + 2 and x.word == "volt"), None)
        if (
            circuit is not None
            and self.words[v.end : v.end + 2] == ["on", "a"]
            and 0.7 <= v.value / circuit.value <= 1.4
        ):
            return self._assume(v, "voltage", None)  # "118 on a 115 volt circuit"
        plate = {"plate", "nameplate", "rated", "label", "tag"} & set(self.words[v.end : v.end + 4])
        if (
            best is None
            and self.words[v.start - 1 : v.start] in (["a"], ["an"])
            and point is None
            and not plate
        ):
            return None  # "the breaker is a 30"
        if (
            v.value == 0
            and {"meter", "checked", "tested", "power", "metered"}
            & set(self.words[max(self.first, v.start - 8) : v.start])
            and (best is None or best[1].label.weak)
        ):
            return self._assume(v, "voltage", None)
        if best is not None and v.numbers and v.numbers[0].form in {"two_digits", "short_decimal"}:
            # "I had six one on this box": the point is left out of amps, hardly ever of degrees
            same = (
                last is not None
                and last.sentence == self.number
                and last.reading.quantity in {"current", "resistance"}
            )
            if same and last is not None and best[1].label.default == "temperature":
                return self._like(v, last)
        if best is not None:
            quantity = best[1].label.quantity or best[1].label.default
            assert quantity is not None
            if (
                best[1].label.weak
                and quantity == "current"
                and v.value >= 20
                and {"down", "to"} & set(self.words[best[1].end : v.start])
            ):
                test = self._test_value(v, ["to"], last)
                if test is not None:
                    return test
            alike = last is not None and last.sentence == self.number and last.reading.quantity != quantity
            if best[1].label.weak and last is not None and alike and not best[1].label.mode:
                on = self._scaled(v, last)
                if last.reading.quantity in ELECTRICAL and self._very_alike(last.reading, on):
                    carried = self._carry(v, zone, last)
                    if carried is not None:
                        return carried
            if component is not None and best[1].label.weak and component[1] < best[0]:
                quantity = component[0]
                return self._assume(v, quantity, None)
            if point is not None and best[1].label.weak:
                return self._assume(v, point, None, "point")
            if best[1].label.weak and best[1].label.mode and not self._mode_value(v, best[1], quantity):
                return self._carry(v, zone, last)
            quantity = self._by_room(v, zone, best[1], quantity)
            if quantity == "concentration" and v.value > 100:
                return self._carry(v, zone, last)
            if self._is_name(v, best[1]):
                return None
            link = self._assume(v, quantity, best[1])
            if (
                link is not None
                and best[1].label.weak
                and not fits(link.quantity, link.point or best[1].label.point, link.amount, link.unit)
            ):
                return self._carry(v, zone, last) or link
            return link
        if point is not None:
            return self._assume(v, point, None, "point")
        if component is not None:
            return self._assume(v, self._parallel(v) or component[0], None)
        row = self._amps_at(v) or self._supply_list(v, group)
        if row is None and last is None and self._supply_compared(v):
            row = self._assume(v, "voltage", None, "row")
        return row or self._carry(v, zone, last)

    def _tracked(self, v: Value) -> Taken | None:
        """Return the temperature that is followed: the last one read at a place, no setting."""
        recent = [
            t
            for t in self.r.found.readings
            if t.reading.quantity == "temperature" and t.start < v.start and v.start - t.end <= 200
        ]
        read = [t for t in recent if t.reading.role == "measured" and t.reading.point]
        known = read or recent
        return known[-1] if known else None

    def _parallel_place(self, v: Value, last: Taken) -> bool:
        """Tell whether a place follows this value as one followed the last: "12 at the evap, 22 at the compressor"."""
        if last.sentence != self.number or last.reading.quantity in ELECTRICAL or not last.label_here:
            return False
        if self.words[last.end : last.end + 1] != ["at"] or self.words[v.end : v.end + 1] != ["at"]:
            return False
        return not any(last.end <= x.start and x.end <= v.start and not x.label.weak for x in self.labels)

    def _signed(self, v: Value, best: tuple[float, LabelAt] | None) -> bool:
        """Tell whether a sign makes a bare number a temperature: "left it at plus 8"."""
        if best is not None and not best[1].label.weak:
            return False
        plus = self.words[v.start - 1 : v.start] == ["plus"] or self.words[v.start] == "plus"
        at = v.start - (self.words[v.start] != "plus")
        joined = any(x.end == at for x in self.values)
        number = v.numbers[0] if v.numbers else None
        minus = number is not None and number.negative
        fits_ = self.r.system.fits_temperature(v.value)
        if minus and fits_ and best is None and v.value <= -3:
            return True
        return (
            fits_
            and ((plus and not joined) or minus)
            and self.r.last("temperature", before=v.start) is not None
        )

    def _at_temperature(self, v: Value, last: Taken | None) -> bool:
        """Tell whether "at 72" behind a test pressure or a sensor's ohms says how warm it was."""
        if last is None or last.sentence != self.number or self.words[v.start - 1 : v.start] != ["at"]:
            return False
        if v.start - last.end > 3 or not self.r.system.fits_temperature(v.value) or v.value < 0:
            return False
        reading = last.reading
        if reading.quantity == "resistance":
            return reading.component in {"temperature sensor", "sensor", None} and (reading.value or 0) >= 500
        tested = self.r.mode_at(v.start) == "pressure_test" and reading.quantity == "pressure"
        return tested and (reading.value or 0) > v.value and not self._kind(v)

    def _tested_at(self, v: Value) -> bool:
        """Tell whether the temperature of a test or of a sensor was said with its degrees shortly before."""
        before = self.r.last("temperature", before=v.start, within=400)
        near = (
            before is not None
            and before.reading.value is not None
            and abs(before.reading.value - v.value) <= 25
        )
        return near or self.r.last("resistance", before=v.start, within=4) is not None

    def _parallel(self, v: Value) -> str | None:
        """Return the quantity whose unit comes with a later one of the row: "first is 24, third 23.8 ohms"."""
        for w in self.values:
            if w.start <= v.start or w.state != "value":
                continue
            if w.quantity is None:
                continue
            kind = self._kind(w)
            alike = v.value > 0 and 0.5 <= w.value / v.value <= 2
            return kind if kind in ELECTRICAL and alike else None
        return None

    def _supply_compared(self, v: Value) -> bool:
        """Tell whether a bare number is a supply set against its rating: "rated 460, I'm reading 408"."""
        if not v.bare or v.value < 95 or not _mains(v.value):
            return False
        near = set(self.words[max(self.first, v.start - 5) : v.start])
        if not near & (
            word_list("readings_reads_other") | {"rated", "plate", "nameplate", "i'm", "have", "i've", "says"}
        ):
            return False
        return any(
            w is not v
            and w.bare
            and _mains(w.value)
            and 0.8 <= v.value / w.value <= 1.25
            and {v.value, w.value} & NOMINAL_VOLTS
            for w in self.values
        )

    def _fed(self, v: Value) -> bool:
        """Tell whether a number of the size of a supply is said to go to something: "120 to it", "24 at the coil"."""
        after = self.words[v.end : v.end + 3]
        if not _mains(v.value) or not v.value.is_integer():
            return False
        if after[:2] in (["to", "it"], ["going", "to"], ["across", "it"], ["across", "them"]):
            return True
        if after[:2] not in (["to", "the"], ["at", "the"], ["across", "the"], ["on", "the"], ["at", "its"]):
            return False
        place = next((c for c in self.components if c.start in {v.end + 2, v.end + 3}), None)
        return place is not None and v.value >= 95 and "voltage" in place.component.measures

    def _which_one(self, v: Value) -> bool:
        """Tell whether a small number says on which of several it was: "pulled amps on three, ...", "9 amps on two"."""
        number = v.numbers[0] if v.numbers else None
        if (
            number is None
            or number.places
            or number.negative
            or not 1 <= v.value <= 8
            or number.form != "plain"
        ):
            return False
        if self.words[v.start - 1 : v.start] not in (["on"], ["number"], ["from"]):
            return False
        after = self.words[v.end] if v.end < len(self.words) else "."
        electric = any(
            (x.label.quantity or x.label.default) in {"current", "voltage", "resistance"}
            for x in self.labels
            if x.end <= v.start and v.start - x.end <= 4
        ) or any(self._kind(x) in ELECTRICAL and 0 <= v.start - x.end <= 2 for x in self.values)
        return electric and (after in {",", ".", "and", ";", "?"} or after.isalpha())

    def _amps_at(self, v: Value) -> _Link | None:
        """Take up what was announced with its voltage: "defrost amps at 208: 14.2, 14.1, 14.3"."""
        last = self.r.last(before=v.start, within=3)
        if last is None or last.sentence != self.number or last.reading.quantity != "voltage":
            return None
        led = self.words[last.start - 2 : last.start]
        said = {"amps": "current", "ohms": "resistance", "watts": "power", "current": "current"}
        if led[1:] != ["at"] or led[0] not in said:
            return None
        return self._assume(v, said[led[0]], None)

    def _supply_list(self, v: Value, group: list[Value]) -> _Link | None:
        """Take a row of numbers of the size of a supply as volts: "I get 208, 211 and 209"."""
        row = [x for x in group if x.bare and x.value >= 95 and _mains(x.value) and not x.clock]
        if len(row) < 2 or len(row) != len(group):
            return None
        return self._assume(v, "voltage", None, "row")

    def _is_name(self, v: Value, label: LabelAt) -> bool:
        """Tell whether a number names one of several places: "case 12 air was minus 19"."""
        if label.end != v.start or self.words[label.end - 1] not in {"case", "room", "island", "cellar"}:
            return False
        number = v.numbers[0] if v.numbers else None
        if number is None or number.places or not 1 <= v.value <= 40:
            return False
        nxt = v.end
        if self.words[nxt : nxt + 1] in ([","], [":"]) and label.start - self.first <= 1:
            # "Case 22, ice cream, discharge air minus 21": another place is named for the values to come
            return any(x.start > nxt and x.label.fits("temperature") and not x.label.weak for x in self.labels)
        return any(x.start == nxt for x in self.labels) or self.words[nxt : nxt + 1] in (
            ["is"],
            ["was"],
            ["had"],
            ["'s"],
        )

    def _over_pair(self, v: Value, group: list[Value]) -> _Link | None:
        """Read "118 over 350" as suction over head."""
        for a, b in pairwise(group):
            if v not in (a, b) or self.words[a.end : b.start] != ["over"] or not (a.bare and b.bare):
                continue
            if not 1.3 * a.value < b.value or a.value < 2 or self._capacitor_marking(a):
                continue
            link = self._assume(v, "pressure", None, "over")
            if link is not None:
                link.point = "suction" if v is a else "discharge"
            return link
        return None

    def _air_side(self, v: Value, costs: list[tuple[float, LabelAt]]) -> bool:
        """Tell whether a bare pressure is one of air ("filter drop 0.21"), without its unit."""
        if not costs or (costs[0][1].label.quantity or costs[0][1].label.default) != "pressure":
            return False
        named = costs[0][1]
        if named.label.point == "static" and -5 < v.value < 5 and self.r.system.name == "us":
            return True
        return bool(
            {"static", "airflow", "cfm", "duct", "filter"} & set(self.words[self.first : self.last])
        ) and (costs[0][1].label.reference == "differential")

    def _dual_voltage(self, v: Value) -> bool:
        """Tell whether a bare number is half of a dual rating, "208-230"."""
        for a, b in pairwise(self.values):
            joined = self.words[a.end : b.start] in (["-"], ["/"], ["slash"], ["dash"])
            if v in (a, b) and joined and a.bare and b.bare and {a.value, b.value} <= NOMINAL_VOLTS:
                return a.value >= 100
        return False

    def _by_room(self, v: Value, zone: _Zone, label: LabelAt, quantity: str) -> str:
        """Tell the two things that one label can be: "supply 398" is volts, "supply 55" a temperature."""
        if quantity == "temperature" and label.label.point == "supply":
            electric = any(
                "voltage" in c.component.measures
                and {"at", "to", "of"} & set(self.words[label.end : c.start])
                for c in self._comps(zone)
            )
            if v.value >= 180 or (electric and v.value >= 90):
                return "voltage"
        if quantity == "temperature" and "pressure" in label.label.only:
            unit = self.r.system.unit_of("temperature", self.r.found, v)
            if not fits("temperature", label.label.point, v.value, unit):
                return "pressure"
        if quantity == "pressure" and label.label.point == "liquid" and "temperature" in label.label.only:
            head = self.r.last_head()
            if head is not None and v.value > 1.3 * head:
                return "temperature"  # liquid stands at no higher pressure than the head
        if quantity == "pressure" and "temperature" in label.label.only:
            # "Discharge temperature 71, suction 11" goes on with temperatures.
            last = self.r.last(before=v.start, within=14)
            along = last is not None and last.reading.quantity == "temperature" and last.label is not None
            if last is not None and along and last.reading.point in {"discharge", "suction", "liquid"}:
                near = last.sentence == self.number or last.reading.point == label.label.point
                if (
                    near
                    and not last.said_unit
                    and last.label is not None
                    and "temp" in last.reading.heard.lower()
                ):
                    return "temperature"
        if (
            quantity == "voltage"
            and label.label.weak
            and "voltage" in label.label.only
            and len(label.label.only) == 1
            and not _mains(v.value)
            and v.value != 0
        ):
            last = self.r.last(before=v.start, within=20)
            if last is not None and last.reading.quantity == "temperature":
                return (
                    "temperature_difference" if self.words[v.end : v.end + 1] == ["across"] else "temperature"
                )
        if quantity == "voltage" and label.label.weak and v.value < 80:
            last = self.r.last(before=v.start, within=40)
            if last is not None and last.reading.quantity in {"current", "resistance"}:
                return last.reading.quantity
        return quantity

    def _setting(self, v: Value) -> str | None:
        """Return what a control is set to or acts at: "closes at thirty", "overload set at 3.8"."""
        before = self.words[max(self.first, v.start - 8) : v.start]
        if before[-2:] in (["on", "at"], ["off", "at"], ["in", "at"], ["out", "at"]):
            before = [*before, "set", "at"]
        acts = word_list("readings_setting_2")
        if not acts & set(before) or not word_list("readings_setting") & set(before[-2:]):
            return None
        ahead = next((c for c in self.components if c.start >= v.end and c.component.sets), None)
        if ahead is not None and {"in", "out"} & set(before[-2:]) and ahead.start - v.end <= 10:
            return ahead.component.sets
        for c in reversed(self.r.components):
            if c.start >= v.start:
                continue
            if v.start - c.end > 45:
                return None
            if c.component.sets:
                quantity = c.component.sets
                if quantity == "temperature" and not self.r.system.fits_temperature(v.value):
                    return None
                return quantity
        return None

    def _control(self, v: Value, quantity: str) -> str | None:
        """Return the control that acts at a value said with its unit: "it opened at 1.6 bar"."""
        before = self.words[max(self.first, v.start - 5) : v.start]
        if not word_list("readings_control") & set(before):
            return None
        for c in reversed(self.r.components):
            if c.start < v.start and c.component.sets == quantity and v.start - c.end <= 60:
                return c.name
        return None

    def _capacitor_marking(self, v: Value) -> bool:
        """Tell whether a bare number is the marking or the reading of the capacitor under talk."""
        c = next((c for c in reversed(self.r.components) if c.start < v.start), None)
        group = self._group_of(v)
        if (
            c is not None
            and "capacitor" in c.name
            and v.start - c.end <= 8
            and any(w.word == "volt" and w.value in {330, 370, 440} for w in group)
        ):
            return True
        if c is None or "capacitor" not in c.name or v.start - c.end > 24 or not 0.5 <= v.value <= 1500:
            return False
        case = next((x for x in self.values if x.start >= v.end and x.quantity is not None), None)
        if (
            case is not None
            and case.word == "volt"
            and case.value in {250, 330, 370, 440, 450}
            and case.start - v.end <= 5
            and v.value <= 120
            and "." not in self.words[v.end : case.start]
        ):
            return True  # "45 5 440 volt"
        newer = self.r.last(before=v.start)
        if "/" in self.words[v.start]:
            return True
        before = self.words[v.start - 1] if v.start else ""
        after = self.words[v.end] if v.end < len(self.words) else "."
        article = before in {"a", "an", "dual"} and after in word_list("readings_capacitor_marking_2")
        pair = (
            before in {"over", "plus", "/", "slash"}
            and newer is not None
            and newer.reading.quantity == "capacitance"
        )
        first = after in {"over", "plus", "slash"} and v.value >= 10
        on_a = (
            self.words[v.end : v.end + 2] in (["on", "a"], ["on", "an"], ["out", "of"])
            and v.start - c.end <= 8
        )
        if article or pair or first or on_a:
            return True
        if newer is not None and newer.start > c.start and newer.reading.quantity != "capacitance":
            return False
        return (
            before in word_list("readings_capacitor_marking")
            and (newer is None or newer.start < c.start or newer.reading.quantity == "capacitance")
            and not any(c.end <= x.start < v.start and not x.label.weak for x in self.r.labels)
        )

    def _time_size(self, v: Value) -> bool:
        """Tell whether a bare number beside "freeze" or "harvest" can be its time."""
        number = v.numbers[0] if v.numbers else None
        if number is not None and number.form == "pair" and number.value % 100 < 60:
            return True
        return 0 < v.value <= 90

    def _limit(self, label: LabelAt, v: Value) -> float:
        """Return how far a label may stand from a bare number."""
        if label.start >= v.end:
            return 7.5 if label.label.weak else 5.0
        return 9.0 if label.label.weak else 14.0

    def _bare_component(self, v: Value, zone: _Zone) -> tuple[str, float] | None:
        """Return the quantity that a component beside a bare number implies, with its cost."""
        for c in self._comps(zone):
            if c.component.bare is None:
                continue
            if c.start >= v.end:
                gap = c.start - v.end
                if gap > 3 or self.words[v.end] not in PREPOSITIONS:
                    continue
            else:
                between = self.words[c.end + self._place_words(c.end, v.start) : v.start]
                if c.which is not None and between[:1] and between[0][:1].isdigit():
                    between = between[1:]
                gap = len(between)
                if gap > 8 or WORK & set(between):
                    continue
                if not all(w in COPULAS or w in FILLERS or w in _LINKING for w in between):
                    continue
                if {"on", "off", "back"} & set(between) and {"came", "come", "kicked", "cycled", "cut"} & set(
                    between
                ):
                    if not self.r.system.fits_temperature(v.value):
                        continue
                    return "temperature", float(gap)
            newest = self.r.last(before=v.start)
            if (
                newest is not None
                and newest.reading.point == "herm"
                and self.number - newest.sentence <= 1
                and newest.reading.quantity == "capacitance"
                and gap <= 2
                and c.name.endswith("fan motor")
            ):
                return "capacitance", float(gap)
            if (
                c.name in {"receptacle", "panel", "breaker", "disconnect switch", "power cord"}
                and 0 < v.value < 90
            ):
                continue
            quantity = self._by_size(c.component.bare, v, c.name)
            return (quantity, float(gap)) if quantity else None
        return None

    def _by_size(self, quantity: str, v: Value, name: str) -> str | None:
        """Tell a mains voltage from amps by its size; a count of a few is neither."""
        number = v.numbers[0] if v.numbers else None
        if quantity == "voltage" and v.value != 0 and not _mains(v.value):
            return quantity if name in {"battery", "alternator"} and 8 <= v.value <= 60 else None
        if quantity == "current":
            if 100 <= v.value <= 600 and number is not None and number.places == 0:
                return "voltage"
            if number is not None and number.places == 0 and number.form in {"plain"} and v.value > 60:
                return None
            return "current"
        return quantity

    def _bare_point(self, v: Value, zone: _Zone) -> str | None:
        """Return the quantity that an electrical point beside a bare number implies."""
        candidates = [
            p
            for p in self.points
            if zone.post[0] <= p.start and p.end <= zone.post[1] and p.start - v.end <= 3
        ]
        candidates += [p for p in reversed(self.points) if zone.pre[0] <= p.start and p.end <= zone.pre[1]]
        for p in candidates:
            gap = self.words[p.end : v.start] if p.end <= v.start else self.words[v.end : p.start]
            if len(gap) > 8 or WORK & set(gap):
                continue
            if p.kind == "ground" and p.name.startswith("L") and v.value >= 100:
                return self._electric_talk(v, "voltage")
            if p.kind == "winding" and _mains(v.value) and v.value >= 95 and self._live(v):
                return "voltage"
            if p.kind == "winding" or p.kind == "ground":
                return "resistance"
            if p.kind == "legs":
                return self._between_legs(v, p)
            if p.name in {"run", "start"} and p.kind == "point" and "winding" in self.words[p.start : p.end]:
                return "resistance"
            if p.kind == "leg":
                return self._electric_talk(v, "current")
            if p.only == frozenset({"voltage"}):
                if (
                    p.name == "line"
                    and v.value < 90
                    and not {"side", "volts", "voltage"} & set(self.words[p.start : v.start])
                ):
                    return None
                return "voltage" if v.value <= 620 else None
            if p.only == frozenset({"capacitance"}):
                return "capacitance"
            if p.name in {"primary", "secondary"} and v.value <= 600:
                return "voltage"
            if p.name in {"primary", "secondary", "coil"}:
                if p.name != "coil" or self._live(v):
                    return self._electric_talk(v, "voltage")
                if any("voltage" in c.component.measures for c in self._comps(zone)) and _mains(v.value):
                    return "voltage"
                return None
        return None

    def _live(self, v: Value) -> bool:
        near = set(self.words[max(self.first, v.start - 8) : v.start])
        return bool({"getting", "gets", "volts", "voltage", "ohms", "ohm", "across"} & near)

    def _between_legs(self, v: Value, point: PointAt) -> str:
        """Tell volts from ohms between two legs or terminals; amps are of one leg, never of two."""
        if v.value >= 90 and _mains(v.value):
            last = self.r.last("resistance", before=v.start, within=14)
            return "resistance" if last is not None and last.unlike_mains() else "voltage"
        chosen = self._electric_talk(v, "voltage")
        if chosen != "current":
            row = self.r.last(before=v.start, within=14)
            if chosen == "voltage" and 0 < v.value < 18 and (row is None or row.reading.quantity != chosen):
                return "resistance"
            return chosen
        row = self.r.last("voltage", before=v.start, within=14)
        if row is not None and row.reading.point and row.reading.point.startswith("L"):
            return "voltage"
        return "resistance" if 0 < v.value < 90 else "voltage"

    def _electric_talk(self, v: Value, default: str) -> str:
        last = self.r.last(before=v.start, within=40)
        mode = self.r.mode_at(v.start)
        if mode == "winding" and v.value < 100 and (last is None or self.r.mode_start(v.start) >= last.end):
            return "resistance"
        recent = [t for t in self.r.found.readings[-3:] if t.sentence >= self.number - 1]
        chosen = last.reading.quantity if last is not None else None
        fitting = chosen in {"voltage", "current"} or (chosen == "resistance" and v.value < 200)
        if last is not None and chosen is not None and fitting and recent:
            supply = last.reading.value is not None and last.reading.value > 90 and not last.reading.derived
            return "current" if chosen == "voltage" and v.value < 60 and supply else chosen
        if mode == "winding" and v.value < 100:
            return "resistance"
        if default == "current" and v.value >= 100:
            return "voltage"
        return default

    def _mode_value(self, v: Value, label: LabelAt, quantity: str) -> bool:
        """Tell whether a bare number after "vacuum", "nitrogen" or "recovered" is a value of that test."""
        gap = self.words[label.end : v.start] if label.end <= v.start else []
        if label.start >= v.end:
            return False
        if quantity == "vacuum":
            return v.value >= 20 and not ({"for"} & set(gap[-2:]))
        if quantity == "pressure":
            if label.label.mode == "recovery":
                return bool({"to", "down", "at"} & set(gap)) and v.value <= 30
            return v.value >= 10 and bool(set(gap[-3:]) & word_list("readings_mode_value") or not gap)
        return True

    def _test_goes_on(self, v: Value) -> bool:
        """Tell whether a number like a clock time is the test value said before ("started at one fifty")."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"}:
            return False
        last = self.r.last("vacuum" if mode == "vacuum" else "pressure", before=v.start, within=60)
        if last is None:
            return False
        value = last.reading.value
        return (
            last.reading.quantity in {"pressure", "vacuum"}
            and value is not None
            and (0.5 if mode == "pressure_test" else 0.1) * value <= v.value <= 2 * value
        )

    def _assume(self, v: Value, quantity: str, label: LabelAt | None, how: str = "") -> _Link | None:
        """Give a bare number the unit that the measured thing has in this visit."""
        unit = self.r.system.unit_of(quantity, self.r.found, v)
        amount = v.value
        link = _Link(
            quantity, unit, amount, label.label if label else None, label, unit_said=False, explicit=True
        )
        if label is not None and label.label.reference:
            link.reference = label.label.reference
        if quantity == "pressure" and link.reference is None:
            link.reference = "gauge"
        if label is not None and quantity == "resistance" and self._insulation(label):
            link.amount = tidy(v.value * 1e6)
            link.reasons.append("megohms were not said; an insulation tester reads in them")
        link.how = how or (
            "weak label" if label is not None and label.label.weak else "label" if label else "component"
        )
        if quantity == "duration" and not self._clock_duration(v, link):
            return None
        return link

    def _insulation(self, label: LabelAt) -> bool:
        said = self.words[label.start : label.end]
        return any(w.startswith(("meg", "insulation")) for w in said)

    def _clock_duration(self, v: Value, link: _Link) -> bool:
        """Read "two forty" as minutes and seconds of a freeze or a harvest."""
        number = v.numbers[0] if v.numbers else None
        last = self.r.last("duration", before=v.start, within=40)
        if number is not None and number.form == "pair" and number.value % 100 < 60:
            minutes, seconds = divmod(number.value, 100)
            link.amount, link.unit = tidy(minutes + seconds / 60), "min"
            if last is None:
                link.reasons.append(f"{number.value:g} can be minutes and seconds or a plain number")
            return True
        if last is not None and last.reading.unit in {"s", "min"}:
            link.unit = last.reading.unit
            return True
        return False

    def _like(self, v: Value, previous: Taken) -> _Link | None:
        """Go on with a list: same quantity, unit and label as the value before."""
        if v.clock and previous.reading.quantity not in {"pressure", "vacuum", "voltage"}:
            return None
        reading = previous.reading
        link = _Link(
            reading.quantity, reading.unit, v.value, previous.label, None, unit_said=False, explicit=True
        )
        link.how = "list"
        link.reasons += [r for r in reading.review if LOOSE in r]
        link.amount = self._scaled(v, previous)
        link.reference = reading.reference
        link.carried = previous
        if reading.quantity == "duration" or reading.quantity == "mass":
            return None
        return link

    def _scaled(self, v: Value, last: Taken) -> float:
        """Give a carried number the said unit of the one before: "4.7 kilohms, now 4.2"."""
        q = last.value.quantity
        if q is None or last.value.state != "value":
            return v.value
        factor = next((f for u, f in q.means if u == last.reading.unit), 1.0)
        said = last.value.value
        if factor == 1.0 or said <= 0 or not 0.03 <= v.value / said <= 30:
            return v.value
        return tidy(v.value * factor)

    def _alike_said(self, last: Taken, v: Value) -> bool:
        """Tell whether a number is of the size of what it continues, both as said."""
        return self._alike(last.reading, self._scaled(v, last))

    def _carry(self, v: Value, zone: _Zone, last: Taken | None) -> _Link | None:
        """Take a bare number as another value of what was measured just before."""
        before = [w for w in self.words[zone.pre[0] : v.start] if w not in FILLERS]
        if v.clock and not self._test_goes_on(v):
            return None
        if last is not None and self._taken_back(last.end, v.start):
            test = None
        else:
            test = self._test_value(v, before, last)
        if test is not None:
            return test
        hour = (
            v.numbers and v.numbers[0].value.is_integer() and 1 <= v.value <= 12 and not v.numbers[0].negative
        )
        if before[-1:] == ["at"] and hour and (last is None or last.sentence != self.number):
            return None  # "pulled a vacuum at ten"
        if v.value == 0 and before[-2:] == ["down", "to"] and self.r.mode_at(v.start) == "recovery":
            return self._assume(v, "pressure", None, "test")
        last = self._continued(v, last)
        if last is None:
            return None
        if (
            v.value == 0
            and last.reading.quantity in ELECTRICAL
            and not word_list("readings_carry") & set(before)
        ):
            cold = self.r.last("temperature", before=v.start, within=120)
            if cold is not None:
                last = cold
        reading = last.reading
        distance = self.number - last.sentence
        if not self._says_value(v, before, distance):
            return None
        if reading.quantity == "concentration" and v.value > 100:
            return None
        link = _Link(
            reading.quantity, reading.unit, v.value, last.label, None, unit_said=False, explicit=False
        )
        link.how = "carry" if distance else "carry0"
        link.amount = self._scaled(v, last)
        link.reference = reading.reference
        link.carried = last
        return link

    def _test_value(self, v: Value, before: list[str], last: Taken | None) -> _Link | None:
        """Take a bare number as the next value of the vacuum or the pressure test under way."""
        mode = self.r.mode_at(v.start)
        if mode not in {"vacuum", "pressure_test"} or v.value <= 0:
            return None
        quantity = "vacuum" if mode == "vacuum" else "pressure"
        counted = before[-1:] and before[-1] in {
            "first",
            "second",
            "third",
            "fourth",
            "finally",
            "try",
            "pull",
        }
        raised = before[-1:] == ["to"] and {"took", "brought"} & set(before[-4:])
        if not (counted or raised or self._says_value(v, before, 0 if not before else 1)):
            return None
        nearest = next(
            (
                t
                for t in reversed(self.r.found.readings)
                if t.start < v.start and t.reading.quantity != "duration"
            ),
            None,
        )
        earlier = self.r.last(quantity, before=v.start, within=90)
        level = earlier.reading.value if earlier is not None else None
        same = level is not None and level > 0 and 0.9 <= v.value / level <= 1.1
        other = (
            nearest is not None and nearest.sentence == self.number and nearest.reading.quantity != quantity
        )
        if other and not same:
            return None
        if earlier is not None and earlier.reading.value:
            ratio = v.value / earlier.reading.value
            if not (0.02 <= ratio <= 60 if quantity == "vacuum" else 0.3 <= ratio <= 3):
                return None
            link = _Link(
                quantity, earlier.reading.unit, v.value, earlier.label, None, unit_said=False, how="test"
            )
            link.reference = earlier.reading.reference
            return link
        if (
            last is not None
            and last.sentence == self.number
            and last.reading.quantity not in {"duration", "pressure", "vacuum"}
        ):
            return None
        if self.r.system.name == "us" and v.value >= 20:
            return self._assume(v, quantity, None)
        return None

    def _continued(self, v: Value, last: Taken | None) -> Taken | None:
        """Return the reading that a bare number continues: the last one that it is like in kind and size."""
        checked = 0
        for taken in reversed(self.r.found.readings):
            if taken.start >= v.start or taken.how == "condition":
                continue
            if self.number - taken.sentence > 6 or v.start - taken.end > 160 or checked > 25:
                return None
            checked += 1
            reading = taken.reading
            back = taken is last and not taken.movement and self._taken_back(taken.end, v.start)
            if back and fits(reading.quantity, None, self._scaled(v, taken), reading.unit):
                return taken
            if (
                (
                    reading.quantity == "duration"
                    and taken is last
                    and taken.sentence == self.number
                    and reading.value
                )
                and word_list("readings_limit_words") & set(self.words[taken.end : v.start])
                and 0.1 <= v.value / reading.value <= 10
            ):
                return taken
            if reading.quantity in {"duration", "mass", "length", "flow", "vacuum"} or taken.movement:
                continue
            before = self.words[v.start - 1] if v.start else ""
            if reading.derived and not (
                {"should", "was", "supposed", "want", "now", "then"} & set(self.words[taken.end : v.start])
                and taken is last
            ):
                continue
            if reading.quantity in {"resistance", "voltage"} and before in {"below", "under", "above"}:
                continue
            if reading.quantity == "resistance" and before in {"at", "to", "on", "for", "over", "set"}:
                continue
            near = taken is last or (self.number - taken.sentence <= 2 and v.start - taken.end <= 70)
            scaled = self._scaled(v, taken)
            if near and self._alike(reading, scaled) and (taken is last or self._very_alike(reading, scaled)):
                return taken
            if self._very_alike(reading, v.value) and reading.quantity in {"voltage", "speed"}:
                return taken
        return None

    def _taken_back(self, start: int, end: int) -> bool:
        """Tell whether a correction cue stands between two values."""
        return any(start <= c.start and c.end <= end for c in find_correction_cues(self.r.narration))

    def _very_alike(self, reading: Reading, value: float) -> bool:
        before = reading.value
        return (
            bool(before)
            and before is not None
            and (
                0.5 <= value / before <= 2 if reading.quantity == "pressure" else 0.7 <= value / before <= 1.4
            )
            and fits(reading.quantity, reading.point, value, reading.unit)
        )

    def _says_value(self, v: Value, before: list[str], distance: int) -> bool:
        """Tell whether the words in front of a bare number present a value ("now it's", "came up to")."""
        cut = max((i for i, w in enumerate(before) if w in {",", ";", "it", "she", "now"}), default=-1)
        if WORK & set(before[cut + 1 :]):
            return False
        number = v.numbers[0] if v.numbers else None
        if any(
            zone_start <= c.start and c.end <= v.start and v.start - c.end <= 7
            for c in find_correction_cues(self.r.narration)
            for zone_start in (v.start - 12,)
        ):
            return True
        before = self._without_names(v, before)
        if not before:
            return distance <= 1 or (number is not None and number.places > 0)
        if (
            number is not None
            and number.places
            and number.form in {"decimal", "short_decimal"}
            and len(before) <= 6
        ):
            return True
        after = self.words[v.end] if v.end < len(self.words) else "."
        if before[-1] in {"in", "out"} and distance == 0:
            return True
        if after in word_list("readings_says_value_2") and before[-1] in {"with", ",", "and", "to", "from"}:
            return True
        window = before[-6:]
        last = before[-1]
        presenting = word_list("readings_says_value")
        shown = {"is", "was", "'s", "be", "reads", "now"} & set(window)
        near = distance == 0 and len(before) <= 6
        return last in presenting or bool(shown and (near or last in COPULAS | {"the", "a", "that"}))

    def _without_names(self, v: Value, before: list[str]) -> list[str]:
        """Leave out component names and their numbers: "fan three | thirteen sixty" presents a value."""
        names: list[str] = []
        named = len(before) >= 2 and before[-2] in word_list("readings_numbered") and before[-1].isalnum()
        if named and (before[-1].isdigit() or before[-1] in {"one", "two", "three", "four", "five", "six"}):
            return before[:-2]
        for c in self.components:
            gap = set(self.words[c.end : v.start])
            if (
                c.end <= v.start
                and v.start - c.end <= 2
                and not gap & {"is", "was", "'s", "at", "are", "reads"}
            ):
                names += self.words[c.start : v.start]
        if not names:
            return before
        kept = before[: len(before) - len(names)] if before[-len(names) :] == names else before
        while kept and kept[-1] in {",", "the", "and", "other"}:
            kept = kept[:-1]
        return kept

    def _alike(self, reading: Reading, value: float) -> bool:
        """Tell whether a carried value is of the size of what it continues."""
        quantity = reading.quantity
        if not fits(quantity, reading.point, value, reading.unit):
            return False
        before = reading.value
        if before is None:
            return quantity in ELECTRICAL
        if quantity == "temperature":
            return True
        if quantity == "voltage":
            return value == 0 or before == 0 or 0.4 <= value / before <= 2.5 if before >= 0 else True
        if quantity in {"current", "capacitance"}:
            return before == 0 or value == 0 or 0.1 <= value / before <= 10
        if quantity == "resistance":
            return before == 0 or value == 0 or 0.05 <= value / before <= 20
        if quantity == "pressure":
            return before <= 0 or value <= 0 or 0.3 <= value / before <= 3.4
        return True

    # -- where

    def _place(self, v: Value, group: list[Value], zone: _Zone, link: _Link, previous: Taken | None) -> None:
        quantity = link.quantity
        if link.label is not None:
            link.point = link.label.point
            link.component = link.label.component
            link.derived = link.derived or link.label.derived
            link.rated = link.label.rated
            if quantity in DIFFERENCES and not link.label.derived:
                link.point = None
        if link.carried is not None and link.label is not None and link.carried.reading.point:
            link.point = link.carried.reading.point
        if quantity == "pressure" and link.point in {"saturated condensing", "saturated suction"}:
            link.point = "discharge" if link.point == "saturated condensing" else "suction"
        # A second label may add the point to a strong one without: "temp ... at the suction line".
        if link.point is None and quantity in {"pressure", "temperature"}:
            for cost, label in self._labels(zone, v):
                if (
                    label.label.point
                    and label.label.fits(quantity)
                    and cost <= 14
                    and label.label.point != "hold"
                ):
                    link.point = label.label.point
                    break
        points = self._pts(zone, quantity)
        if points:
            self._point(v, link, points)
        comps = self._comps(zone)
        fitting = [c for c in comps if quantity in c.component.measures and not self._switched(c)]
        wound = link.label is not None and link.label.mode == "winding" and link.label.quantity is None
        if wound and fitting and fitting[0].name in {"overload", "contactor", "relay", "start relay"}:
            fitting = []
        if fitting:
            self._take_component(link, fitting, v)
        elif link.how == "list" and link.carried is not None:
            link.component = link.carried.reading.component
        elif link.component is None:
            self._context_component(v, zone, link)
        if link.component is None and quantity in {"temperature", "pressure"} and link.point is None:
            control = self._control(v, quantity)
            if control is not None:
                link.component = control
        if (
            quantity == "temperature_difference"
            and link.component is None
            and self.words[v.end : v.end + 2] == ["across", "it"]
        ):
            c = self.r.component_before(v.start, "temperature", 40)
            link.component = c.name if c is not None else None
        if link.carried is not None:
            side = self.words[v.start - 1 : v.start] + self.words[v.end : v.end + 1]
            for inner, outer in (
                ("water in", "water out"),
                ("ambient", "condenser air out"),
                ("return", "supply"),
            ):
                if link.carried.reading.point in {inner, outer}:
                    link.point = inner if "in" in side else outer if "out" in side else link.point
        if link.carried is not None:
            if link.component is None:
                link.component = link.carried.reading.component
            if link.point is None and not points:
                link.point = self._carried_point(link)
            if link.which is None and link.component == link.carried.reading.component:
                link.which = link.carried.reading.which
        elif previous is not None and previous.reading.quantity == quantity and v is not group[0]:
            link.component = link.component or previous.reading.component
            link.point = link.point or previous.reading.point
            link.label = link.label or previous.label
            link.derived = link.derived or previous.reading.derived
        elif quantity == "voltage" and points and not link.derived:
            last = self.r.last("voltage", before=v.start)
            if last is not None and last.sentence == self.number and last.reading.derived:
                link.derived = True
        elif not link.explicit and not fitting and not points:
            self._elliptic(v, zone, link)
            self._same_spot(link)
        if v.state == "open" and v.ground:
            self._ground(v, zone, link)
            if (
                link.component in {"overload", "start relay", "relay", "contactor", "transformer"}
                and not fitting
            ):
                link.component = self._motor(v)

    def _switched(self, c: ComponentAt) -> bool:
        """Tell whether a switch was only said to be on or off, or is no thing to measure on."""
        if c.name == "wiring":
            return True
        after = self.words[c.end : c.end + 3]
        return c.name in SWITCHGEAR and bool({"off", "on"} & set(after)) and after[:1] != ["on"]

    def _carried_point(self, link: _Link) -> str | None:
        point = link.carried.reading.point if link.carried else None
        if point is not None and link.carried is not None and point[:1] in {"L"} and point[1:2].isdigit():
            return None
        if point in {"line", "load", "common-run", "common-start", "run-start"}:
            return None
        return point

    def _same_spot(self, link: _Link) -> None:
        """Take over the place of a temperature for the pressure behind it ("liquid 61 degrees, 198 psi")."""
        last = self.r.last()
        if last is None or last.sentence != self.number or link.point is not None:
            return
        pair = {last.reading.quantity, link.quantity} == {"temperature", "pressure"}
        if pair and last.reading.point in {"suction", "discharge", "liquid"}:
            link.point = last.reading.point

    def _elliptic(self, v: Value, zone: _Zone, link: _Link) -> None:
        """Carry the place over to a value with its unit but nothing else ("it came down to 36 degrees")."""
        last = self.r.last(before=v.start)
        if last is None or last.reading.quantity != link.quantity or self.number - last.sentence > 1:
            return
        if link.quantity not in {"temperature", "pressure", "superheat", "subcooling"}:
            return
        between = set(self.words[max(zone.pre[0], last.end) : v.start])
        pronoun = word_list("readings_elliptic")
        if self.number == last.sentence or pronoun & between:
            link.point = link.point or last.reading.point
            link.component = link.component or last.reading.component

    def _point(self, v: Value, link: _Link, points: list[PointAt]) -> None:
        chosen = points[0]
        if v.state == "open" and v.ground:
            return
        if link.quantity in {"voltage", "current", "resistance", "capacitance", "power"}:
            if chosen.name == "line-load":
                link.derived = link.quantity == "voltage"
            named = [p for p in points if p.kind != "point"]
            sides = [p for p in points if p.kind == "point"]
            if named and sides and sides[0].name in {"line", "load"}:
                chosen = named[0]
            many = len(self._group_of(v)) > 1 and chosen.kind in {"legs", "leg"} and chosen.start >= v.end
            if not many or v is self._group_of(v)[-1]:
                link.point = chosen.name
                link.which = chosen.which
            if chosen.name == "coil":
                link.point = "coil"

    def _group_of(self, v: Value) -> list[Value]:
        return next((g for g in self.groups if any(x is v for x in g)), [v])

    def _take_component(self, link: _Link, comps: list[ComponentAt], v: Value) -> None:
        chosen = comps[0]
        post = [c for c in comps if c.start >= v.end]
        pre = [c for c in comps if c.end <= v.start]
        if post and pre and self.words[post[0].start - 1 : post[0].start] == ["of"]:
            chosen = pre[0]
        # "across that thing", "the compressor on the rack": the nearest wins.
        if (
            link.quantity in {"temperature", "pressure"}
            and link.point
            and chosen.component.name in {"suction line", "liquid line", "discharge line"}
        ):
            return
        if link.quantity in {"superheat", "subcooling", "temperature_difference"}:
            return
        if link.quantity in {"temperature", "pressure"}:
            link.component = link.component or self._cold_component(link, chosen)
            link.which = link.which or chosen.which
            return
        link.component = chosen.name
        link.which = link.which or chosen.which

    def _cold_component(self, link: _Link, chosen: ComponentAt) -> str | None:
        """Return the component of a temperature or a pressure; a place on the circuit needs none."""
        if chosen.name in {"suction line", "liquid line", "discharge line"} and link.point:
            return None
        if link.point in word_list("readings_cold_component_2"):
            keep = word_list("readings_cold_component")
            return chosen.name if chosen.name in keep else None
        return chosen.name

    def _context_component(self, v: Value, zone: _Zone, link: _Link) -> None:
        quantity = link.quantity
        if quantity not in ELECTRICAL:
            return
        if quantity == "voltage" and self._supply_talk(zone) and not self._pts(zone, quantity):
            return
        if link.point in {"line", "load", "line-load"}:
            link.component = self._switchgear(v)
            return
        if quantity == "resistance" and link.point and ("-" in link.point and link.point[0] in "crsL"):
            link.component = self._motor(v)
            return
        if link.point in {"primary", "secondary"}:
            link.component = "transformer"
            return
        if quantity == "resistance" and v.ground:
            last = self.r.last("resistance", before=v.start, within=60)
            if last is not None and last.reading.component and self.number - last.sentence <= 1:
                link.component = last.reading.component
                return
        wound = link.label is not None and link.label.mode == "winding" and link.label.quantity is None
        if quantity == "resistance" and (wound or link.amount >= 100_000):
            named = any(c.name in {"compressor", "motor"} for c in self.r.components)
            link.component = self._motor(v, "compressor" if named else None)
            return
        numbered = self._numbered(zone, v)
        if numbered is not None and quantity in numbered.component.measures:
            link.component, link.which = numbered.name, link.which or numbered.which
            return
        c = self.r.component_before(v.start, quantity)
        strong = link.label_at is not None and link.label_at.label.quantity == "voltage" and not link.derived
        if quantity == "voltage" and strong and c is not None and c.start < self.first:
            return  # "Voltage 483, 480, 485" is the supply, whatever was talked about before
        if c is None:
            if quantity == "capacitance":
                link.component = "run capacitor"
            return
        if quantity == "current" and c.name in SWITCHGEAR:
            return
        link.component = c.name
        link.which = link.which or c.which

    def _numbered(self, zone: _Zone, v: Value) -> ComponentAt | None:
        """Return the component that only its number tells: "amps on 4 were 18.2" after "compressor 4"."""
        for i in range(max(zone.pre[0], v.start - 6), v.start - 1):
            if self.words[i] not in {"on", "number"}:
                continue
            said = _SMALL.get(self.words[i + 1], self.words[i + 1])
            for c in reversed(self.r.components):
                if c.start < v.start and c.which == said and v.start - c.end <= 150:
                    return c
        return None

    def _supply_talk(self, zone: _Zone) -> bool:
        near = set(self.words[zone.pre[0] : zone.post[1]])
        return bool({"incoming", "supply", "mains", "service"} & near)

    def _switchgear(self, v: Value) -> str | None:
        for c in reversed(self.r.components):
            if c.start < v.start and c.name in SWITCHGEAR and "voltage" in c.component.measures:
                return c.name
        return None

    def _motor(self, v: Value, default: str | None = "compressor") -> str | None:
        """Return the motor whose windings are under test: the last one named, a compressor before a fan."""
        near: ComponentAt | None = None
        for c in reversed(self.r.components):
            if c.start >= v.start or c.name not in MOTORS:
                continue
            if c.name == "compressor" and v.start - c.end < 90:
                return c.name
            if near is None and v.start - c.end < 30:
                near = c
        return near.name if near is not None else default

    def _ground(self, v: Value, zone: _Zone, link: _Link) -> None:
        """Settle on which points "nothing to ground" was said."""
        named = [
            p
            for p in self.points
            if p.kind == "ground"
            and zone.pre[0] <= p.start < zone.post[1]
            and p.start - v.end < 4
            and v.start - p.end < 4
        ]
        inside = [p for p in self.points if p.kind == "ground" and p.start < v.end and v.start < p.end]
        if inside or named:
            link.point = (inside or named)[0].name
            return
        link.point = "ground"

    # -- the reading

    def _reading(self, v: Value, link: _Link) -> Reading | None:
        narration = self.r.narration
        number = v.numbers[0] if v.numbers else None
        amount: float | None = tidy(link.amount)
        reasons = list(dict.fromkeys([*v.reasons, *link.reasons]))
        candidates = [c.model_copy() for c in v.candidates]
        if v.state == "open":
            amount = None
        else:
            amount = self._settle(v, link, cast(float, amount), reasons, candidates)
            why = reason(link.quantity, link.point, amount, link.unit)
            if why is not None:
                reasons.append(why)
        relation = relation_of(narration, v.start, v.end) if v.state == "value" else "="
        if link.how == "over":
            relation = "="
        if v.range == "low":
            relation = ">="
        elif v.range == "high":
            relation = "<="
        start = v.start
        confidence = 1.0 if not reasons else 0.5
        probability = narration.probability(v.start, v.end)
        if probability is not None:
            confidence = min(confidence, probability)
        del number
        return Reading(
            quantity=cast(record.Quantity, link.quantity),
            value=amount,
            unit=cast(record.Unit, link.unit),
            ucum=UCUM.get(link.unit),
            reference=cast(
                "record.Reference | None", link.reference if link.quantity == "pressure" else None
            ),
            unit_assumed=not link.unit_said and v.state == "value",
            derived=link.derived,
            relation=cast(record.Relation, relation),
            state="open" if v.state == "open" else "value",
            component=link.component,
            point=link.point,
            which=link.which,
            at=narration.at(start, v.end),
            heard=narration.heard(self._heard_from(v, link), v.end),
            confidence=confidence,
            review=reasons,
            candidates=candidates,
        )

    def _heard_from(self, v: Value, link: _Link) -> int:
        """Return where the words of a reading begin: at its label when that stands close in front."""
        if link.label_at is not None and link.label_at.end <= v.start and v.start - link.label_at.start <= 8:
            gap = self.words[link.label_at.end : v.start]
            if "," not in gap and not any(
                w.end <= v.start and w.start >= link.label_at.end for w in self.values if w is not v
            ):
                return link.label_at.start
        return v.start

    def _settle(
        self, v: Value, link: _Link, amount: float, reasons: list[str], candidates: list[Candidate]
    ) -> float:
        """Choose between the readings of an ambiguous number form by what is possible here."""
        number = v.numbers[0] if v.numbers else None
        if number is None or not number.alternatives or len(v.numbers) > 1:
            return amount
        factor = amount / v.value if v.value else 1.0
        known = self._near_value(link)
        for other in number.alternatives:
            if len(other.values) != 1:
                # two numbers said one after the other: only when one number is not possible
                if not fits(link.quantity, link.point, amount, link.unit) or (
                    number.written and number.form == "short_decimal"
                ):
                    reasons.append(other.why)
                if number.written or reasons:
                    heard = self.r.narration.heard(v.start, v.end)
                    candidates += [
                        Candidate(value=tidy(x * factor), unit=link.unit, heard=heard, why=other.why)
                        for x in other.values
                    ]
                continue
            value = tidy(other.values[0] * factor)
            first, second = (
                fits(link.quantity, link.point, amount, link.unit),
                fits(link.quantity, link.point, value, link.unit),
            )
            if number.form == "two_digits":
                whole = link.quantity in word_list("readings_settle")
                if whole and link.quantity not in {"mass"}:
                    amount, value = value, amount
                near = (
                    known is not None
                    and known > 0
                    and (0.4 <= amount / known <= 2.5)
                    and not (0.4 <= value / known <= 2.5)
                )
                if near:
                    continue
                if other.why not in reasons:
                    reasons.append(other.why)
                candidates.append(
                    Candidate(
                        value=value,
                        unit=link.unit,
                        heard=self.r.narration.heard(v.start, v.end),
                        why=other.why,
                    )
                )
                continue
            if second and not first:
                amount, value = value, amount
            reasons.append(other.why) if other.why not in reasons else None
            candidates.append(
                Candidate(
                    value=value, unit=link.unit, heard=self.r.narration.heard(v.start, v.end), why=other.why
                )
            )
        return amount

    def _near_value(self, link: _Link) -> float | None:
        """Return the last value of the same thing, to tell 6.8 from 68."""
        for taken in reversed(self.r.found.readings):
            if (
                taken.reading.quantity == link.quantity
                and taken.reading.component == link.component
                and taken.reading.value
            ):
                return taken.reading.value
        return None

    def _on_all_three(self, v: Value) -> bool:
        after = " ".join(self.words[v.end : min(self.last, v.end + 6)])
        cut = after.split(" , ")[0].split(" and ")[0]
        return any(
            p in cut
            for p in (
                "on all three",
                "all three legs",
                "all three phases",
                "each leg",
                "each phase",
                "all the way round",
                "all the way around",
                "across all three",
                "on every leg",
                "on all 3",
                "per phase",
                "per leg",
            )
        )

    def _both(self, v: Value) -> list[PointAt]:
        """Return the points that one value was said of: "C to S and C to R both open", "line and load 240"."""
        group = self._group_of(v)
        stop = max((x.end for x in self.values if x.end <= group[0].start), default=self.first)
        pre = [p for p in self.points if stop <= p.start and p.end <= v.start and p.kind != "leg"]
        if len(pre) < 2 or len(group) > 1 or v.start - pre[-1].end > 4:
            return []
        row = [pre[-1]]
        for p in reversed(pre[:-1]):
            gap = set(self.words[p.end : row[0].start])
            if (
                not gap <= {"and", ",", "the", "side", "also", "plus", "&"}
                or not gap
                or p.kind != row[0].kind
            ):
                break
            row.insert(0, p)
        joined = {"and", "&", "plus"} & set(self.words[row[0].end : row[-1].start])
        if len(row) < 2 or not (
            joined or {"both", "all", "each"} & set(self.words[row[0].start - 2 : v.start])
        ):
            return []
        return row if len({p.name for p in row}) == len(row) else []

    def _spread(self, taken: Taken) -> list[Taken]:
        """Make one reading for each point of "nothing to ground on all three"."""
        both = [p for p in self._both(taken.value) if taken.reading.quantity in p.only]
        if both:
            return [
                replace(
                    taken,
                    reading=taken.reading.model_copy(deep=True, update={"point": p.name}),
                    place_said=True,
                )
                for p in both
            ]
        points = taken.value.points
        if not points and taken.value.state == "value" and self._on_all_three(taken.value):
            points = _ALL.get(taken.reading.quantity, ())
            if taken.reading.quantity == "resistance" and (taken.reading.value or 0) >= 100_000:
                points = ("common-ground", "run-ground", "start-ground")
            if points and not taken.reading.point:
                copies = [taken.reading.model_copy(deep=True, update={"point": p}) for p in points]
                return [
                    Taken(
                        c,
                        taken.value,
                        taken.start,
                        taken.end,
                        taken.sentence,
                        taken.label,
                        taken.said_unit,
                        True,
                        True,
                        taken.how,
                        taken.label_here,
                    )
                    for c in copies
                ]
            return [taken]
        if not points:
            return [taken]
        reading = taken.reading
        motor = reading.component in MOTORS or reading.component is None
        recent = [
            t.reading.point
            for t in self.r.found.readings[-8:]
            if t.reading.quantity == "resistance" and t.reading.point
        ]
        legs = [p for p in recent if p.startswith("L")]
        if not motor:
            points = ("ground", "ground", "ground")
        elif legs and len(legs) >= 2 and "common-run" not in recent:
            points = ("L1-ground", "L2-ground", "L3-ground")
        if reading.component is None:
            reading.component = self._motor(taken.value)
        out = []
        for point in points:
            copy = reading.model_copy(deep=True, update={"point": point})
            out.append(
                Taken(
                    copy, taken.value, taken.start, taken.end, taken.sentence, taken.label, True, True, True
                )
            )
        return out

    # -- the role

    def _role(self, taken: Taken, roles: Roles, index: int) -> None:
        role, cue = roles.of(index, taken.reading.quantity)
        reading = taken.reading
        v = taken.value
        if (
            taken.label_here
            and taken.label is not None
            and taken.label.rated
            and role in {"measured", "rated", "target"}
        ) and (
            cue is None
            or role != "measured"
            or cue.end <= v.start - 12
            or not {"i", "saw", "pulled", "measured", "hit", "drawing", "pulling"}
            & set(self.words[max(self.first, v.start - 4) : v.start])
        ):
            role = "rated"
        pulled = {"pulling", "drawing", "pulled", "saw", "hit"} & set(
            self.words[max(self.first, v.start - 4) : v.start]
        )
        if (
            role == "rated"
            and cue is not None
            and cue.where == "after"
            and reading.quantity == "current"
            and pulled
        ):
            role = "measured"  # "pulling 135 on LRA"
        if role == "measured" and taken.how in {"carry0", "list", "carry"}:
            before = self.r.last(taken.reading.quantity, before=v.start)
            carried_over = self.words[before.end if before is not None else v.start : v.start]
            if (
                before is not None
                and before.sentence == self.number
                and before.reading.role == "target"
                and cue is None
            ):
                role = "earlier" if {"was", "from"} & set(carried_over) else role
        if role == "measured" and self._is_rating(v, taken):
            role = "rated"
        if role == "measured" and self._negated(v):
            role = "target"
        if (
            reading.quantity == "frequency"
            and reading.value in {50.0, 60.0}
            and role == "measured"
            and not taken.label_here
            and not word_list("readings_role_3") & set(self.words[max(self.first, v.start - 5) : v.start])
        ):
            role = "rated"
        control = components().get(reading.component or "")
        if (
            role == "measured"
            and taken.how == "component"
            and control is not None
            and control.sets == reading.quantity
        ):
            near = any(c.name == reading.component and 0 <= v.start - c.end <= 4 for c in self.components)
            ends = [c.end for c in self.components if c.name == reading.component and c.end <= v.start]
            said = set(self.words[max([self.first, v.start - 3, *ends[-1:]]) : v.start])
            if near and not word_list("readings_role_2") & said:
                role = "target"
        if (
            role == "measured"
            and taken.how == "setting"
            and not word_list("readings_role") & set(self.words[max(self.first, v.start - 6) : v.start])
        ):
            role = "target"
        if role == "rated":
            self._rated_part(taken)
        reading.role = cast(record.Role, role)
        if reading.quantity == "mass" and role not in {"rated", "target", "expected", "earlier"}:
            taken.movement = not self._scale(v)

    def _rated_part(self, taken: Taken) -> None:
        """Give a rating to the part whose name stands with it: "24 volt transformer"."""
        v = taken.value
        reading = taken.reading
        if reading.quantity not in ELECTRICAL:
            return
        behind = next((c for c in self.components if v.end <= c.start <= v.end + 2), None)
        between = self.words[v.end : behind.start] if behind is not None else []
        if behind is not None and v.quantity is not None and not {",", "and", "."} & set(between):
            reading.component, reading.which = behind.name, behind.which
            return
        stop = max((x.end for x in self.values if x.end <= v.start), default=self.first)
        front = [c for c in self.components if stop <= c.start and c.end <= v.start]
        if front and reading.quantity not in front[-1].component.measures:
            return
        if front and not {",", ";"} & set(self.words[front[-1].end : v.start]):
            reading.component, reading.which = front[-1].name, front[-1].which

    def _scale(self, v: Value) -> bool:
        near = set(self.words[max(self.first, v.start - 5) : v.start])
        weighed = word_list("readings_scale") & near
        return bool(weighed) and not {"by", "charged", "put"} & near

    def _negated(self, v: Value) -> bool:
        before = self.words[max(self.first, v.start - 3) : v.start]
        return (
            before[-1:] == ["no"]
            and v.quantity is not None
            and self.words[v.start - 2 : v.start - 1] != [","]
        )

    def _is_rating(self, v: Value, taken: Taken) -> bool:
        """Tell whether a value only describes a part or a machine: "a 24-volt coil", "on a 45"."""
        reading = taken.reading
        before = self.words[v.start - 1] if v.start > self.first else ""
        nxt = self.words[v.end] if v.end < self.last else "."
        unit = v.quantity
        if reading.quantity == "voltage" and unit is None and self._dual_voltage(v):
            return True
        phase = "phase" in self.words[max(self.first, v.start - 2) : v.start]
        if reading.quantity == "voltage" and phase and v.value in NOMINAL_VOLTS and v.value >= 200:
            return True  # "three phase, 208"
        if unit is not None and reading.quantity in {"voltage", "current", "capacitance", "power"}:
            noun = any(
                c.start == v.end
                or (
                    c.start == v.end + 1
                    and self.words[v.end] in {"rated", "run", "dual", "dc", "ac", "new", "replacement"}
                )
                for c in self.components
            )
            machine = any(x.start == v.end and x.label.point == "box" for x in self.labels)
            if (noun or machine or nxt in _RATED_NOUNS) and not self._plural(v):
                return True
            if (
                before in {"a", "an", "the", "new", "another"}
                and not self._plural(v)
                and nxt not in word_list("readings_is_rating_3")
                and (
                    noun
                    or nxt in _RATED_NOUNS
                    or nxt in {"universal", "replacement", "one", "unit", "rated", "type"}
                )
            ):
                return True
        if v.marking or (reading.quantity == "capacitance" and self._reads_other(v)):
            return True
        if (
            reading.quantity == "capacitance"
            and unit is None
            and (
                before in word_list("readings_is_rating_2")
                or "/" in self.words[v.start]
                or any(
                    w.word == "volt" and w.value in {250, 330, 370, 440, 450} and 0 <= w.start - v.end <= 8
                    for w in self.values
                )
                or (v.range is not None and self._range_then_reads(v))
                or nxt in {"over", "plus", "slash"}
                or (v.range == "high" and self.words[v.start - 3 : v.start - 2] in (["a"], ["an"]))
            )
        ):
            return True
        if (
            reading.quantity == "voltage"
            and v.value in NOMINAL_VOLTS
            and nxt in {"is", "reads", "was", "measures", "'s"}
            and any(x.start == v.end + 1 for x in self.values)
        ):
            return True  # "the controller's 24 volts is 25.1"
        if reading.quantity == "resistance" and nxt in {"resistor", "resistors"}:
            return True
        if (
            reading.quantity == "voltage"
            and v.value >= 100
            and {"megged", "megger", "meggered", "megging"}
            & set(self.words[max(self.first, v.start - 5) : v.start])
        ):
            return True
        if (
            unit is not None
            and reading.quantity in {"voltage", "current", "power"}
            and self._singular(v)
            and (before in {"a", "an"} or not self._measured_talk(v))
        ):
            return True
        if reading.quantity == "power" and not word_list("readings_is_rating") & set(
            self.words[max(self.first, v.start - 6) : v.start]
        ):
            return True
        if (
            unit is not None
            and reading.quantity in {"voltage", "current", "capacitance", "speed", "frequency"}
            and self._part_talk(v)
        ):
            return True
        if reading.quantity == "capacitance" and unit is not None and before in {"a", "an", "new", "another"}:
            return True
        if (
            reading.quantity == "voltage"
            and unit is None
            and before in {"at", "on"}
            and self.words[v.start - 2 : v.start - 1] in (["watt"], ["watts"])
        ):
            return True
        if (
            reading.quantity == "voltage"
            and unit is None
            and self.words[v.start - 2 : v.start] in (["amps", "at"], ["ohms", "at"])
        ):
            return True
        return before == "of" and unit is None and reading.quantity == "current"

    def _reads_other(self, v: Value) -> bool:
        """Tell whether a marking is compared with what was measured: "40 rated, reads 39.2", "a 5 testing 2.1"."""
        nxt = next((x for x in self.values if x.start >= v.end), None)
        if nxt is None or nxt.start - v.end > 6 or (nxt.quantity is not None and nxt.word != "microfarad"):
            return False
        gap = self.words[v.end : nxt.start]
        between = any(v.end <= s and e <= nxt.start for s, e in self.items if (s, e) not in self.reads)
        return bool(word_list("readings_reads_other") & set(gap)) and not between and "." not in gap

    def _range_then_reads(self, v: Value) -> bool:
        """Tell whether "88 to 108 reads 94" gives the marking first."""
        group = self._group_of(v)
        end = group[-1].end
        return bool(
            {"reads", "read", "measured", "reading", "tested", "got"} & set(self.words[end : end + 3])
        )

    def _singular(self, v: Value) -> bool:
        """Tell whether the unit was said in the singular after more than one: "a 440 volt cap", "30 amp"."""
        if self.words[v.end - 1] == "volt" and v.value not in NOMINAL_VOLTS:
            return False
        return (
            self.words[v.end - 1] in {"volt", "amp", "watt", "microfarad"}
            and v.value > 1
            and self.words[v.end : v.end + 1] not in (["drop"], ["draw"], ["difference"])
        )

    def _measured_talk(self, v: Value) -> bool:
        before = set(self.words[max(self.first, v.start - 4) : v.start])
        return bool(word_list("readings_measured_talk") & before)

    def _part_talk(self, v: Value) -> bool:
        """Tell whether a value stands in the description of a new part: "new motor, 1075 rpm, 2.8 amps"."""
        start = max(self.first, v.start - 24)
        words = self.words[start : v.start]
        described = word_list("readings_part_talk_3") & set(words + self.words[v.end : v.end + 6])
        new = word_list("readings_part_talk_2") & set(words)
        gap = words[-1:] in ([","], ["at"], ["a"], ["and"])
        return bool(described and new and gap) and not word_list("readings_part_talk") & set(words)

    def _plural(self, v: Value) -> bool:
        return self.words[v.end - 1].endswith("s") and self.words[v.end - 1] not in {"hz"}


_LINKING = word_list("readings_linking")
_RATED_NOUNS = word_list("readings_rated_nouns")


_CLOCKED = tuple(
    [word, "at"] for word in ("in", "out", "on", "off", "arrived", "left", "started", "finished", "here", "there", "done")
)
"""What stands before a time of day, whatever test goes on meanwhile."""
_SMALL = {"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8"}
LOOSE = "was not said beside it"
"""The reason that a correction takes away: a repair is a value of what it repairs."""
_PLAIN = word_list("readings_plain")
_ALL = {
    "voltage": ("L1-L2", "L2-L3", "L1-L3"),
    "current": ("L1", "L2", "L3"),
    "resistance": ("L1-L2", "L2-L3", "L1-L3"),
}
"""The points of a value that was said of all three phases at once."""


def _mains(value: float) -> bool:
    """Tell whether a bare number is near a control or mains voltage."""
    return 18 <= value <= 30 or 95 <= value <= 135 or 180 <= value <= 260 or 370 <= value <= 500


def find_readings(narration: Narration) -> Found:
    """Return the readings of a narration, before corrections."""
    return _Reader(narration).run()


__all__ = ["Found", "Taken", "components", "find_readings"]
