"""What a number without a unit is a value of.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.compared import Compared
from dictate.mentions.labels import LabelAt
from dictate.mentions.plausible import fits, usual
from dictate.mentions.quantities import FILLERS
from dictate.mentions.taken import CLOCKED, COPULAS, ELECTRICAL, NOMINAL_VOLTS, Link, Taken, Zone, mains
from dictate.mentions.test_stretches import Stretch, stretch_at, stretch_phrases, stretch_words
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list


class BareNumbers(Compared):
    """What a number without a unit is a value of."""

    def _alike_mains(self, group: list[Value], best: tuple[float, LabelAt] | None) -> bool:
        """Tell whether three numbers of one size are a three-phase supply: "line's 206, 209, 208"."""
        low, high = min(x.value for x in group), max(x.value for x in group)
        if high > 1.06 * low or not all(mains(x.value) for x in group):
            return False
        return best is None or self.words[best[1].start : best[1].start + 1] == ["line"]

    def _bare(self, v: Value, group: list[Value], zone: Zone, previous: Taken | None) -> Link | None:
        costs = self._labels(zone, v)
        if self._minutes_of_the_hour(v):
            return None
        if self._of_phases(v):
            return self._assume(v, "voltage", None, "marking")
        if self._timer_set(v):
            return Link("duration", "min", v.value, None, None, unit_said=False, explicit=True, how="setting")
        pair = self._over_pair(v, group)
        if pair is not None:
            return pair
        if self._air_side(v, costs):
            return None
        repeated = self._again(v)
        if repeated is not None:
            return self._like(v, repeated)
        told = self._by_said_before(v, group)
        if told is not None:
            return told
        own = next((x for _, x in costs if 0 <= x.start - v.end <= 2), None) if v is group[-1] else None
        if v is group[0] and (compared := self._compared(v, costs)) is not None:
            return compared
        rewound = self._windings_again(v, group)
        if rewound is not None:
            return rewound
        if self._leg_amps(v, group):
            return self._assume(v, "current", None, "row")
        if self._ohms_to_ground(v):
            return self._assume(v, "resistance", None, "row")
        if (
            previous is not None
            and v is not group[0]
            and previous.reading.quantity in {"current", "resistance"}
        ):
            live = self._voltage_place(v) or self._framed_volts(v, None)
            if live is not None:
                return live  # "zero amps, one eighteen at its plug"
        beside = self._depth_goes_on(v) or self._beside_test(v)
        if beside is not None:
            return beside
        timed = previous is not None and previous.reading.quantity in {"duration", "temperature"}
        if timed and v is not group[0]:
            in_test = self._in_test(v, costs, zone)
            if in_test is not None:
                return in_test
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
        lost = self.r.last("voltage", before=v.start, within=14)
        shared = v.numbers and v.numbers[0].form == "fraction" and self.words[v.end : v.end + 1] == ["across"]
        if shared and lost is not None and 0 <= (lost.reading.value or 0) < 30:
            return self._like(v, lost)  # "half a volt across the left pole and a quarter across the other"
        in_test = self._in_test(v, costs, zone)
        if in_test is not None:
            return in_test
        if (last_here := self.r.last(before=v.start, within=8)) is not None and self._parallel_place(
            v, last_here
        ):
            return self._like(v, last_here)
        best: tuple[float, LabelAt] | None = None
        for cost, label in costs:
            if label.label.quantity or label.label.default:
                if label.label.default == "duration" and not self._time_size(v):
                    continue
                if self._set_to(label) and not self._set_temperature(v):
                    continue
                if label.label.default == "current" and label.label.weak and not self._motor_runs(label, v):
                    continue
                if self._vacuum_on(v, label) or self._pulled_to(v, label):
                    continue
                if cost <= self._limit(label, v):
                    best = (cost, label)
                    break
        framed = self._framed_volts(v, best)
        if framed is not None:
            return framed
        drawn = self._drawn(v, costs, best)
        best = drawn or best
        if best is not None and self._takes_amps(v, best[1]):
            return self._assume(v, "current", None, "component")
        component = self._bare_component(v, zone)
        point = self._bare_point(v, zone)
        last = self.r.last(before=v.start, within=60)
        if v.clock and 100 <= v.value < 700 and self._setting(v) == "pressure" and self._near_control(v):
            return self._assume(v, "pressure", None, "setting")
        if v.clock and (v.numbers[0].form == "clock" or self.words[v.start - 2 : v.start] in CLOCKED):
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
        again = self._second_supply(v, best) or self._farads_go_on(v)
        if again is not None:
            return self._like(v, again)
        strong = best is not None and not best[1].label.weak and best[0] <= 6
        if not strong and (self._stated_difference(v) or self._bare_difference(v)):
            return self._difference_link(v)
        weather = self._weather(v) or self._by_place(v)
        if weather is not None:
            return weather
        other_one = self._on_the_other(v)
        if other_one is not None and (best is None or best[1].label.weak):
            return self._like(v, other_one)
        if self._of_nitrogen(v):
            return self._assume(v, "pressure", None, "row")
        test_before = self._test_value_again(v)
        if test_before is not None:
            return self._like(v, test_before)
        if best is not None and self._mains(v, best[1]):
            return self._assume(v, "voltage", None, "point")
        if point is not None and best is not None and self._point_leads(v, best[1]):
            return self._assume(v, point, None, "point")
        if (
            len(group) == 3
            and all(x.bare and x.value >= 180 for x in group)
            and self._alike_mains(group, best)
        ):
            return self._supply_list(v, group)
        probe = self._probe_goes_on(v)
        if probe is not None:
            return self._like(v, probe)
        if self._pulled_down(v):
            return self._assume(v, "vacuum", None, "row")
        live = self._voltage_place(v) if best is None or best[1].label.weak else None
        sided = best is None or best[1].label.weak or best[1].label.point in {"inlet", "outlet"}
        live = live or (self._in_and_out(v) if sided else None)
        if live is not None:
            return live
        live = self._both_sides(v) if best is None or best[1].label.weak else None
        live = live or self._at_the_end(v, best)
        if live is not None:
            return live
        side = self._other_side(v)
        if side is not None and (best is None or best[1].label.weak):
            return self._like(v, side)
        if self._amps_behind_volts(v) and (best is None or best[1].label.weak):
            return self._assume(v, "current", None, "list")
        if self._at_temperature(v, last):
            link = self._assume(v, "temperature", None, "condition")
            if link is not None and not self._tested_at(v):
                link.reasons.append(
                    f"{self.r.narration.heard(v.start, v.end)!r} was said without its degrees"
                )
            return link
        if v.below or v.above or self._signed(v, best):
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
        if getting and weak and mains(v.value):
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
        if self._motor_talk(v):
            return self._assume(v, "current", None, "row")
        if self._winding_talk(v):
            return self._assume(v, "resistance", None, "row")
        if self._microns_ahead(v):
            return self._assume(v, "vacuum", None, "row")
        tested = self.r.mode_at(v.start) in {"vacuum", "pressure_test"}
        row = self._amps_at(v) or (None if tested else self._supply_list(v, group))
        if row is None and not tested and last is None and self._supply_compared(v):
            row = self._assume(v, "voltage", None, "row")
        return row or self._carry(v, zone, last)

    def _in_test(self, v: Value, costs: list[tuple[float, LabelAt]], zone: Zone) -> Link | None:
        """Read a bare number of a test under way: its value, how warm it was, or its minutes."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None or v.value <= 0 or v.range or v.change or v.marking:
            return None
        if any(
            not x.label.weak and x.label.mode is None and (x.label.quantity or x.label.default) and cost <= 4
            for cost, x in costs
        ):
            return None
        component = self._bare_component(v, zone)
        if component is not None and component[1] <= 2:
            return None
        return self._test_level(v, stretch)

    def _mains(self, v: Value, label: LabelAt) -> bool:
        """Tell whether "line" is the supply and no pipe: "line's two oh six" is as no suction line can be."""
        if v.value < 105 or self.words[label.start] != "line" or label.label.default != "temperature":
            return False
        return usual("voltage", None, "line", v.value, "V")

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

    def _beside_test(self, v: Value) -> Link | None:
        """Read how warm it was during a test and its bare minutes, also where they follow a list."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None or v.value <= 0 or v.marking:
            return None
        again = self._again(v) if self.words[v.end : v.end + 1] == ["still"] else None
        if again is not None and again.start >= stretch.start:
            return self._like(v, again)
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
            and self.words[v.end + 1 : v.end + 2] not in ([","], ["."], ["there"], ["here"])
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
            (t for t in reversed(levels[-5:]) if low <= v.value / (t.reading.value or 1) <= high), None
        )
        system = self.r.system.pressure
        if levels:
            if earlier is None or (earlier.reading.unit == "micron" and v.value < 60):
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
        for i in range(v.start - 1, max(self.first, v.start - 14) - 1, -1):
            w = self.words[i]
            if w in {",", ".", ";", "?", "!"} or i in times or i in valued:
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
        if last is None or last.reading.quantity != "capacitance" or number is None or not number.places:
            return None
        between = self.words[last.end : v.start]
        if {".", "amps", "drawing", "pulling", "draws", "pulls", "volts"} & set(between):
            return None
        value = last.reading.value or 0
        return last if value and 0.6 <= v.value / value <= 1.3 else None

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

    def _weather(self, v: Value) -> Link | None:
        """Read "it's ninety one out" as the temperature outside."""
        if self.words[v.end : v.end + 1] != ["out"] or not self.r.system.fits_temperature(v.value):
            return None
        lead = self.words[max(self.first, v.start - 3) : v.start]
        after = self.words[v.end + 1 : v.end + 2]
        if not {"it", "it's"} & set(lead) or after not in (
            ["."], [","], ["and"], ["today"], ["there"], ["here"], ["right"], ["now"], ["so"], ["but"],
        ):  # fmt: skip
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "ambient"
        return link

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

    def _pulled_down(self, v: Value) -> bool:
        """Tell whether a number is a vacuum: "pulled that section down to 380", "pump took it to 420"."""
        if self.r.system.pressure != "us" or v.value < 150 or v.word is not None or v.clock:
            return False
        front = self.words[max(self.first, v.start - 9) : v.start]
        if front[-1:] != ["to"] or {"psi", "pounds", "nitrogen", "ohms", "volts"} & set(front):
            return False
        pulled = {"pulled", "pull", "pulling", "sucked"} & set(front) and front[-2:-1] == ["down"]
        return bool(pulled) or bool({"pump"} & set(front) and {"took", "got", "brought", "ran"} & set(front))

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

    def _set_temperature(self, v: Value) -> bool:
        mode = self.r.mode_at(v.start)
        last = self.r.last(before=v.start, within=25)
        if last is not None and last.reading.quantity not in {"temperature", "duration"}:
            return False
        if v.value > 85 or {"defrost", "timer", "minutes", "psi"} & set(
            self.words[max(0, v.start - 30) : v.start]
        ):
            return False
        return self.r.system.fits_temperature(v.value) and mode not in {"vacuum", "pressure_test", "defrost"}

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

    def _microns_ahead(self, v: Value) -> bool:
        """Tell whether the microns come with a later value of the row: "down to 600, then to 310 microns"."""
        if self.words[v.start - 1 : v.start] not in (["to"], ["at"]) or v.value < 50:
            return False
        return any(
            w.word == "micron" and v.end < w.start and 0.02 <= w.value / v.value <= 50 for w in self.values
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
        allowed = sides | {
            ",",
            "and",
            "the",
            "on",
            "is",
            "'s",
            "at",
            "was",
            "one",
            "side",
            "but",
            "reads",
            "had",
        }
        return last if between <= allowed and self._alike_said(last, v) else None

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
        if quantity == "pressure" and "temperature" in label.label.only:
            heading = {"temps", "temperatures"} & set(self.words[max(0, v.start - 45) : v.start])
            here = [t for t in self.r.found.readings[-2:] if v.start - t.end <= 30]
            if heading and here and all(t.reading.quantity == "temperature" for t in here):
                return "temperature"
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
        if minus and fits_ and best is None:
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
        if v.clock or self.words[v.end : v.end + 1] in (["past"], ["to"], ["till"], ["o'clock"]):
            return False  # "at ten past nine"
        reading = last.reading
        if reading.quantity == "resistance":
            return reading.component in {"temperature sensor", "sensor", None} and (reading.value or 0) >= 500
        tested = self.r.mode_at(v.start) == "pressure_test" and reading.quantity == "pressure"
        warm = (reading.value or 0) > v.value or self._tested_at(v)
        return tested and warm and not self._kind(v)

    def _tested_at(self, v: Value) -> bool:
        """Tell whether the temperature of a test or of a sensor was said with its degrees shortly before."""
        before = self.r.last("temperature", before=v.start, within=400)
        near = (
            before is not None
            and before.reading.value is not None
            and abs(before.reading.value - v.value) <= 25
        )
        return near or self.r.last("resistance", before=v.start, within=4) is not None

    def _parallel_place(self, v: Value, last: Taken) -> bool:
        """Tell whether a place follows this value as one followed the last.

        As in "12 at the evap, 22 at the compressor".
        """
        if last.sentence != self.number or last.reading.quantity in ELECTRICAL or not last.label_here:
            return False
        if self.words[last.end : last.end + 1] != ["at"] or self.words[v.end : v.end + 1] != ["at"]:
            return False
        return not any(last.end <= x.start and x.end <= v.start and not x.label.weak for x in self.labels)

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
