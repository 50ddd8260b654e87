"""Temperatures that no word of temperature stands beside: by their place, their pair, their moment.

"It's ninety one out", "forty on, thirty one off", "it was two above when I shut the door" - and what lies
between two of them, a difference: "forty six in, forty one out, five across it".

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.live_volts import LiveVolts
from dictate.mentions.quantities import FILLERS
from dictate.mentions.temperatures.words_behind import (
    STOPS,
    leaving_behind,
    place_behind,
    rate_behind,
    side_behind,
    weather_out,
)
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, ELECTRICAL, Link, Taken
from dictate.mentions.word_lists import word_list

_DEGREES = frozenset(("degree", "fahrenheit", "celsius", "kelvin", "k"))


class Temperatures(LiveVolts):
    """Temperatures that no word of temperature stands beside, and the differences between them."""

    # -- differences

    def _stated_difference(self, v: Value) -> bool:
        """Tell whether a number is what lies between two temperatures before it.

        As in "off at 34, on at 41, that's seven degrees" and "forty on, thirty one off, nine degrees".
        """
        if not 0 < v.value <= 70:
            return False
        recent = [
            t
            for t in self.r.found.readings[-5:]
            if self.number - t.sentence <= 1 and v.start - t.end <= 45 and t.reading.quantity == "temperature"
        ]
        makes = {"makes", "making", "made"} & set(self.words[max(self.first, v.start - 4) : v.start])
        if makes:
            recent = [t for t in self.r.found.readings[-60:] if t.reading.quantity == "temperature"]
        levels = [t for t in recent if t.reading.value is not None and not t.reading.derived]
        if len(levels) < 2 or self._place_beside(v):
            return False
        lead = [w for w in self.words[max(self.first, v.start - 4) : v.start] if w not in FILLERS]
        told = bool(word_list("readings_makes") & set(lead[-3:]))
        opens = not lead or lead[-1] in {",", ";", "a", "and", "so", "about"}
        last = levels[-1]
        newest = self.r.found.readings[-1]
        for other in levels[:-1]:
            apart = abs((other.reading.value or 0.0) - (last.reading.value or 0.0))
            if apart and abs(apart - v.value) < 0.11:
                if told:
                    return True
                if opens and other is levels[-2] and newest is last and self._ends_here(v):
                    return True
        return False

    def _ends_here(self, v: Value) -> bool:
        """Tell whether nothing that could be measured follows the value in its clause."""
        after = self.words[v.end : v.end + 1]
        return (
            not after
            or after[0] in STOPS
            or after[0] in {"when", "where", "instead", "and", "so", "but", "which", "only", "is"}
            or after[0] in {"across", "of", "between", "difference", "apart"}
        )

    def _place_beside(self, v: Value) -> bool:
        """Tell whether a label of a level stands right beside a value."""
        for x in self.labels:
            if not (x.label.fits("temperature") or x.label.fits("pressure")) or x.label.mode:
                continue
            if x.label.quantity == "temperature_difference":
                continue
            if v.end <= x.start < self.last and x.start - v.end <= 1:
                return True
            if x.end <= v.start and v.start - x.end <= 2 and "," not in self.words[x.end : v.start]:
                return True
        return False

    def _apart(self, v: Value) -> bool:
        """Tell whether degrees are counted from something: "seven over the coil", "twelve above ambient"."""
        after = self.words[v.end : v.end + 5]
        if (
            after[:1] == ["between"]
            and after[1:2]
            and after[1] in {"the", "them", "in", "air", "supply", "those"}
        ):
            return True
        if after[:1] and after[0] in {"over", "above", "under", "below"}:
            rest = [w for w in after[1:] if w not in {"the", "my", "its", "what", "that", "our", "this"}]
            return bool(rest) and rest[0] in word_list("readings_counted_from")
        comparing = word_list("readings_warmer") & set(after[:1])
        return bool(comparing) and after[1:2] == ["than"]

    def _bare_difference(self, v: Value) -> bool:
        """Tell whether a bare number is a difference by the words behind it: "thirty six of pickup"."""
        number = v.numbers[0] if v.numbers else None
        if number is None or not 0 < v.value <= 120 or v.clock:
            return False
        if self._apart(v):
            return True
        after = self.words[v.end : v.end + 3]
        talk = self._temperatures_lately(v)
        if after[:1] == ["of"] and set(after[1:2]) & word_list("readings_spreads"):
            return talk
        if set(after[:1]) & word_list("readings_spreads"):
            return talk
        if after[:2] in (["across", "it"], ["across", "the"], ["across", "that"]) or after[:1] == ["apart"]:
            if after[2:3] and after[2] in word_list("readings_electric_things"):
                return False
            last = self.r.last(before=v.start, within=25)
            return talk and (last is None or last.reading.quantity not in ELECTRICAL)
        return False

    def _across_behind(self, v: Value) -> bool:
        """Tell whether a bare number is said to lie between the last two temperatures, and does so.

        As in "supply 53, return 61, eight across".
        """
        after = self.words[v.end : v.end + 2]
        if not v.bare or after[:1] not in (["across"], ["between"], ["split"], ["apart"]):
            return False
        if after[1:] and after[1] not in {".", ",", ";", "them", "both", "so", "which", "and"}:
            return False
        levels = [
            t.reading.value
            for t in self.r.found.readings[-4:]
            if t.reading.quantity == "temperature" and t.reading.value is not None
        ]
        return len(levels) >= 2 and abs(abs(levels[-1] - levels[-2]) - v.value) <= 1

    def _changes_by(self, v: Value, link: Link) -> Link | None:
        """Return a temperature as what lies between two: "8 across", "falling, three degrees every hour"."""
        if v.quantity is None or not rate_behind(self.words, v.end):
            return self._difference_link(v) if self._across_behind(v) else None
        changed = self._assume(v, "temperature_difference", None, "row")
        if changed is not None:
            changed.unit_said = link.unit_said
        return changed

    def _temperatures_lately(self, v: Value) -> bool:
        """Tell whether the talk is of temperatures: two were read in this sentence or the two before."""
        recent = [
            t for t in self.r.found.readings[-4:] if self.number - t.sentence <= 2 and v.start - t.end <= 60
        ]
        levels = [t for t in recent if t.reading.quantity in {"temperature", "superheat", "subcooling"}]
        return len(levels) >= 1 and recent[-1] in levels

    def _difference_link(self, v: Value) -> Link | None:
        link = self._assume(v, self._difference_kind(v), None, "row")
        if link is not None:
            link.derived = True
        return link

    def _difference_kind(self, v: Value) -> str:
        """Tell superheat and subcooling from other differences: one of the two before is a saturation."""
        recent = [t for t in self.r.found.readings[-4:] if self.number - t.sentence <= 1]
        points = {t.reading.point for t in recent if t.reading.quantity == "temperature"}
        said = set(self.words[max(self.first, v.start - 30) : v.start])
        if points & {"saturated condensing"} and points & {"liquid"}:
            return "subcooling"
        if points & {"saturated suction", "saturation"} or {"superheat", "sat", "saturation"} & said:
            return "subcooling" if {"subcooling", "subcool"} & said else "superheat"
        return "temperature_difference"

    # -- levels

    def _on_the_other(self, v: Value) -> Taken | None:
        """Return the value that "sixty-four on the other" goes on from: "sixty-six on one and ..."."""
        if self.words[v.end : v.end + 3] != ["on", "the", "other"] or v.clock:
            return None
        last = self.r.last(before=v.start, within=9)
        if last is None or last.sentence != self.number or last.movement:
            return None
        return last if self._alike_said(last, v) else None

    def _place_before(self, v: Value) -> str | None:
        """Return the point that the subject of the clause tells: "house is sixty one"."""
        i = v.start - 1
        while i > self.first and (self.words[i] in COPULAS or self.words[i] in FILLERS):
            i -= 1
        if i >= v.start - 1 or i < self.first:
            return None
        if self.words[i] not in word_list("readings_rooms"):
            return "ambient" if self._room_stood_at(v, i) else None
        if not {"is", "'s", "was", "at"} & set(self.words[i + 1 : v.start]):
            return None
        cold = v.value <= (15 if self.r.system.name == "metric" else 59)
        return "box" if cold and self.words[i] in word_list("readings_cold_rooms") else "ambient"

    def _room_stood_at(self, v: Value, i: int) -> bool:
        """Tell whether the noun at i is a place around: "with the hallway at 75", "the patio's 84"."""
        if self.words[i] in {"room", "bay", "cage", "plant", "cellar"} or not self._of_a_room(v):
            return False
        if self.words[i] not in word_list("readings_place_nouns"):
            return False
        if not {"is", "'s", "was", "at"} & set(self.words[i + 1 : v.start]):
            return False
        lead = self.words[max(self.first, i - 3) : i]
        articles = {"the", "this", "that", "their", "his", "her", "my", "a"}
        return bool(articles.intersection(lead)) and word_list("readings_cold_places").isdisjoint(lead)

    def _of_a_room(self, v: Value) -> bool:
        """Tell whether a number is as warm as a place where nothing is kept cold."""
        return 54 <= self._fahrenheit(v.value) <= 120

    def _fahrenheit(self, value: float) -> float:
        return value * 1.8 + 32 if self._metric() else value

    def _placed_in_list(self, v: Value, group: list[Value]) -> Link | None:
        """Take a number that ends a list of something else by its place: "one ninety head, | 90 out"."""
        if not v.bare or v.clock or v.range or v is not group[-1]:
            return None
        if self.r.mode_at(v.start) in {"vacuum", "pressure_test", "winding"}:
            return None
        last = self.r.last(before=v.start, within=12)
        if last is None or last.sentence != self.number or last.reading.quantity == "temperature":
            return None
        if weather_out(self.words, v.start, v.end) and 0 <= self._fahrenheit(v.value) <= 120:
            link = self._assume(v, "temperature", None, "row")
            if link is not None:
                link.point = "ambient"
            return link
        return self._by_place(v) if v is not group[0] and self._of_a_room(v) else None

    def _by_place(self, v: Value) -> Link | None:
        """Take a bare number as the temperature of the place said with it."""
        number = v.numbers[0] if v.numbers else None
        if number is None or v.clock or not self._room_like(v.value):
            return None
        point = place_behind(self.words, v.end)
        if point is not None and not self._free(v):
            return None
        point = point or self._place_before(v)
        if point is None:
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = point
        return link

    def _room_like(self, value: float) -> bool:
        """Tell whether a number can be the temperature of a room, of the weather or of a box."""
        return -40 <= value <= (50 if self.r.system.name == "metric" else 125)

    def _free(self, v: Value) -> bool:
        """Tell whether nothing in front of a value says what else it is: "it's", "with it", "still", "at"."""
        i = v.start - 1
        plain = word_list("readings_plain") | FILLERS
        while i >= self.first and self.words[i] in plain and self.words[i] not in STOPS:
            i -= 1
        if i >= self.first and self.words[i] not in STOPS:
            return False
        number = v.numbers[0] if v.numbers else None
        if number is not None and number.places:
            last = self.r.last(before=v.start, within=20)
            return last is None or last.reading.quantity not in ELECTRICAL
        return True

    def _both_sides(self, v: Value) -> Link | None:
        """Read "forty on, thirty one off", "54 in, 44 out" as temperatures of both sides of a coil."""
        mine = side_behind(self.words, v.end)
        if mine is None or v.clock or not self._room_like(v.value):
            return None
        for w in self.values:
            if w is v or abs(w.start - v.start) > 9 or w.state != "value" or w.value == v.value:
                continue
            if side_behind(self.words, w.end) not in {"in", "out"} - {mine} or not self._room_like(w.value):
                continue
            if w.quantity is not None and w.word not in _DEGREES:
                continue
            if max(v.value, w.value) < (3 if self.r.system.name == "metric" else 20):
                continue
            link = self._assume(v, "temperature", None, "row")
            if link is not None:
                link.point = "inlet" if mine == "in" else "outlet"
            return link
        return None

    def _at_the_end(self, v: Value, best: tuple[float, LabelAt] | None) -> Link | None:
        """Take "it was two above when I shut the door", "it's holding thirty six now" as the box's.

        What a machine is at when it is left is its temperature, unless the talk is of something else.
        """
        if v.clock or not self.r.system.fits_temperature(v.value) or v.value > (30 if self._metric() else 85):
            return None
        if best is not None and (
            not best[1].label.weak or best[1].label.default not in {None, "temperature"}
        ):
            return None
        if best is not None and best[1].label.point not in {None, "hold"}:
            return None
        if self.r.mode_at(v.start) in {"vacuum", "pressure_test", "winding"}:
            return None
        lead = [w for w in self.words[max(self.first, v.start - 7) : v.start] if w not in FILLERS]
        told = {"at", "to", "holding", "was", "is", "'s", "it's"} & set(lead[-1:])
        if not told and v.value >= 0 and not v.above:
            return None
        if not {"it", "it's", "she", "she's", "everything", "box", "unit", "they're", "both", "they"} & set(
            lead
        ):
            return None
        moment = leaving_behind(self.words, v.end)
        holding = "holding" in lead[-2:] and self.words[v.end : v.end + 1] in (
            ["now"],
            ["."],
            [","],
            ["again"],
            ["and"],
        )
        if not moment and not holding:
            return None
        for x in self.labels:
            if x.end <= v.start and not x.label.weak and not x.label.fits("temperature"):
                return None
        last = self.r.last(before=v.start, within=12)
        if last is not None and last.sentence == self.number and last.reading.quantity != "temperature":
            alike = last.reading.value or 0.0
            if last.reading.quantity != "duration" and alike and 0.6 <= v.value / alike <= 1.6:
                return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "box"
        return link

    def _metric(self) -> bool:
        return self.r.system.name == "metric"
