"""How far a label reaches to a bare number, and which of the things it can name is meant."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import on_a_stopwatch
from dictate.mentions.plausible import fits
from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.test_stretches import stretch_words
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, Taken, Zone, mains
from dictate.mentions.word_lists import word_list

_WARM_LIQUID = {False: 40, True: 15}
"""From how many degrees a number far below the head pressure is the liquid's, US and metric."""


class LabelReach(Compared):
    """Tells which labels can be those of a bare number."""

    def _limit(self, label: LabelAt, v: Value) -> float:
        """Return how far a label may stand from a bare number."""
        if label.start >= v.end:
            return 7.5 if label.label.weak else 5.0
        return 9.0 if label.label.weak else 14.0

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

    def _by_room(self, v: Value, zone: Zone, label: LabelAt, quantity: str) -> str:
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
            here = [t.reading.value or 0.0 for t in self.r.found.readings[-3:] if t.sentence == self.number
                    and t.reading.quantity == "pressure"]  # fmt: skip
            head = max([head or 0.0, *here])  # the sides of "49 suction, 222 head" are settled later
            if _WARM_LIQUID[self._metric()] <= v.value < 0.6 * head:
                return "temperature"  # nor far below it
        if quantity == "pressure" and "temperature" in label.label.only and self._row_of_warmth(v, label):
            return "temperature"
        if (
            quantity == "voltage"
            and label.label.weak
            and "voltage" in label.label.only
            and len(label.label.only) == 1
            and not mains(v.value)
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

    def _row_of_warmth(self, v: Value, label: LabelAt) -> bool:
        """Tell whether a side that can have a pressure or a temperature goes on with temperatures.

        "Temperatures. Discharge 71, suction 11", "discharge temperature 71, suction 11", "discharge 62
        degrees, suction 4, cabinet 9", and "discharge line 142. ... Then the discharge dropped to 125".
        """
        heading = {"temps", "temperatures"} & set(self.words[max(0, v.start - 45) : v.start])
        here = [t for t in self.r.found.readings[-2:] if v.start - t.end <= 30]
        if heading and here and all(t.reading.quantity == "temperature" for t in here):
            return True
        last = self.r.last(before=v.start, within=14)
        sides = {"discharge", "suction", "liquid"}
        if last is not None and last.reading.quantity == "temperature" and last.label is not None:
            near = last.sentence == self.number or last.reading.point == label.label.point
            worded = "temp" in last.reading.heard.lower() and not last.said_unit
            degrees = last.value.word in {"degree", "celsius", "fahrenheit"} and last.sentence == self.number
            head = "head" in self.words[label.start : label.end]
            if last.reading.point in sides and near and (worded or degrees) and not head:
                return True
        return self._warmth_moved(v, label)

    def _warm_behind(self, v: Value) -> bool:
        """Tell whether the next value of the sentence is of a place that only has a temperature."""
        behind = next((x for x in self.labels if x.start >= v.end), None)
        named = behind is not None and behind.label.default == "temperature" and not behind.label.weak
        return named and behind is not None and "pressure" not in behind.label.only

    def _warmth_unsure(self, v: Value) -> bool:
        """Tell whether only the degrees of the side before say that a side's number is no pressure."""
        last = self.r.last(before=v.start, within=14)
        return (
            last is not None
            and last.reading.quantity == "temperature"
            and last.sentence == self.number
            and "temp" not in last.reading.heard.lower()
            and not self._warm_behind(v)
        )

    def _warmth_moved(self, v: Value, label: LabelAt) -> bool:
        """Tell whether a side of which only a temperature was read is told to have moved."""
        point = label.label.point
        head = next((t.reading for t in self.r.found.readings[-3:] if t.sentence == self.number), None)
        if head is not None and head.quantity == "pressure" and head.point == point == "discharge":
            # "head 210, discharge 140" after a discharge line of 165: the head has been told already
            return any(
                t.reading.quantity == "temperature"
                and t.reading.point == point
                and abs(v.value - (t.reading.value or 0)) < abs(v.value - (head.value or 0))
                for t in self.r.found.readings[-40:]
            )
        if label.end > v.start or not word_list("readings_moved") & set(self.words[label.end : v.start]):
            return False
        own = [t for t in self.r.found.readings if t.reading.point == point and t.start < v.start]
        if not own or any(t.reading.quantity == "pressure" for t in own):
            return False
        warm = own[-1].reading
        if warm.quantity != "temperature" or not warm.value or warm.role not in {"measured", "earlier"}:
            return False
        return 0.5 <= v.value / warm.value <= 1.8 if warm.value > 0 else False

    def _set_to(self, label: LabelAt) -> bool:
        """Tell whether the label is a verb of setting: "turned it down to", "wants it at"."""
        said = self.words[label.start : label.end]
        if said[0] in {"left", "leaving"}:
            return False
        return (
            label.label.weak
            and len(said) > 2
            and said[-1] in {"to", "at", "for", "on"}
            and "temp" not in said
        )

    def _vacuum_on(self, v: Value, label: LabelAt) -> bool:
        """Tell whether a label only says where the vacuum was pulled: "vacuum on the low side, 390"."""
        if label.label.default != "pressure" or label.label.mode or label.end > v.start or v.value < 20:
            return False
        i = label.start - 1
        i -= self.words[i] == "the" and i > self.first
        if i < self.first or self.words[i] not in {"on", "from", "of", "in", "through"}:
            return False
        return any(
            x.label.mode == "vacuum" and x.label.default == "vacuum" and self.first <= x.start <= i
            for x in self.labels
        )

    def _pulled_to(self, v: Value, label: LabelAt) -> bool:
        """Tell whether "pull down to 600" is a level and no time."""
        if label.label.default != "duration" or label.end > v.start or "pull" not in self.words[label.start]:
            return False
        return "to" in self.words[label.end : v.start]

    def _time_size(self, v: Value) -> bool:
        """Tell whether a bare number beside "freeze" or "harvest" can be its time."""
        number = v.numbers[0] if v.numbers else None
        if number is not None and on_a_stopwatch(number):
            return True
        last = self.r.last("duration", before=v.start, within=40)
        seconds = last is not None and last.reading.unit == "s"
        return 0 < v.value <= (600 if seconds else 90)

    def _other_side(self, v: Value) -> Taken | None:
        """Return the value of the left one that "right eighteen" goes on from."""
        sides = word_list("readings_sides")
        lead = [w for w in self.words[max(self.first, v.start - 4) : v.start] if w not in FILLERS]
        while lead and lead[-1] in {"is", "'s", "at", "was", "one", "side", "reads", "had"}:
            lead.pop()
        if not lead or lead[-1] not in sides:
            return None
        last = self.r.last(before=v.start, within=8)
        if last is None or last.sentence != self.number or last.movement or v.clock:
            return None
        if last.reading.quantity in {"duration", "mass"}:
            return None
        between = set(self.words[last.end : v.start])
        near = set(self.words[max(self.first, last.start - 5) : last.start])
        if not near & sides or any(last.end <= x.start and x.end <= v.start - 1 for x in self.components):
            return None
        allowed = sides | word_list("readings_between_sides")
        return last if between <= allowed and self._alike_said(last, v) else None

    def _parallel_place(self, v: Value, last: Taken) -> bool:
        """Tell whether a place follows this value as one followed the last.

        As in "12 at the evap, 22 at the compressor".
        """
        if last.sentence != self.number or last.reading.quantity in ELECTRICAL or not last.label_here:
            return False
        if self.words[last.end : last.end + 1] != ["at"] or self.words[v.end : v.end + 1] != ["at"]:
            return False
        return not any(last.end <= x.start and x.end <= v.start and not x.label.weak for x in self.labels)

    def _minutes_of_the_hour(self, v: Value) -> bool:
        """Tell whether a number is a piece of a time of day: "at twenty past", "from quarter to eleven"."""
        behind, before = self.words[v.end : v.end + 1], self.words[max(0, v.start - 3) : v.start]
        led = before[-1:] and before[-1] in stretch_words("clocked") | {"about", "around", "to"}
        if (
            v.value <= 29
            and behind == ["past"]
            and (led or self.words[v.end + 1 : v.end + 2] in ([","], ["."]))
        ):
            return True
        until = behind in (["till"], ["until"])
        later = set(self.words[v.end + 1 : v.end + 4]) & {"quarter", "half", "past", "noon", "lunch"}
        if until and 100 <= v.value <= 1259 and v.value % 100 < 60 and later:
            return True  # "two fifteen till a quarter past three"
        quarter = before[-1:] in (["to"], ["past"]) and before[-2:-1] in (["quarter"], ["half"])
        return quarter and 1 <= v.value <= 12 and v.value.is_integer()
