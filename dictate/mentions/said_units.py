"""What a value with its unit is a value of, and what an ambiguous unit means here.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.bare_numbers.bare_numbers import BareNumbers
from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import ice_weighed, measured_length, size_of_a_thing, timed_by_event
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.role_cues import find_correction_cues
from dictate.mentions.taken import DIFFERENCES, POSSIBLE, SMALL, Link, Taken, Zone
from dictate.mentions.test_stretches import stretch_at, stretch_words
from dictate.mentions.values import Value
from dictate.mentions.word_lists import phrase_at, word_list


class SaidUnits(BareNumbers):
    """What a value with its unit is a value of, and what an ambiguous unit means here."""

    def _link(self, v: Value, group: list[Value], zone: Zone, previous: Taken | None) -> Link | None:
        if v.state == "open":
            return Link("resistance", "ohm", 0.0, explicit=True)
        if v.state == "zero":
            return self._zero(v, previous)
        corrected = self._corrected_ahead(v) if v.quantity is None else None
        if corrected is not None:
            v.quantity = corrected.quantity
            link = self._with_unit(v, zone, previous)
            if link is not None:
                link.unit_said = False
            return link
        if v.quantity is not None:
            return self._with_unit(v, zone, previous)
        return self._bare(v, group, zone, previous)

    def _corrected_ahead(self, v: Value) -> Value | None:
        """Return the value with its unit that corrects a bare one: "thirty, no, twenty-nine percent"."""
        nxt = next((w for w in self.values if w.start >= v.end), None)
        if nxt is None or nxt.quantity is None or nxt.start - v.end > 5 or not v.bare or v.clock:
            return None
        if nxt.quantity.kind != "reading" or nxt.quantity.parts or not v.value:
            return None
        if not 0.5 <= nxt.value / v.value <= 2 or not self._taken_back(v.end, nxt.start):
            return None
        cues = [c for c in find_correction_cues(self.r.narration) if v.end <= c.start and c.end <= nxt.start]
        known = {t for c in cues for t in range(c.start, c.end)}
        rest = [
            i
            for i in range(v.end, nxt.start)
            if i not in known
            and self.words[i] not in FILLERS
            and self.words[i] not in {",", ".", "-", "it's", "is"}
        ]
        return nxt if not rest else None

    def _zero(self, v: Value, previous: Taken | None) -> Link:
        said = self.words[v.start : v.end]
        last = previous or self.r.last(before=v.start, within=25)
        here = last is not None and last.sentence == self.number
        if last is not None and v.start - last.end <= 9 and last.reading.quantity == "current":
            here = here or not {"volt", "volts", "voltage"} & set(self.words[last.end : v.end + 3])
        if last is not None and self.number - last.sentence == 1:
            lead = [w for w in self.words[self.first : v.start] if w not in {",", "one", "is", "'s"}]
            here = len(lead) == 1 and (lead[0] in word_list("readings_sides") or lead[0] in SMALL)
        drawn = self.words[max(self.first, v.start - 1) : v.start]
        current = (
            {"amps", "current", "amp"} & set(said)
            or not word_list("values_draws").isdisjoint(drawn)
            or (last is not None and last.reading.quantity == "current" and here)
        )
        link = Link("current" if current else "voltage", "A" if current else "V", 0.0, explicit=True)
        link.unit_said = not current or bool({"amps", "current", "amp"} & set(said))
        return link

    def _with_unit(self, v: Value, zone: Zone, previous: Taken | None) -> Link | None:
        q = v.quantity
        assert q is not None
        costs = self._labels(zone, v)
        shared = q.shared and q.word in {"degree", "celsius", "fahrenheit"} and self._goes_on_test(v)
        if shared or self._circuit_letter(v, costs):
            v.quantity = None
            return self._bare(v, [v], zone, None)
        labels = [label for _, label in costs]
        mode = self.r.mode_at(v.start)
        unit = self._meaning(v, labels, mode, zone, previous)
        if unit is None:
            return None
        amount = tidy(v.value * dict(q.means)[unit]) if unit in dict(q.means) else v.value
        possible = POSSIBLE[unit]
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
        going_on = self._difference_goes_on(v, chosen) if unit in {"degF", "degC"} else None
        if going_on is not None:
            quantity = going_on
        off = self.words[max(self.first, v.start - 2) : v.start] == ["off", "by"]
        across = (
            self._across(v) or off or self._stated_difference(v) or self._apart(v)
            if unit in {"degF", "degC", "delta_degC"}
            else False
        )
        if (
            unit in {"degF", "degC"}
            and self.words[v.start - 1 : v.start] in (["down"], ["up"], ["off"])
            and v.end < self.last
            and self.words[v.end] in {"since", "from", ".", ",", "in", "already"}
        ):
            across = chosen is None
        if across and (chosen is None or chosen.label.quantity not in DIFFERENCES):
            chosen, quantity = None, "temperature_difference"
        link = Link(
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
        if self._only_told(v, link.quantity):
            return None
        if link.quantity == "duration" and not self._machine_time(v, labels, mode):
            return None
        if link.quantity == "mass" and phrase_at("ice_a_day", self.words, v.end):
            return None  # "makes 400 pounds a day"
        if link.quantity == "length" and size_of_a_thing(self.words, v.end):
            return None
        if link.quantity == "length" and not (chosen is not None and chosen.label.default == "length"):
            if link.unit not in {"in", "mm"} or mode in {"recovery", "vacuum"}:
                return None
            if not measured_length(self.words, self.first, self.last, v.start, v.end):
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

    def _difference_goes_on(self, v: Value, chosen: LabelAt | None) -> str | None:
        """Return the difference that degrees go on with: "subcooling 8. ... I'm at 10.5 degrees"."""
        if chosen is not None or any(x.end <= v.start and v.start - x.end <= 6 for x in self.labels):
            return None
        last = next((t for t in reversed(self.r.found.readings) if t.reading.quantity != "mass"), None)
        if last is None:
            return None
        # "superheat 28. ... the bulb hung loose, I strapped it up. That brought it to 19 degrees"
        moved = {"brought", "got", "took", "dropped", "came", "comes", "knocked", "pulled", "settled"}
        led = set(self.words[max(self.first, v.start - 5) : v.start])
        far = bool(moved & led and {"it", "that", "to", "at"} & led)
        if self.number - last.sentence > (3 if far else 1) or v.start - last.end > (60 if far else 25):
            return None
        reading = last.reading
        if reading.quantity not in {"superheat", "subcooling"} or not reading.value or v.value > 30:
            return None
        return reading.quantity if 0.4 <= v.value / reading.value <= 2.5 else None

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

    def _across(self, v: Value) -> bool:
        """Tell whether degrees are a difference: "twenty six degrees across it", "5 degrees difference"."""
        after = self.words[v.end : v.end + 2]
        if after[:1] == ["across"] or self._spread_behind(v):
            return True
        before = self.words[max(self.first, v.start - 2) : v.start]
        if before == ["inside", "of"] or before[-1:] == ["within"]:
            return True  # "the two lines are within two degrees"
        return bool(word_list("readings_across") & set(after[:1]))

    def _meaning(
        self, v: Value, labels: list[LabelAt], mode: str | None, zone: Zone, previous: Taken | None
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
            if first == "length" or (v.value < 1 and v.numbers and v.numbers[0].form == "fraction"):
                return "in"  # "quarter inch", "half inch shim": no gauge shows so little
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
            comps = self._comps(zone)
            beside = [c for c in comps if c.end <= v.start and v.start - c.end <= 3]
            if first is None and beside and "resistance" in beside[0].component.measures:
                return "ohm"  # "inlet valve coil 3.9 K"
            if self.r.system.name == "metric" and (
                (last is not None and last.reading.quantity in DIFFERENCES)
                or not {"dollars", "btu", "btus"} & around
            ):
                return "delta_degC"
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
        if phrase_at("ice_a_day", self.words, v.end) or ice_weighed(self.words, self.first, v.start, v.end):
            return "lb"
        front = self.words[max(self.first, v.start - 6) : v.start]
        if "pumped" in front and front[-1:] == ["to"]:
            return "psi"
        side = self.words[v.end : v.end + 1]
        if side in (["in"], ["out"]):
            twin = next((w for w in self.values if v.end < w.start <= v.end + 6), None)
            if twin is not None and [*side, *self.words[twin.end : twin.end + 1]] in (
                ["in", "out"],
                ["out", "in"],
            ):
                return "psi"  # "26 pounds in, 51 out"
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

    def _only_told(self, v: Value, quantity: str) -> bool:
        """Tell whether an amount is none: "not a gram over", "for a minute", "in the last 24 hours"."""
        before = self.words[max(self.first, v.start - 2) : v.start]
        if self.words[v.start] in {"a", "an"} and v.value == 1:
            if before[-1:] and (before[-1] in {"not", "without", "never"} or before[-1].endswith("n't")):
                return True
            return (
                quantity == "duration"
                and v.word in {"minute", "second"}
                and before[-1:] not in (["once"], ["at"])
            )
        return quantity == "duration" and before in (["the", "last"], ["the", "past"], ["the", "previous"])

    def _machine_time(self, v: Value, labels: list[LabelAt], mode: str | None) -> bool:
        """Tell whether a duration is one of the machine or of a test, and not working time."""
        named = [x for x in labels if x.label.default == "duration" or x.label.point == "hold"]
        if self._time_setting(v):
            return True
        if not {"hour", "hours"} & set(self.words[v.start : v.end]) and timed_by_event(
            self.words, self.first, self.last, v.start, v.end
        ):
            return True
        cycling = {"cycles", "cycle", "cycling", "runs", "running"} & set(
            self.words[max(self.first, v.start - 4) : v.start]
        )
        turned = self.words[v.end : v.end + 1] in (["on"], ["off"])
        if cycling and turned and self.words[v.end + 1 : v.end + 2] in ([","], ["and"], ["."], []):
            return True  # "cycles eleven minutes on, six off"
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
        if self._test_time(v):
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

    def _time_setting(self, v: Value) -> bool:
        """Tell whether a time is what a control is set to: "the board was set at sixty minutes"."""
        before = self.words[max(self.first, v.start - 9) : v.start]
        if {"took", "ran", "lasted", "came", "timed"} & set(before):
            return False
        after = self.words[v.end : min(v.end + 3, self.last)]
        after = after[: next((i for i, w in enumerate(after) if w in {".", ",", ";"}), 3)]
        failsafe = {"failsafe", "fail-safe"} & {*before[-4:], *after[:2]} or (
            ["fail", "safe"] in (before[-2:], before[-3:-1], before[-4:-2], after[:2])
        )
        failsafe = failsafe or (["fail", "-", "safe"] in (before[-3:], before[-4:-1], after[:3]))
        if failsafe:
            return True
        setting = (
            before[-2:-1] and before[-2] in word_list("time_sets") and before[-1] in {"at", "for", "to", "on"}
        )
        setting = setting or before[-1:] in (["set"], ["jumper"])
        return bool(setting) and bool(word_list("time_controls") & set(before))

    def _test_time(self, v: Value) -> bool:
        """Tell whether a time lies in a test under way, and beside a value of it."""
        stretch = stretch_at(self.r.tests, v.start)
        if stretch is None:
            return False
        near = set(self.words[max(self.first, v.start - 6) : min(self.last, v.end + 4)])
        if near & stretch_words("worked"):
            return False
        ahead = self.r.labels[self.r.span("labels", v.end, min(self.last, v.end + 5))]
        if any(x.label.mode is None and x.label.point != "hold" and not x.label.weak for x in ahead):
            return False  # "twenty minutes later suction was seventeen"
        return v.word in {"minute", "hour", "second"}

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

    def _percent(self, zone: Zone) -> bool:
        near = set(self.words[zone.pre[0] : zone.post[1]])
        if {"glycol", "humidity", "brix", "propylene", "relative"} & near:
            return True
        return any("concentration" in c.component.measures for c in self._comps(zone))

    def _reference(self, v: Value, link: Link, label: LabelAt | None) -> str | None:
        q = v.quantity
        if link.unit == "inHg":
            return "vacuum_depth"
        if label is not None and label.label.reference:
            return label.label.reference
        said = set(self.words[v.start : min(self.last, v.end + 2)])
        if q is not None and (q.word == "psia" or "absolute" in said or "bara" in said):
            return "absolute"
        return "gauge"

    def _wrong_kind(self, v: Value, link: Link, labels: list[LabelAt], zone: Zone) -> None:
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
