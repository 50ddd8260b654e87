"""Bare numbers of a test under way: its levels, its minutes, how warm it was."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.not_values.gauge_runs import gauge_runs
from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.standing_tests import levels_of
from dictate.mentions.test_stretches import Stretch, stretch_at, stretch_phrases, stretch_words
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, Link, Taken, Zone
from dictate.mentions.word_lists import word_list

_NET_NEAR = 9
"""Words around a sentence in which the pressure between oil and crankcase is worked out."""
_LATER = 30
"""Words behind the minutes of a test in which later ones may be told without their unit."""
_HEADS = frozenset((".", ",", ";"))
_MOST_BAR = 80
"""Above so many bar nothing is tested here: the number is of kilopascals."""


class InATest(Compared):
    """Tells the bare numbers of a test under way."""

    def _read_aloud(self, v: Value) -> Link | None:
        """Read a number of a gauge that was read aloud: "Pump. Twelve hundred... | eight..."."""
        if v.quantity is not None or not v.numbers:
            return None
        told = gauge_runs(self.r.narration).readings.get(v.start)
        if told is None:
            return None
        link = self._assume(v, told.quantity, None, "test")
        if link is None:
            return None
        tell_outright(self.r.narration, v.start)
        link.amount, link.how = told.value, "test"
        link.reasons += told.reasons
        if told.unit is not None:
            link.unit = told.unit
        elif link.unit == "mbar":
            link.unit = "micron"  # a row without a unit begins above every millibar
        elif link.unit == "bar" and told.value > _MOST_BAR:
            link.unit = "kPa"
        if told.quantity == "pressure":
            link.reference = "vacuum_depth" if told.inches else "gauge"
        return link

    def _later_minutes(self, v: Value) -> Link | None:
        """Read "after fifteen minutes ten bar, after | thirty also ten", "| fifteen, three forty-five"."""
        if not v.bare or v.clock or v.range or not v.value.is_integer() or not v.numbers:
            return None
        last = self.r.last("duration", before=v.start, within=_LATER)
        if last is None or last.reading.unit != "min" or stretch_at(self.r.tests, v.start) is None:
            return None
        first = last.reading.value or 0.0
        if not first < v.value <= min(180, 12 * first) or v.value % 5:
            return None
        if not (last.said_unit or last.how == "test"):
            return None
        lead, behind = self.words[v.start - 1], self.words[v.end : v.end + 1]
        levels = [t for t in self.r.found.readings[-4:] if t.reading.quantity in {"vacuum", "pressure"}]
        small = not levels or levels[-1].value.value <= v.value
        if small and not (lead == "after" and self.words[last.start - 1] == "after"):
            return None  # of a pressure in bar only the same words tell
        led = lead == "after" or (lead == "at" and self.words[last.start - 1] == "at")
        told = next((w for w in self.values if w.start >= v.end), None)
        heads = behind == [","] and told is not None and told.start == v.end + 1 and lead in _HEADS
        return self._minutes_of_test(v) if led or (heads and self._level_like(told, levels)) else None

    def _level_like(self, v: Value | None, levels: list[Taken]) -> bool:
        level = levels[-1].value.value if levels else 0.0
        return v is not None and level > 0 and 0.5 <= v.value / level <= 2

    def _minutes_of_test(self, v: Value) -> Link:
        link = Link("duration", "min", v.value, None, None, unit_said=False, how="test")
        link.explicit = True
        tell_outright(self.r.narration, v.start)
        return link

    def _left_standing(self, v: Value) -> Link | None:
        """Read a level of a pressure that was left to stand: "300 in it, had lunch, still | 300"."""
        if v.quantity is not None or not v.numbers or v.start not in levels_of(self.r.narration):
            return None
        tell_outright(self.r.narration, v.start)  # what stood and what became of it were told
        earlier = self.r.last("pressure", before=v.start, within=40)
        level = earlier.reading.value if earlier is not None else None
        if earlier is not None and level and earlier.start in levels_of(self.r.narration):
            if 0.5 <= v.value / level <= 2:
                link = Link("pressure", earlier.reading.unit, v.value, None, None, unit_said=False)
                link.reference, link.explicit, link.how = "gauge", True, "test"
                return link
            return None
        first = self._assume(v, "pressure", None, "test")
        if first is not None:
            first.reference = "gauge"
        return first

    def _in_test(self, v: Value, costs: list[tuple[float, LabelAt]], zone: Zone) -> Link | None:
        """Read a bare number of a test under way: its value, how warm it was, or its minutes."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None or v.value <= 0 or v.range or v.marking:
            return None
        if any(
            not x.label.weak
            and x.label.mode is None
            and (x.label.quantity or x.label.default)
            and cost <= 4
            and not (stretch.kind == "vacuum" and self._of_no_side(x))
            for cost, x in costs
        ):
            return None
        component = self._bare_component(v, zone)
        if component is not None and component[1] <= 2:
            return None
        return self._test_level(v, stretch)

    def _of_no_side(self, label: LabelAt) -> bool:
        """Tell whether a label says pressure of no side: in an evacuation "the gauge said" is a vacuum."""
        return label.label.quantity == "pressure" and not (
            label.label.point or label.label.component or label.label.reference
        )

    def _depth_goes_on(self, v: Value) -> Link | None:
        """Read "down to ten inches, came up to four" as another depth of the recovery."""
        if not 0 <= v.value <= 29.9 or self.words[v.start - 1 : v.start] not in (["to"], ["at"]):
            return None
        last = self.r.last("pressure", before=v.start, within=20)
        if last is None or last.reading.unit != "inHg" or self.number - last.sentence > 1:
            return None
        between = self.words[last.end : v.start]
        moved = stretch_words("depth_moves") & set(between)
        other = self.labels[self.r.span("labels", last.end, v.start)]
        if not moved or any(x.label.mode != "recovery" and not x.label.weak for x in other):
            return None
        if self.r.components[self.r.span("components", last.end, v.start)]:
            return None
        return self._like(v, last)

    def _beside_test(self, v: Value) -> Link | None:
        """Read how warm it was during a test and its bare minutes, also where they follow a list."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None or v.value <= 0 or v.marking:
            return None
        again = self._again(v) if self.words[v.end : v.end + 1] == ["still"] else None
        if again is not None and again.start >= stretch.start:
            return self._like(v, again)
        level = self.r.last("pressure", before=v.start, within=30)
        if level is not None and self._warmth_of_test(v, level.reading.value or 0.0):
            warm = self.r.last("temperature", before=v.start, within=70)
            if warm is not None and self.words[v.start - 1] in {",", "and", "at", "now"}:
                return self._like(v, warm)
        return self._test_warmth(v) or self._test_minutes(v, stretch)

    def _test_warmth(self, v: Value) -> Link | None:
        """Read "seventy out there", "the garage at eighty" during a test as how warm it was."""
        if not self.r.system.fits_temperature(v.value):
            return None
        lead = [w for w in self.words[max(self.first, v.start - 6) : v.start] if w not in FILLERS]
        last = self.r.last(before=v.start, within=3)
        if (
            last is not None
            and last.reading.quantity == "temperature"
            and last.reading.point == "ambient"
            and set(self.words[last.end : v.start]) <= {"to", "down", "up", "and", "then", "now", ","}
            and lead
        ):
            return self._like(v, last)
        while lead and lead[-1] in COPULAS | stretch_words("ambient_moves"):
            lead.pop()
        behind = any(
            tuple(self.words[v.end : v.end + len(p)]) == p for p in stretch_phrases("ambient_after")
        ) and self.words[v.end : v.end + 1] not in (["micron"], ["microns"])
        behind = behind and not (
            self.words[v.end : v.end + 1] == ["out"]
            and self.words[v.end + 1 : v.end + 2]
            and self.words[v.end + 1] not in stretch_words("out_follows")
        )
        front = bool(lead) and (
            lead[-1] in stretch_words("ambient_before")
            or (lead[-3:-1] == ["with", "the"] and lead[-1] not in {"pressure", "gauge", "pump", "needle"})
        )
        if not behind and not front:
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "ambient"
        return link

    def _test_minutes(self, v: Value, stretch: Stretch) -> Link | None:
        """Read "held for twenty", "another ten", "rose to three fifty in ten" as minutes of the test."""
        if not 1 <= v.value <= 90 or v.value != int(v.value) or v.start <= stretch.start:
            return None
        lead = self.words[max(self.first, v.start - 2) : v.start]
        after = self.words[v.end : v.end + 1]
        if lead[-1:] in (["about"], ["around"]):
            lead = self.words[max(self.first, v.start - 3) : v.start - 1]
        later = after == ["later"]
        row = self.r.last("duration", before=v.start, within=9)
        if row is not None and row.reading.unit == "min" and row.start >= stretch.start and v.value <= 60:
            nearest = next((w for w in self.values if w.start == v.end), None)
            if nearest is not None and nearest.bare and v.value > (row.reading.value or 0):
                return Link("duration", "min", v.value, None, None, unit_said=False, how="test")
        left = bool(lead) and (
            lead[-1] in stretch_words("left")
            or (lead[-1] in {"off", "out", "in", "shut"} and lead[0] in stretch_words("left_off"))
        )
        if not later and not left and (not lead or lead[-1] not in stretch_words("times")):
            return None
        if not later and after and after[0] not in stretch_words("time_follows"):
            return None
        level = next(
            (
                t.reading
                for t in reversed(self.r.found.readings)
                if t.start >= stretch.start and t.reading.quantity in {"pressure", "vacuum"}
            ),
            None,
        )
        timed = self.r.last("duration", before=v.start, within=60)
        if level is None or (
            level.value is not None and level.unit in {"bar", "mbar"} and timed is None and not left
        ):
            return None
        if left and level.value is not None and 0.8 * level.value <= v.value <= 1.15 * level.value:
            return None  # "put sixty on it, held sixty"
        link = Link("duration", "min", v.value, None, None, unit_said=False, how="test")
        return link

    def _test_level(self, v: Value, stretch: Stretch) -> Link | None:
        """Read a bare number that a clause of the test presents as its next level."""
        quantity = "vacuum" if stretch.kind == "vacuum" else "pressure"
        levels = [
            t
            for t in self.r.found.readings
            if stretch.start - 12 <= t.start < v.start
            and t.reading.quantity == quantity
            and t.reading.reference not in {"vacuum_depth", "differential"}
            and t.reading.role == "measured"
            and t.reading.value
        ]
        low, high = (0.02, 60.0) if quantity == "vacuum" else (0.5, 2.0)
        earlier = next(
            (t for t in reversed(levels[-5:]) if low <= self._scaled(v, t) / (t.reading.value or 1) <= high),
            None,
        )
        system = self.r.system.pressure
        if levels:
            if earlier is None or (earlier.reading.unit == "micron" and self._scaled(v, earlier) < 60):
                return None
            warm = self.r.last(before=v.start, within=12)
            if warm is not None and warm.reading.quantity == "temperature" and warm.sentence == self.number:
                degrees, level = warm.reading.value or 0, earlier.reading.value or 0
                if abs(v.value - degrees) <= 6 and abs(v.value - degrees) < abs(v.value - level):
                    return self._like(v, warm)  # "21.5 degrees at the start, 21 at the end"
        elif quantity == "vacuum":
            if not (60 <= v.value <= 30000 if system == "us" else 0 < v.value < 3000):
                return None
        elif not (40 <= v.value <= 700 if system == "us" else 1 <= v.value <= 60):
            return None
        if not self._test_clause(v):
            return None
        if v.clock and not self._test_goes_on(v) and self.words[v.start - 1] in stretch_words("clocked"):
            return None  # "pump on at ten twenty"
        if earlier is None:
            link = self._assume(v, quantity, None, "test")
            if link is not None and quantity == "pressure":
                link.reference = "gauge"
            return link
        link = Link(quantity, earlier.reading.unit, v.value, earlier.label, None, unit_said=False, how="test")
        link.amount = self._scaled(v, earlier)
        link.reference = earlier.reading.reference
        return link

    def _test_clause(self, v: Value) -> bool:
        """Tell whether nothing in the clause in front of a number or right behind it is of another matter."""
        after = self.words[v.end : v.end + 1]
        if after and after[0] not in stretch_words("follows"):
            return False
        presents = stretch_words("presents")
        known = {
            t
            for x in self.labels
            if x.label.mode in {"vacuum", "pressure_test"} or x.label.point == "hold"
            for t in range(x.start, x.end)
        }
        times = {
            t for w in self.values if w.word in {"minute", "hour", "second"} for t in range(w.start, w.end)
        }
        valued = self.r.found_tokens(self.first, v.start)
        told = stretch_words("tells")
        for i in range(v.start - 1, max(self.first, v.start - 14) - 1, -1):
            w = self.words[i]
            if w == "then" or (w in {"and", "so", "but"} and told & set(self.words[i + 1 : v.start])):
                return True  # run-on talk: a new clause with its own subject and verb
            if w in {",", ".", ";", ":", "?", "!"} or i in times or i in valued:
                return True
            if w not in presents and w not in FILLERS and i not in known:
                return False
        return True

    def _again(self, v: Value) -> Taken | None:
        """Return what "still thirty point one" or "nineteen still" repeats: the value nearest to it."""
        behind = self.words[v.end : v.end + 1] == ["still"]
        if not behind and "still" not in self.words[max(self.first, v.start - 2) : v.start]:
            return None
        best: tuple[float, Taken] | None = None
        for taken in self.r.found.readings[-8:]:
            reading = taken.reading
            if reading.quantity in {"mass", "duration"} or not reading.value or v.start - taken.end > 120:
                continue
            off = abs(self._scaled(v, taken) / reading.value - 1)
            if off <= 0.06 and (best is None or off <= best[0]):
                best = (off, taken)
        if best is None or (v is not self.values[0] and self._labels_between(best[1].end, v)):
            return None
        return best[1]

    def _labels_between(self, start: int, v: Value) -> bool:
        return any(x.start >= max(start, self.first) and 0 <= v.start - x.end <= 2 for x in self.labels)

    def _oil_side(self, v: Value) -> Link | None:
        """Read "fifty-eight on the pump and thirty-one in the case, that's twenty-seven net" as pressures."""
        # In bursts the net pressure is worked out a sentence later: "Crankcase nine. So twelve net."
        around = self.words[max(0, self.first - _NET_NEAR) : self.last + _NET_NEAR]
        if "net" not in around or not word_list("oil_words") & set(around) or not 5 <= v.value <= 160:
            return None
        behind, lead = self.words[v.end : v.end + 3], self.words[v.start - 1 : v.start]
        oil_pump = lead == ["pump"] and self.words[v.start - 2] in {"oil", ",", ".", "the"}  # no water pump
        pump = behind[-1:] == ["pump"] or oil_pump
        case = {"case", "crankcase", "sump"} & {*behind[-1:], *lead}
        led = behind[:1] in (["on"], ["in"], ["at"]) or not lead or lead[-1] in {"pump", "crankcase", "sump"}
        if not (pump or case) or not led:
            return None
        link = self._assume(v, "pressure", None, "row")
        if link is not None:
            link.point = "oil" if pump else "crankcase"
        return link

    def _net_pressure(self, v: Value) -> Link | None:
        """Read "oil 31, suction 26, so only five net" as the pressure that lies between the two before it."""
        if not v.bare or v.clock or v.value <= 0:
            return None
        lead = self.words[max(self.first, v.start - 3) : v.start]
        last = self.r.last(before=v.start, within=8)
        oil = last is not None and last.sentence == self.number and last.reading.point == "oil"
        if oil and last is not None and "crankcase" in lead and last.reading.quantity == "pressure":
            link = self._like(v, last)
            if link is not None:
                link.label, link.point = None, "crankcase"
            return link
        side = self._oil_side(v)
        if side is not None:
            return side
        if not word_list("net_words") & {*lead, *self.words[v.end : v.end + 1]}:
            return None
        levels = [
            t.reading
            for t in self.r.found.readings[-4:]
            if t.reading.quantity == "pressure"
            and t.reading.value is not None
            and t.reading.reference not in {"differential", "vacuum_depth"}
            and v.start - t.end <= 30
        ]
        if not any(
            abs(abs((a.value or 0) - (b.value or 0)) - v.value) <= max(0.5, 0.02 * v.value)
            for i, a in enumerate(levels)
            for b in levels[:i]
        ):
            return None
        link = self._assume(v, "pressure", None, "row")
        if link is not None:
            link.reference, link.derived = "differential", True
            if levels[-1].unit is not None:
                link.unit = levels[-1].unit
            link.point = "oil" if any(x.point == "oil" for x in levels) else None
        return link

    def _of_nitrogen(self, v: Value) -> bool:
        """Tell whether a bare number is a test pressure.

        As in "three hundred of dry nitrogen", "put one fifty on it".
        """
        if v.clock or v.value < (3 if self.r.system.pressure == "metric" else 20):
            return False
        after = self.words[v.end : v.end + 4]
        if after[:1] == ["of"]:
            return bool({"nitrogen", "nitro"} & set(after[1:3]))
        if after[:2] not in (["on", "it"], ["on", "her"], ["in", "it"], ["on", "them"]) and after[:1] != [
            "nitrogen"
        ]:
            return False
        put = {"put", "pumped", "pressured", "blew", "shot", "loaded"} & set(
            self.words[max(self.first, v.start - 3) : v.start]
        )
        around = self.words[max(0, v.start - 40) : v.end + 12]
        return bool(put) and bool({"nitrogen", "nitro", "test", "brazed", "tested"} & set(around))

    def _test_value_again(self, v: Value) -> Taken | None:
        """Return the test pressure that a number near it is read of: "this morning two forty-seven"."""
        if not v.bare or v.value < 20 or not self._goes_on_test(v) or self._place_beside(v):
            return None
        last = self.r.last("pressure", before=v.start, within=60)
        return last if last is not None and last.reading.point is None else None

    def _pulled_down(self, v: Value) -> bool:
        """Tell whether a number is a vacuum: "pulled that section down to 380", "pump took it to 420"."""
        if self.r.system.pressure != "us" or v.value < 150 or v.word is not None or v.clock:
            return False
        front = self.words[max(self.first, v.start - 9) : v.start]
        if front[-1:] != ["to"] or {"psi", "pounds", "nitrogen", "ohms", "volts"} & set(front):
            return False
        pulled = bool({"pulled", "pull", "pulling", "sucked"} & set(front)) and front[-2:-1] == ["down"]
        # Nitrogen went in and was told; what is pumped to a level behind it is the vacuum.
        pumped = front[-3:-1] in (["pumped", "it"], ["pumped", "her"], ["pumped", "that"], ["pumped", "them"])
        if pumped and 150 <= v.value <= 2000:
            last = self.r.last("pressure", before=v.start, within=60)
            pulled = pulled or (
                last is not None and last.reading.point is None and last.reading.unit == "psi"
            )
        return pulled or bool({"pump"} & set(front) and {"took", "got", "brought", "ran"} & set(front))

    def _microns_ahead(self, v: Value) -> bool:
        """Tell whether the microns come with a later value of the row: "down to 600, then to 310 microns"."""
        if self.words[v.start - 1 : v.start] not in (["to"], ["at"]) or v.value < 50:
            return False
        return any(
            w.word == "micron" and v.end < w.start and 0.02 <= w.value / v.value <= 50 for w in self.values
        )
