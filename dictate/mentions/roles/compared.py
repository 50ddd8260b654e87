"""Bare numbers that are compared with a value: what it should be, or what a plate says.

"Fourteen gallons a minute, spec is sixteen", "9.4 amps, should be 7", "freeze took nineteen minutes, ought
to be done in about 14": such a number has the quantity and the unit of the value that it is compared with,
since a speaker who leaves the unit out compares like with like.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from bisect import bisect_left

from dictate.mentions.labels import LabelAt
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.cues import Cue, cue_starts, find_cues
from dictate.mentions.said_before import SaidBefore
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, Link, Taken
from dictate.mentions.word_lists import word_list

_ROLES = frozenset({"target", "rated", "expected"})
_SET = _ROLES | {"earlier"}
_REACH = 16  # words from a value to what it is compared with
_RATIO = {"flow": 4.0, "duration": 5.0, "mass": 4.0, "length": 5.0, "speed": 3.0, "power": 4.0, "vacuum": 8.0}


class Compared(SaidBefore):
    """Bare numbers that a cue of a role sets against a value with a unit."""

    def _compared(self, v: Value, costs: list[tuple[float, LabelAt]]) -> Link | None:
        """Return the link of a bare number that is set against the value before it, or the one behind it."""
        cue = self._comparing(v)
        if v.clock or v.marking:
            return None
        if cue is None:
            return self._met(v, costs)
        if any(0 <= x.start - v.end <= 1 and x.label.quantity and not x.label.weak for _, x in costs):
            return None  # "should be 10 superheat"
        last = self.r.last(before=v.start, within=_REACH)
        if last is not None and last.reading.quantity == "duration" and self._passed(last):
            # "Box 44 in thirty minutes, should be thirty six by tonight"
            last = self.r.last(before=last.start, within=_REACH)
        if last is None or last.movement or not self._alone_between(last, cue, v):
            return None
        link = self._as(v, last)
        if link is None and last.reading.quantity == "temperature":
            # "took 130 minutes to 3 degrees, the limit is 90"
            other = self.r.last("duration", before=last.start, within=6)
            if other is not None and other.sentence == last.sentence == self.number:
                return self._as(v, other)
        return link

    def _met(self, v: Value, costs: list[tuple[float, LabelAt]]) -> Link | None:
        """Return the link of a bare number that was read against a wish: "target is 14, actual 21"."""
        if any(not x.label.weak for _, x in costs):
            return None
        last = self.r.last(before=v.start, within=8)
        if last is None or last.movement or last.sentence != self.number or last.reading.role not in _SET:
            return None
        gap = self.words[last.end : v.start]
        if not (word_list("compared_found") & set(gap) and set(gap) <= word_list("compared_met")):
            return None
        behind = self.words[v.end : v.end + 1]
        if behind not in (
            [],
            ["."],
            [","],
            [";"],
            ["now"],
            ["today"],
            ["on"],
            ["at"],
            ["in"],
            ["and"],
            ["with"],
        ):
            return None
        return self._as(v, last)

    def _passed(self, last: Taken) -> bool:
        """Tell whether a time only says when another value was read: "box 44 in thirty minutes"."""
        led = self.words[max(0, last.start - 2) : last.start]
        behind = self.words[last.end : last.end + 1]
        before = self.r.last(before=last.start, within=12)
        timed = bool({"in", "after", "within", "another", "for"} & set(led)) or behind in (
            ["later"],
            ["in"],
            ["after"],
        )
        return timed and before is not None and before.sentence == last.sentence

    def _comparing(self, v: Value) -> Cue | None:
        """Return the cue in front of a number with nothing but words that lead to it between them."""
        leads = word_list("compared_leads")
        narration = self.r.narration
        for cue in reversed(find_cues(narration)[: bisect_left(cue_starts(narration), v.start)]):
            if cue.end > v.start or cue.where != "before":
                continue
            if v.start - cue.end > 6 or cue.start < self.first:
                return None
            if cue.role not in _ROLES:
                continue
            between = self.words[cue.end : v.start]
            settings = word_list("compared_settings") & set(self.words[cue.start : cue.end])
            if settings or any(w not in leads and w not in FILLERS for w in between):
                continue
            return cue
        return None

    def _alone_between(self, last: Taken, cue: Cue, v: Value) -> bool:
        """Tell whether nothing else that could be measured was named since the value before."""
        distance = self.number - last.sentence
        if distance > 1 or (distance == 1 and cue.start - self.first > 4):
            return False
        if last.reading.role not in {"measured", "target", "rated", "retracted"} or last.how == "condition":
            return False
        quantity = last.reading.quantity
        for x in self.r.labels[self.r.span("labels", last.end, v.end + 1)]:
            own = x.label.quantity or x.label.default
            if own is not None and own != quantity and not (cue.start <= x.start and x.end <= cue.end):
                return False
            if x.label.point and x.label.point != last.reading.point and not x.label.weak:
                return False
        for c in self.r.components[self.r.span("components", last.end, v.start)]:
            if cue.start <= c.start and c.end <= cue.end:
                continue
            if c.name != last.reading.component and quantity not in {c.component.sets}:
                return False
        return True

    def _sensor_talk(self, v: Value) -> bool:
        near = self.r.components[self.r.span("components", v.start - 30, v.start)]
        return any(c.name == "temperature sensor" for c in near)

    def _as(self, v: Value, last: Taken) -> Link | None:
        reading = last.reading
        amount, before = self._scaled(v, last), reading.value
        if before is None or (v.value == 0 and reading.quantity != "temperature"):
            return None
        if reading.quantity == "temperature_difference" and last.label is None:
            return None  # "drifts half a degree, wants two to six" goes on with the level
        if reading.quantity == "temperature" and v.numbers and v.numbers[0].places and self._sensor_talk(v):
            return None  # the kilohms of a sensor are left out as easily as the degrees
        factor = (
            next((f for u, f in last.value.quantity.means if u == reading.unit), 1.0)
            if last.value.quantity
            else 1.0
        )
        if factor == 1.0 and last.value.quantity is None and last.value.value and before:
            factor = before / last.value.value  # carried itself: "12.4 kilohms, should be 10, book 9.8"
            amount = tidy(v.value * factor)
        ratio = _RATIO.get(reading.quantity)
        if ratio is None:
            if reading.quantity in ELECTRICAL or reading.quantity in {
                "pressure", "temperature", "superheat", "subcooling", "temperature_difference",
                "concentration", "frequency",
            }:  # fmt: skip
                if not self._alike(reading, amount):
                    return None
                far = 60 if reading.unit == "degF" else 35
                if reading.quantity == "temperature" and abs(amount - before) > far:
                    return None
            else:
                return None
        elif not before or not 1 / ratio <= amount / before <= ratio:
            return None
        if not fits(reading.quantity, reading.point, amount, reading.unit):
            return None
        link = Link(reading.quantity, reading.unit, amount, last.label, None, unit_said=False, explicit=True)
        link.how = "list"
        link.derived = reading.derived
        link.reference = reading.reference
        link.carried = last
        return link
