"""What a bare number is a value of by what was said before it, not beside it.

A sentence that only announces ("Compressor amps."), the leads that were taken off, the battery under talk,
the row that the numbers of several things make. A link of the chain of classes that read one sentence;
`readings.py` holds its end and its order. All common practice.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt
from dictate.mentions.quantities import FILLERS
from dictate.mentions.temperatures.unsaid import Temperatures
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, SMALL, Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset({",", ":", ";", "."})
_ANNOUNCED = ("current", "resistance", "voltage")


class SaidBefore(Temperatures):
    """What a bare number is a value of by what was said before it."""

    def _by_said_before(self, v: Value, group: list[Value]) -> Link | None:
        if v.clock or v.marking:
            return None
        return (
            self._counted_row(v)
            or self._of_battery(v)
            or self._flow_pipe(v)
            or self._detector(v)
            or self._stays(v)
            or self._pump_sides(v)
            or self._announced(v, group)
            or self._row_as_before(v, group)
        )

    def _lead(self, v: Value) -> list[str]:
        """Return the words of the sentence before a value, less fillers, commas and the counted "one is"."""
        words = self.words[self.first : v.start]
        return [w for w in words if w not in FILLERS and w not in _STOPS]

    def _announced(self, v: Value, group: list[Value]) -> Link | None:
        """Read a row that opens its sentence: "Heaters, ohms. One is 172", "Leads off. 1.4, 1.4, 1.4"."""
        if v is not group[0] or self.number == 0 or v.range or v.change:
            return None
        if not set(self._lead(v)) <= word_list("said_before_leads"):
            return None
        begin, end = self.r.narration.sentences[self.number - 1]
        if end - begin > 16 or any(t.sentence >= self.number - 1 for t in self.r.found.readings[-3:]):
            return None
        front = set(self.words[begin:end])
        kinds = [k for k in _ANNOUNCED if front & word_list(f"said_before_{k}")]
        comps = self.r.components[self.r.span("components", begin, end)]
        if not kinds and 0 < v.value < 100 and self._leads_off(front) and len(group) >= 2:
            kinds = ["resistance"]
        alone = v.start == self.first and self.words[v.end : v.end + 1] in (["."], [","], ["on"], ["and"])
        wound = [c for c in comps if "resistance" in c.component.measures]
        if not kinds and alone and wound and 0 < v.value < 3000 and self._leads_off(front):
            kinds = ["resistance"]
        if not kinds and len(group) == 3 and front & {"legs", "phases"} and self._row_alike(group):
            kinds = ["voltage" if v.value >= 180 else "current"]
        if len(kinds) != 1:
            return None
        kind = kinds[0]
        if kind == "voltage" and v.value > 700:
            return None
        able = [c for c in comps if kind in c.component.measures]
        return self._said_of(v, kind, able[-1] if able else None)

    def _said_of(self, v: Value, kind: str, component: ComponentAt | None) -> Link | None:
        link = self._assume(v, kind, None, "list")
        if link is not None and component is not None:
            link.component, link.which = component.name, component.which
        return link

    def _leads_off(self, front: set[str]) -> bool:
        return bool(
            front & word_list("said_before_wires")
            and front & word_list("said_before_off")
            and not front & {"gauges", "hoses"}
        )

    def _row_alike(self, group: list[Value]) -> bool:
        values = [x.value for x in group]
        return min(values) > 0 and max(values) <= 1.15 * min(values) and all(x.bare for x in group)

    def _row_as_before(self, v: Value, group: list[Value]) -> Link | None:
        """Read three numbers that are a whole sentence as legs, where another motor had such amps."""
        if v is not group[0] or len(group) != 3 or not self._row_alike(group) or self._lead(v):
            return None
        if any(w not in _STOPS for w in self.words[group[-1].end : self.last]):
            return None
        legs = [
            t
            for t in self.r.found.readings
            if t.reading.quantity == "current" and t.reading.point in {"L1", "L2", "L3"} and t.reading.value
        ]
        if len(legs) < 3 or not all(0.8 <= v.value / (t.reading.value or 1) <= 1.25 for t in legs[-3:]):
            return None
        link = self._like(v, legs[-1])
        if link is not None:
            link.label = None
            link.component = legs[-1].reading.component
        return link

    def _counted_row(self, v: Value) -> Link | None:
        """Read "one is one seventy two, | two one seventy four": what counts the next of a row off."""
        at = v.start - 1
        while at > self.first and self.words[at] in COPULAS | FILLERS:
            at -= 1
        word = self.words[at] if at >= self.first else ""
        if word not in SMALL and word not in SMALL.values():
            return None
        if at == self.first or self.words[at - 1] not in {",", "and", ";"}:
            return None
        last = self.r.last(before=v.start, within=8)
        if last is None or last.sentence != self.number or last.reading.quantity not in _ANNOUNCED:
            return None
        if any(last.end <= x.start and x.end <= v.start and not x.label.weak for x in self.labels):
            return None
        counted = set(SMALL) | set(SMALL.values())
        earlier = self.words[max(self.first, last.start - 3) : last.start]
        if not counted & set(earlier) or not self._alike_said(last, v):
            return None
        return self._like(v, last)

    def _of_battery(self, v: Value) -> Link | None:
        """Read "battery with the motor off was twelve six", "running it goes to fourteen one" as volts."""
        below = word_list("said_before_bounds") & set(self.words[max(self.first, v.start - 2) : v.start])
        if v.range or below or not (8 <= v.value <= 15.5 or 22 <= v.value <= 30):
            return None
        last = self.r.last(before=v.start, within=16)
        near = [c for c in self.components if c.end <= v.start and v.start - c.end <= 12]
        named = next((c for c in reversed(near) if c.name == "battery"), None)
        if named is not None:
            after = set(self.words[named.end : v.start])
            other = [c for c in near if c.start > named.start and c.component.bare not in {None, "voltage"}]
            idle = word_list("said_before_idle") & after
            if (other and not idle) or after & word_list("said_before_current"):
                return None
            if any(named.end <= x.start and x.end <= v.start for x in self.labels):
                return None
            return self._battery_link(self._said_of(v, "voltage", named))
        if last is None or last.reading.component != "battery" or last.reading.quantity != "voltage":
            return None
        if not self._battery_goes_on(v, last):
            return None
        return self._battery_link(self._like(v, last))

    def _battery_link(self, link: Link | None) -> Link | None:
        if link is not None:
            link.component, link.how = "battery", "battery"
        return link

    def _battery_goes_on(self, v: Value, last: Taken) -> bool:
        between = set(self.words[last.end : v.start])
        if any(last.end <= x.start and x.end <= v.start for x in self.labels):
            return False
        if not 0.7 <= v.value / (last.reading.value or 1) <= 1.4:
            return False
        return bool(between & word_list("said_before_charging"))

    def _detector(self, v: Value) -> Link | None:
        """Read "with the detector first, zero" as what the leak detector showed."""
        front = self.words[max(self.first, v.start - 7) : v.start]
        if v.value != 0 or not word_list("said_before_detectors") & set(front):
            return None
        if any(x.end <= v.start and v.start - x.end <= 3 and not x.label.weak for x in self.labels):
            return None
        after = self.words[v.end : v.end + 1]
        if after and after[0] not in word_list("said_before_behind"):
            return None
        return Link("concentration", "ppm", 0.0, None, None, unit_said=False, explicit=True, how="row")

    def _stays(self, v: Value) -> Link | None:
        """Read "it's stuck at sixty-four", "they've been sitting at fifty" as how warm the box is."""
        front = self.words[max(self.first, v.start - 2) : v.start]
        if len(front) < 2 or front[1] not in {"at", "on"} or front[0] not in word_list("said_before_stays"):
            return None
        if v.value > (35 if self._metric() else 90) or not self.r.system.fits_temperature(v.value):
            return None
        if self.r.mode_at(v.start) is not None and self.r.mode_at(v.start) not in {"run", "defrost"}:
            return None
        led = self.words[self.first : v.start]
        if any(x.end <= v.start and not x.label.fits("temperature") for x in self.labels):
            return None
        who = [w for w in led if w in word_list("said_before_box")]
        if not who or any(c.end <= v.start and v.start - c.end <= 4 for c in self.components):
            return None
        last = self.r.last(before=v.start, within=20)
        if last is not None and last.reading.quantity not in {"temperature", "duration", "mass"}:
            return None
        return self._assume(v, "temperature", None, "row")

    def _flow_pipe(self, v: Value) -> Link | None:
        """Read "flow thirty-two, return twenty-seven" of a heating circuit as its warm pipe, no litres."""
        at = v.start - 1
        while at > self.first and self.words[at] in COPULAS | {"is", "at", "'s", "pipe", "water", "now"}:
            at -= 1
        if self.words[at : at + 1] != ["flow"] or not self.r.system.fits_temperature(v.value):
            return None
        around = self.words[max(self.first, at - 10) : min(self.last, v.end + 9)]
        if "return" not in around or set(around) & word_list("said_before_flows"):
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "supply"
        return link

    def _pump_sides(self, v: Value) -> Link | None:
        """Read "twenty-six pounds in, fifty-one out, twenty-five across it" as pressures of a pump."""
        last = self.r.last(before=v.start, within=9)
        if last is None or last.reading.quantity != "pressure" or last.sentence != self.number:
            return None
        after, said = self.words[v.end : v.end + 1], self.words[last.end : last.end + 1]
        if {*after, *said} == {"in", "out"} and len(after) == len(said) == 1:
            return self._like(v, last)
        pair = [t for t in self.r.found.readings[-2:] if t.reading.quantity == "pressure"]
        if after != ["across"] or len(pair) != 2:
            return None
        if abs(abs((pair[0].reading.value or 0) - (pair[1].reading.value or 0)) - v.value) > 1.01:
            return None
        link = self._like(v, last)
        if link is not None:
            link.reference, link.derived, link.label = "differential", True, None
        return link


__all__ = ["SaidBefore"]
