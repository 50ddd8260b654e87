"""What a value with its unit is a value of, once its unit is understood."""

from __future__ import annotations

from dictate.mentions.labels import LabelAt
from dictate.mentions.machine_times import measured_length, size_of_a_thing
from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.cues import find_correction_cues
from dictate.mentions.said_units.durations import SaidDurations
from dictate.mentions.values import Value
from dictate.mentions.values.row_states import note_row_state
from dictate.mentions.whose.taken import DIFFERENCES, POSSIBLE, SMALL, Link, Taken, Zone
from dictate.mentions.word_lists import phrase_at, word_list


class SaidUnits(SaidDurations):
    """What a value with its unit is a value of."""

    def _link(self, v: Value, group: list[Value], zone: Zone, previous: Taken | None) -> Link | None:
        if v.state == "open":
            return Link("resistance", "ohm", 0.0, explicit=True)
        if v.quantity is None or v.quantity.start != v.start or v.state == "zero":
            shown = self._by_an_instrument(v)
            if shown is not None:
                v.quantity = None
                return shown  # "8.9 amps and zero on the gauge"
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
            named = {t for c in self.components if c.end <= v.start for t in range(c.start, c.end)}
            here = here or (
                len(lead) <= 3
                and all(
                    i in named or w in SMALL or w in {",", "number", "the", "is", "'s", "one"}
                    for i, w in enumerate(self.words[self.first : v.start], self.first)
                )
            )  # "heater one, 4.6 amps. Heater two, nothing."
        drawn = self.words[max(self.first, v.start - 1) : v.start]
        current = (
            {"amps", "current", "amp"} & set(said)
            or not word_list("values_draws").isdisjoint(drawn)
            or (last is not None and last.reading.quantity == "current" and here)
        )
        if note_row_state(self.r.narration, self.words, v.start, v.end):
            current = self._row_of_amps(v)
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
            and (
                q.word in {"inch_water", "inch"}
                or not self._is_vacuum(labels, mode, amount, unit)
                or q.end in self._pascals_said()
            )
        ):
            link.quantity = "pressure"
        if self._only_told(v, link.quantity):
            return None
        if link.quantity == "duration" and not self._machine_time(v, labels, mode):
            return None
        if link.quantity == "duration" and chosen is None and self._next_round(v):
            link.label = self.r.found.readings[-1].label
            link.point = self.r.found.readings[-1].reading.point
        if link.quantity == "mass" and phrase_at("ice_a_day", self.words, v.end):
            return None  # "makes 400 pounds a day"
        if link.quantity == "length" and size_of_a_thing(self.words, v.end):
            return None
        if link.quantity == "length" and not (chosen is not None and chosen.label.default == "length"):
            if link.unit not in {"in", "mm"} or mode in {"recovery", "vacuum"}:
                return None
            if not measured_length(self.words, self.first, self.last, v.start, v.end):
                return None
        if (
            link.quantity == "concentration"
            and chosen is None
            and unit != "ppm"
            and not self._percent(v, zone)
        ):
            return None
        if link.quantity in {"voltage", "pressure"} and self._drop(v):
            link.derived = True
        if link.quantity == "pressure":
            link.reference = self._reference(v, link, chosen)
            if link.unit == "inHg":
                link.amount = abs(link.amount)  # "minus four inches" is as deep as four
            if link.derived and link.unit != "inHg":
                link.reference = "differential"
        self._wrong_kind(v, link, labels, zone)
        return link

    def _difference_goes_on(self, v: Value, chosen: LabelAt | None) -> str | None:
        """Return the difference that degrees go on with: "subcooling 8. ... I'm at 10.5 degrees"."""
        if chosen is not None or any(
            x.end <= v.start and v.start - x.end <= 6 and x.label.quantity not in DIFFERENCES
            for x in self.labels
        ):
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

    def _percent(self, v: Value, zone: Zone) -> bool:
        """Tell whether a percentage is read off: of a mixture, a level, a valve; no "100 percent sure"."""
        near = set(self.words[zone.pre[0] : zone.post[1]])
        if not word_list("percents_read").isdisjoint(near):
            return True
        lead, behind = self.words[max(self.first, v.start - 6) : v.start], self.words[v.end : v.end + 3]
        if word_list("percents_talk").isdisjoint([*lead, *behind]):
            led = bool(lead) and lead[-1] in word_list("percents_lead")
            if (led or behind[:1] == ["open"]) and not word_list("percents_of_things").isdisjoint(lead):
                return True  # "valve is at 46%", "fans run 100 percent", "water valve 80 percent open"
            last = self.r.last("concentration", before=v.start, within=50)
            again = led or behind[:1] == ["now"] or lead[-1:] == ["now"]
            if again and last is not None and last.reading.unit == "%":
                return True  # "the level was down at 20%, now it shows 35%"
        return any("concentration" in c.component.measures for c in self._comps(zone))

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
        mains = "mains" in self.words[nearest.start : nearest.end]
        if mains and wanted == "voltage" and link.quantity == "pressure":
            return  # "the mains was sitting on 340 kPa": of water
        if link.derived and self.words[v.end : v.end + 1] in (["cooler"], ["warmer"], ["colder"], ["hotter"]):
            return  # "the room got two degrees cooler"
        if wanted == "temperature" and link.quantity in {"resistance", "concentration"}:
            return  # "the product spike gave 32.5 K", "240 ppm in the incoming": of a sensor, of water
        if (
            wanted == "voltage"
            and link.quantity == "pressure"
            and "across" in self.words[nearest.start : nearest.end]
        ):
            return  # "drop across it today is one pound"
        if wanted == "duration" and link.quantity in {"pressure", "mass", "temperature"}:
            return  # "end of freeze eleven pounds suction": of that time
        if 0 <= gap <= 3 and not any(link.quantity in c.component.measures for c in comps):
            said = self.r.narration.heard(nearest.start, nearest.end)
            if not (
                wanted in {"temperature", "pressure"}
                and link.quantity in {"temperature", "pressure", "duration", "concentration"}
            ):
                link.reasons.append(f"the unit does not fit {said!r}")
