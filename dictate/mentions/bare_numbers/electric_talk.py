"""Bare numbers that are volts, amps, ohms or microfarads by what is spoken of."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.plausible import usual
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.values.row_states import note_row_state
from dictate.mentions.whose.taken import COPULAS, ELECTRICAL, Link, Taken, mains
from dictate.mentions.word_lists import word_list


class ElectricTalk(Compared):
    """Tells bare numbers of electric quantities by the talk around them."""

    def _on_volts(self, v: Value) -> Link | None:
        """Read "twenty point three the second, on | two thirty-eight" as what the amps were drawn at."""
        if not v.bare or v.clock or v.range or not mains(v.value) or self.words[v.start - 1] != "on":
            return None
        if self.words[v.end : v.end + 1] not in (["."], [","], [";"], []) or not v.value.is_integer():
            return None
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "current" or last.sentence != self.number:
            return None
        amps = last.reading.value or 0.0
        if last.reading.role != "measured" or v.start - last.end > 5 or v.value < 3 * amps:
            return None
        return self._assume(v, "voltage", None, "row")

    def _alike_mains(self, group: list[Value], best: tuple[float, LabelAt] | None) -> bool:
        """Tell whether three numbers of one size are a three-phase supply: "line's 206, 209, 208"."""
        low, high = min(x.value for x in group), max(x.value for x in group)
        if high > 1.06 * low or not all(mains(x.value) for x in group):
            return False
        return best is None or self.words[best[1].start : best[1].start + 1] == ["line"]

    def _in_kilohms(self, v: Value) -> Link | None:
        """Read a sensor's bare number in the unit named for the row: "all in kilohms: box sensor 32.6"."""
        front = self.r.narration.lowers[max(0, v.start - 60) : v.start]
        if not word_list("readings_kilohms").intersection(front) or not 0 < v.value < 1000:
            return None
        named = max(i for i, w in enumerate(front) if w in word_list("readings_kilohms"))
        if front[named - 1 : named] != ["in"]:
            return None
        if not word_list("readings_ohm_sensors").intersection(front[named:][-9:]):
            return None
        tell_outright(self.r.narration, v.start)
        return Link("resistance", "ohm", tidy(v.value * 1000), None, None, unit_said=False, how="row")

    def _mains(self, v: Value, label: LabelAt) -> bool:
        """Tell whether "line" is the supply and no pipe: "line's two oh six" is as no suction line can be."""
        if v.value < 105 or self.words[label.start] != "line" or label.label.default != "temperature":
            return False
        return usual("voltage", None, "line", v.value, "V")

    def _second_supply(self, v: Value, best: tuple[float, LabelAt] | None) -> Taken | None:
        """Return the supply said just before in the sentence that another number of its size goes with."""
        if (
            v.value < 95
            or not mains(v.value)
            or v.clock
            or self._way(v)
            or (best is not None and best[0] <= 0)
        ):
            return None
        last = self.r.last(before=v.start, within=8)
        if last is None or last.sentence != self.number or last.reading.quantity != "voltage":
            return None
        value = last.reading.value or 0
        return last if value >= 95 and 0.85 <= v.value / value <= 1.18 else None

    def _farads_go_on(self, v: Value) -> Taken | None:
        """Return the capacitance that a number much like it goes on with: "a fifteen and she's at 14.8"."""
        last = self.r.last(before=v.start, within=12)
        number = v.numbers[0] if v.numbers else None
        last = last or self._farads_again(v)
        if last is None or last.reading.quantity != "capacitance" or number is None or not number.places:
            return None
        between = self.words[last.end : v.start]
        if {".", "amps", "drawing", "pulling", "draws", "pulls", "volts"} & set(between):
            return None
        value = last.reading.value or 0
        return last if value and 0.6 <= v.value / value <= 1.3 else None

    def _farads_again(self, v: Value) -> Taken | None:
        """Return the capacitance before a measurement made again: "did it again, both wires off"."""
        last = self.r.last(before=v.start, within=45)
        if last is None or last.reading.quantity != "capacitance":
            return None
        between = self.words[last.end : v.start]
        again = "again" in between and not word_list("readings_of_amps") & set(between)
        rated = next(
            (
                t.reading.value
                for t in self.r.found.readings[-8:]
                if t.reading.role == "rated" and t.reading.quantity == "capacitance"
            ),
            None,
        )
        return last if again and rated and 0.6 <= v.value / rated <= 1.3 else None

    def _point_leads(self, v: Value, label: LabelAt) -> bool:
        """Tell whether two terminals stand right before a number, nearer than a label of another kind."""
        if (label.label.quantity or label.label.default) in ELECTRICAL or label.end > v.start:
            return False
        for p in self.points:
            near = label.end <= p.start and p.end <= v.start and v.start - p.end <= 2
            if p.kind in {"winding", "legs", "ground"} and near:
                return True
        return False

    def _probe_goes_on(self, v: Value) -> Taken | None:
        """Return the kilohms of a probe that the next one's go on with: "new probe in, 32.4"."""
        number = v.numbers[0] if v.numbers else None
        if number is None or not number.places:
            return None
        if not {"probe", "sensor", "thermistor", "new", "probe's", "sensor's"} & set(
            self.words[self.first : v.start]
        ):
            return None
        for taken in reversed(self.r.found.readings[-6:]):
            q = taken.value.quantity
            if taken.reading.quantity != "resistance" or q is None or v.start - taken.end > 90:
                continue
            if q.word in {"kilohm", "k"} and q.value and 0.75 <= v.value / q.value <= 1.33:
                return taken
        return None

    def _row_nought(self, v: Value) -> Link | None:
        """Read "low stage | zero", "| zero on the first one" as what one of a row draws or has."""
        if (
            v.value
            or v.clock
            or not v.bare
            or not note_row_state(self.r.narration, self.words, v.start, v.end)
        ):
            return None
        current = self._row_of_amps(v)
        link = Link("current" if current else "voltage", "A" if current else "V", 0.0, explicit=True)
        link.how, link.unit_said = "row", False
        tell_outright(self.r.narration, v.start)
        return link

    def _row_of_amps(self, v: Value) -> bool:
        """Tell whether the row that a "nothing" belongs to is one of amps and not of volts."""
        for t in reversed(self.r.found.readings[-4:]):
            if t.reading.quantity in {"current", "voltage"} and v.start - t.end <= 40:
                since = word_list("row_states_amps") & set(self.words[t.end : v.start])
                return t.reading.quantity == "current" or bool(since)
        near = self.words[max(0, v.start - 60) : v.start]
        amps = max((i for i, w in enumerate(near) if w in word_list("row_states_amps")), default=-1)
        volts = max((i for i, w in enumerate(near) if w in {"volt", "volts", "voltage"}), default=-1)
        return amps > volts

    def _sensor_row(self, v: Value) -> Link | None:
        """Read "coil sensor 16.2 k, air | 9.8", "defrost probe reads | 26.4" as the next kilohms."""
        if not v.bare or v.clock or v.range:
            return None
        last = self.r.last(before=v.start, within=16)
        if last is None or last.sentence != self.number or last.reading.component != "temperature sensor":
            return None
        scaled = self._scaled(v, last)
        if last.reading.quantity != "resistance" or scaled == v.value or not last.reading.value:
            return None
        if not 0.2 <= scaled / last.reading.value <= 5 or self.words[v.start - 1] in {"at", "to"}:
            return None
        lead = self.words[max(self.first, last.end) : v.start]
        cut = max((i for i, w in enumerate(lead) if w in {",", ";", "and"}), default=-1)
        clause = set(lead[cut + 1 :])
        if not clause or len(lead) - cut > 7:
            return None
        named = word_list("sensor_row_nouns") & clause
        if not clause <= word_list("sensor_row_nouns") | word_list("sensor_row_names") | COPULAS | FILLERS:
            return None
        link = self._like(v, last)
        if link is not None and not named:
            link.reasons.append("no unit was said: it may be a temperature and no kilohms")
        elif link is not None:
            tell_outright(self.r.narration, v.start)
        return link

    def _winding_talk(self, v: Value) -> bool:
        """Tell whether a small decimal is ohms of the windings this sentence is about."""
        number = v.numbers[0] if v.numbers else None
        if (
            number is None
            or not number.places
            or v.value > 200
            or {"amps", "drawing", "pulling"} & set(self.words[self.first : v.start])
        ):
            return False
        return any(
            x.end <= v.start and {"winding", "windings"} & set(self.words[x.start : x.end])
            for x in self.labels
        )

    def _takes_amps(self, v: Value, label: LabelAt) -> bool:
        """Tell whether "takes" is said of a motor, and so of its amps: "new fan takes 0.43"."""
        if self.words[label.end - 1] != "takes" or label.end > v.start or v.start - label.end > 1:
            return False
        front = [c for c in self.components if c.end <= label.end and label.end - c.end <= 3]
        return bool(front) and front[-1].component.bare == "current" and v.value <= 150

    def _drawn(
        self, v: Value, costs: list[tuple[float, LabelAt]], best: tuple[float, LabelAt] | None
    ) -> tuple[float, LabelAt] | None:
        """Return the verb of a current that beats the noun before it: "the head's drawing 0.28"."""
        if best is None or best[1].label.weak or best[1].end > v.start:
            return None
        kind = best[1].label.quantity or best[1].label.default
        number = v.numbers[0] if v.numbers else None
        if kind not in {"temperature", "pressure"} or number is None or not number.places or v.value >= 30:
            return None
        if kind == "pressure" and (self.r.system.pressure != "us" or best[1].label.point == "suction"):
            return None
        for cost, label in costs:
            if (
                label.label.default == "current"
                and self.words[label.start] != "draw"
                and best[1].end <= label.start
                and label.end <= v.start
                and v.start - label.end <= 2
                and not {"down", "up"} & set(self.words[label.end : v.start])
            ):
                return cost, label
        return None

    def _row_behind_volts(self, v: Value, group: list[Value]) -> bool:
        """Tell whether three numbers are amps behind the volts of legs: "208, 209, 207, | 9.2, 9.1, 9.4"."""
        if len(group) != 3 or not all(x.bare and not x.clock and 0 < x.value < 150 for x in group):
            return False
        if max(x.value for x in group) > 1.5 * min(x.value for x in group) or v.range:
            return False
        rows = [t for t in self.r.found.readings if t.start < group[0].start][-3:]
        if len(rows) != 3 or group[0].start - rows[-1].end > 6 or rows[0].sentence != self.number:
            return False
        if any(rows[-1].end <= x.start < group[0].start and not x.label.weak for x in self.labels):
            return False
        return all(
            t.reading.quantity == "voltage" and t.reading.role == "measured" and (t.reading.value or 0) >= 95
            for t in rows
        )

    def _amps_behind_volts(self, v: Value) -> bool:
        """Tell whether a small number is the amps behind the volts of a motor: "229 volts and 0.2"."""
        number = v.numbers[0] if v.numbers else None
        if number is None or not number.places or not 0 < v.value < 60:
            return False
        last = self.r.last(before=v.start, within=3)
        if last is None or last.sentence != self.number or last.reading.quantity != "voltage":
            return False
        if (last.reading.value or 0) < 20 or last.reading.derived or last.reading.role != "measured":
            return False
        return self.words[last.end : v.start] in (["and"], [","], [",", "and"], ["at"])

    def _motor_talk(self, v: Value) -> bool:
        """Tell whether a small decimal is the amps of the motors this sentence is about.

        As in "coil fans, four of them, number three's at one point three".
        """
        number = v.numbers[0] if v.numbers else None
        if number is None or not number.places or not 0 < v.value < 30:
            return False
        front = [c for c in self.components if c.end <= v.start]
        if not front or front[-1].component.bare != "current":
            return False
        if any(front[-1].end <= x.start < v.start and not x.label.weak for x in self.labels):
            return False
        between = [t for t in self.r.found.readings[-6:] if t.start >= front[-1].end]
        return all(t.reading.quantity == "current" for t in between)
