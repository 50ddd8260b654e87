"""What an ambiguous unit means here: pounds of mass or of pressure, inches, degrees, "K", "mike"."""

from __future__ import annotations

from dictate.mentions.bare_numbers.bare_numbers import BareNumbers
from dictate.mentions.gauge_sides import lost_across
from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import ice_weighed
from dictate.mentions.not_values.gauge_runs import gauge_runs
from dictate.mentions.pressure_talk import told_as_pressure
from dictate.mentions.quantities import FILLERS
from dictate.mentions.values import Value
from dictate.mentions.weighings import weighed_numbers
from dictate.mentions.whose.taken import DIFFERENCES, Link, Taken, Zone
from dictate.mentions.word_lists import phrase_at, word_list

_DRAWN_OFF = 26
"""Words within which gas that was drawn off is still under talk."""
_WIRED = 16
"""Words before a value in which a meter is put on wires that were taken off."""
_AMOUNTS = frozenset(("pound", "ounce", "kilogram", "kilo", "gram"))
"""Units of an amount of refrigerant."""
_AMOUNT_WORDS = frozenset(("pound", "pounds", "ounce", "ounces", "kilo", "kilos", "grams"))


_DEEPEST = 29.9
"""Inches of mercury below the air's pressure: there are no more."""


_KILOHMS_ROW = 60
"""Words within which a row of sensors was told in kilohms."""


class UnitMeanings(BareNumbers):
    """What an ambiguous unit means here, by what is spoken of."""

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
        if word == "inch" and abs(v.value) < 6 and self._of_air(v, labels):
            return "Pa"  # inches of water: no gauge but one of air is read in inches beside "static"
        if word == "inch" and -_DEEPEST <= v.value < 0:
            return "inHg"  # no length is below nought
        row = gauge_runs(self.r.narration).readings.get(v.start)
        if word == "inch" and row is not None and row.inches:
            return "inHg"  # "take it all out. Ninety. Ten. Zero. Eight inches."
        if word == "inch":
            depth = (
                first in {"pressure", "vacuum"}
                or mode in {"vacuum", "recovery"}
                or {"vacuum", "mercury", "compound"} & around
            )
            not_size = v.end >= self.last or self.words[v.end] in word_list("readings_meaning")
            not_size = not_size or ("vacuum" in around and self.words[v.end] in {"like", "deep", "maybe"})
            if first == "length" or (v.value < 1 and v.numbers and v.numbers[0].form == "fraction"):
                return "in"  # "quarter inch", "half inch shim": no gauge shows so little
            pulled = mode in {"vacuum", "recovery"} and {"down", "to", "at", "pulled"} & set(
                self.words[max(self.first, v.start - 3) : v.start]
            )
            if not depth and self._emptied_to(v):
                return "inHg"
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
            sensors = frozenset(("temperature sensor",))
            if first is None and self.r.component_before(v.start, "resistance", 30, able=sensors) is not None:
                return "ohm"  # "I pulled the sensor. In ice water it ought to be ten K."
            if first is None and self._meter_on_wires(v):
                return "ohm"  # "two wires off the board, meter on him. 38.6 K"
            if self._kilohms_told(v):
                return "ohm"
            if first in {None, "temperature"} and self._of_a_wire(v):
                return "ohm"  # "the coil itself is 1.2 K"
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
        if word == "gig":
            near = self.words[max(0, v.start - 30) : v.end + 8]
            return "ohm" if any(phrase_at("gigohms_talk", near, i) for i in range(len(near))) else None
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

    def _kilohms_told(self, v: Value) -> bool:
        """Tell whether a row of sensors is read in kilohms: "S1, 16.3 k ohms, 14 degrees. S2, | 1.9 k"."""
        if not word_list("differences_named").isdisjoint(self.words[max(0, v.start - 10) : v.end + 4]):
            return False
        return any(
            t.reading.quantity == "resistance"
            and v.start - t.end <= _KILOHMS_ROW
            and (t.reading.value or 0.0) >= 1000
            and t.value.quantity is not None
            and {"k", "kilohms", "kilohm"} & set(self.words[t.start : t.end])
            for t in self.r.found.readings[-8:]
        )

    def _of_a_wire(self, v: Value) -> bool:
        """Tell whether what stands in front of "1.2 K" is a winding or a probe, of which ohms are read."""
        i = v.start - 1
        while i >= self.first and self.words[i] in word_list("wire_reads"):
            i -= 1
        if i < self.first or self.words[i] not in word_list("wires") or v.value <= 0:
            return False
        led = self.words[max(self.first, i - 4) : i]
        return word_list("wire_not").isdisjoint(led)

    def _emptied_to(self, v: Value) -> bool:
        """Tell whether inches are how far gas was drawn off: "got it all out of her, down to ten inches"."""
        if not 1 <= v.value <= 30 or self.words[v.start - 1 : v.start] not in (
            ["to"],
            ["at"],
            ["into"],
            ["in"],
            ["then"],
        ):
            return False
        behind = self.words[v.end : min(self.last, v.end + 5)]
        if behind[:1] in (["with"], ["on"]) and not {"recovery", "reclaimer", "recoverer"}.isdisjoint(behind):
            return True  # "drew it to ten inches with the recovery machine"
        if behind and behind[0] not in word_list("readings_meaning") and behind[0] not in {"just", "like"}:
            return False
        return self._drawn_off(v)

    def _drawn_off(self, v: Value) -> bool:
        """Tell whether gas was drawn off just before: told so, or an amount of it and "down to" behind it."""
        near = self.words[max(0, v.start - _DRAWN_OFF) : v.start]
        if any(phrase_at("draws_gas_off", near, i) for i in range(len(near))):
            return True
        if near[-2:] != ["down", "to"]:
            return False
        amount = next((w for w in reversed(self.values) if w.end <= v.start - 2), None)
        if amount is None:
            said = next((i for i in range(len(near) - 1, -1, -1) if near[i] in _AMOUNT_WORDS), None)
            return said is not None and word_list("drawn_off_between").issuperset(near[said + 2 : -2])
        if amount.quantity is None or amount.quantity.word not in _AMOUNTS:
            return False
        between = self.words[amount.end : v.start - 2]
        return len(between) <= 6 and word_list("drawn_off_between").issuperset(between)

    def _of_air(self, v: Value, labels: list[LabelAt]) -> bool:
        """Tell whether inches are those of air: "external static 0.8 inches, half an inch without filter"."""
        said = self.words[self.first : self.last]
        named = any(x.label.point == "static" or x.label.unit == "inch_water" for x in labels)
        if not named and "static" not in said and "esp" not in said:
            last = self.r.last("pressure", before=v.start, within=40)
            if last is None or last.reading.unit != "Pa":
                return False
        near = self.words[v.end : min(self.last, v.end + 3)]
        near = near[: next((i for i, w in enumerate(near) if w in {",", ".", ";", "with", "on"}), len(near))]
        sized = self.words[v.start - 1 : v.start] == ["by"]
        return not sized and word_list("inches_of_sizes").isdisjoint(near)

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

    def _meter_on_wires(self, v: Value) -> bool:
        """Tell whether wires were taken off and a meter put on them right before a value."""
        front = set(self.words[max(0, v.start - _WIRED) : v.start])
        wires = front & word_list("wires_taken_off")
        return bool(wires) and "off" in front and not word_list("meters_put_on").isdisjoint(front)

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
        if q.parts or q.word == "sterling" or q.start in weighed_numbers(self.r.narration):
            return "lb"
        if phrase_at("ice_a_day", self.words, v.end) or ice_weighed(self.words, self.first, v.start, v.end):
            return "lb"
        front = self.words[max(self.first, v.start - 7) : v.start]
        if not {"pumped", "pumps", "pumping"}.isdisjoint(front) and front[-1:] == ["to"]:
            return "psi"
        if self._at_a_switch(front):
            return "psi"
        if (
            self.words[v.end : v.end + 1] in (["is"], ["as"], ["for"], ["'s"])
            and "charge" in self.words[v.end : v.end + 5]
        ):
            return "lb"  # "the label says nine and a half pounds is the full charge"
        if {"drop", "across"} <= set(front) or self.words[v.end : v.end + 1] == ["drop"]:
            return "psi"  # "drop across it today is one pound"
        if lost_across(self.words, self.first, self.last, v.start, v.end):
            return "psi"
        side = self.words[v.end : v.end + 1]
        if side in (["suction"], ["head"], ["discharge"]) and not word_list("readings_pounds") & set(front):
            return "psi"  # "eleven pounds suction"
        if self._on_a_gauge(v, front) or told_as_pressure(self.words, self.first, v.start, v.end, self.last):
            return "psi"
        if self._inches_before(v):
            return "psi"
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

    def _inches_before(self, v: Value) -> bool:
        """Tell whether the same number was just said in inches: "suction two inches, that's two pounds"."""
        last = self.r.last("pressure", before=v.start, within=9)
        return last is not None and last.reading.unit == "inHg" and last.reading.value == v.value

    def _on_a_gauge(self, v: Value, front: list[str]) -> bool:
        """Tell whether pounds are what a gauge shows: "three pounds standing", "CO2 is 75 pounds"."""
        if v.value == 0 and front[-2:] in (["down", "to"], ["was", "at"]):
            return True  # "got 17 ounces out, down to zero pounds": nobody moves none
        if not word_list("readings_pounds").isdisjoint(front):
            return False
        behind = self.words[v.end : min(self.last, v.end + 5)]
        if phrase_at("gauge_behind", behind, 2 * (behind[:2] in (["or", "so"], ["or", "thereabouts"]))):
            return True
        lead = self.words[max(self.first, v.start - 9) : v.start]
        cut = max((i for i, w in enumerate(lead) if w in {",", ";", "."}), default=-1)
        if self._sits_at(v, lead[cut + 1 :]):
            return True
        if not word_list("gauge_before").isdisjoint(lead[cut + 1 :]):
            return True
        return v.value == 0 and lead[-1:] in (["to"], ["until"]) and self._drawn_off(v)

    def _sits_at(self, v: Value, clause: list[str]) -> bool:
        """Tell whether pounds are where it runs: "now it's 41 pounds, the line is 26 degrees"."""
        said = [w for w in clause if w not in FILLERS]
        if not said or not word_list("sits_at").issuperset(said) or v.value < 1:
            return False
        behind = self.words[v.end : min(self.last, v.end + 14)]
        if behind[:1] and behind[0] not in {",", "and", ".", ";", "now", "with"}:
            return False
        if not word_list("sits_beside").isdisjoint(behind):
            return True
        last = self.r.last("pressure", before=v.start, within=60)
        level = last.reading.value if last is not None and last.reading.unit == "psi" else None
        return bool(level) and "now" in said and 0.4 <= v.value / (level or 1.0) <= 2.5

    def _at_a_switch(self, front: list[str]) -> bool:
        """Tell whether pounds are where a pressure control acts: "the cut-in at fifteen, out at five"."""
        row = front
        while row[-1:] and row[-1] in {
            "at",
            "to",
            "is",
            "was",
            "of",
            "about",
            "the",
            "'s",
            "set",
            "around",
            "now",
        }:
            row = row[:-1]
        if row[-1:] and row[-1] in {"cut-in", "cut-out", "cutin", "cutout", "cutoff", "cut-off"}:
            return True
        if row[-1:] not in (["in"], ["out"], ["off"]):
            return False
        last = self.r.last(before=self.last, within=40) if row[-2:-1] == ["and"] else None
        return row[-2:-1] in (["cut"], ["cuts"], ["cutting"], ["-"]) or (
            last is not None and last.reading.quantity == "pressure" and last.reading.role == "target"
        )

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
