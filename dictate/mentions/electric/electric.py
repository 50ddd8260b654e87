"""Volts, amps or ohms by the part, the legs, the windings and the talk."""

from __future__ import annotations

from dictate.mentions.electric.grounds import Grounds
from dictate.mentions.quantities import FILLERS
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, LINKING, PREPOSITIONS, WORK, Link, Taken, Zone, mains
from dictate.mentions.word_lists import word_list


class Electric(Grounds):
    """Volts, amps or ohms by the part, the legs, the windings and the talk."""

    def _live(self, v: Value) -> bool:
        near = set(self.words[max(self.first, v.start - 8) : v.start])
        return bool({"getting", "gets", "volts", "voltage", "ohms", "ohm", "across"} & near)

    def _between_legs(self, v: Value) -> str:
        """Tell volts from ohms between two legs or terminals; amps are of one leg, never of two."""
        if v.value >= 90 and mains(v.value):
            last = self.r.last("resistance", before=v.start, within=14)
            return "resistance" if last is not None and last.unlike_mains() else "voltage"
        chosen = self._electric_talk(v, "voltage")
        if chosen != "current":
            row = self.r.last(before=v.start, within=14)
            if chosen == "voltage" and 0 < v.value < 18 and (row is None or row.reading.quantity != chosen):
                return "resistance"
            return chosen
        row = self.r.last("voltage", before=v.start, within=14)
        alike = row is not None and (row.reading.value or 0) < 10 * v.value
        if alike and row is not None and row.reading.point and row.reading.point.startswith("L"):
            return "voltage"
        return "resistance" if 0 < v.value < 90 else "voltage"

    def _electric_talk(self, v: Value, default: str) -> str:
        cut = word_list("readings_cut_off") & set(self.words[max(self.first, v.start - 8) : v.start])
        if v.value == 0 and cut:
            return "voltage"
        last = self.r.last(before=v.start, within=40)
        mode = self.r.mode_at(v.start)
        if mode == "winding" and v.value < 100 and (last is None or self.r.mode_start(v.start) >= last.end):
            return "resistance"
        recent = [t for t in self.r.found.readings[-3:] if t.sentence >= self.number - 1]
        chosen = last.reading.quantity if last is not None else None
        fitting = chosen in {"voltage", "current"} or (chosen == "resistance" and v.value < 200)
        if last is not None and chosen is not None and fitting and recent:
            supply = last.reading.value is not None and last.reading.value > 90 and not last.reading.derived
            return "current" if chosen == "voltage" and v.value < 60 and supply else chosen
        if mode == "winding" and v.value < 100:
            return "resistance"
        if default == "current" and v.value >= 100:
            return "voltage"
        return default

    def _bare_point(self, v: Value, zone: Zone) -> str | None:
        """Return the quantity that an electrical point beside a bare number implies."""
        candidates = [
            p
            for p in self.points
            if zone.post[0] <= p.start and p.end <= zone.post[1] and p.start - v.end <= 3
        ]
        candidates += [p for p in reversed(self.points) if zone.pre[0] <= p.start and p.end <= zone.pre[1]]
        for p in candidates:
            gap = self.words[p.end : v.start] if p.end <= v.start else self.words[v.end : p.start]
            if len(gap) > 8 or WORK & set(gap):
                continue
            if p.kind == "ground" and p.name.startswith("L") and v.value >= 100:
                return self._electric_talk(v, "voltage")
            if p.kind == "winding" and mains(v.value) and v.value >= 95 and self._live(v):
                return "voltage"
            if p.kind == "winding" or p.kind == "ground":
                return "resistance"
            if p.kind == "legs":
                return self._between_legs(v)
            if p.name in {"input", "output"}:
                near = self.r.last(before=v.start, within=12)
                same = near is not None and near.reading.quantity in {"voltage", "current"}
                if same and near is not None and 0.5 <= v.value / (near.reading.value or 1e9) <= 2:
                    return near.reading.quantity
                if v.value >= 20 and mains(v.value):
                    return "voltage"
                continue
            if p.name in {"run", "start"} and p.kind == "point" and "winding" in self.words[p.start : p.end]:
                return "resistance"
            if p.only == frozenset({"resistance"}):
                near = self.r.last("resistance", before=v.start, within=16)
                return "resistance" if near is not None and (p.end <= v.start or v.value < 200) else None
            if p.kind == "leg":
                return "voltage" if self._contact_drop(v) else self._electric_talk(v, "current")
            if p.only == frozenset({"voltage"}):
                if (
                    p.name == "line"
                    and v.value < 90
                    and not {"side", "volts", "voltage"} & set(self.words[p.start : v.start])
                ):
                    return None
                return "voltage" if v.value <= 620 else None
            if p.only == frozenset({"capacitance"}):
                return "capacitance"
            if p.name in {"primary", "secondary"} and v.value <= 600:
                prior = self.r.last(before=v.start, within=14)
                ohms = prior is not None and prior.reading.quantity == "resistance"
                if ohms and prior is not None and prior.reading.point in {"primary", "secondary"}:
                    return "resistance"
                return "voltage"
            if p.name in {"primary", "secondary", "coil"}:
                if p.name != "coil" or self._live(v):
                    return self._electric_talk(v, "voltage")
                wound = [c for c in self._comps(zone) if c.component.bare != "current"]
                if any("voltage" in c.component.measures for c in wound) and mains(v.value):
                    return "voltage"
                return None
        return None

    def _leg_amps(self, v: Value, group: list[Value]) -> bool:
        """Tell whether a row of numbers is the amps of the legs: "legs: 21, 21 and a half, 20.75"."""
        if not 0 < v.value < 95 or v.clock or not all(x.bare for x in group):
            return False
        if self._contact_drop(v):
            return False
        words = self.words
        before = [w for w in words[max(self.first, group[0].start - 4) : group[0].start] if w not in FILLERS]
        while before and before[-1] in {
            ":",
            ",",
            "at",
            "are",
            "were",
            "running",
            "pulling",
            "drawing",
            "pull",
            "draw",
        }:
            before.pop()
        led = before[-1:] in (["legs"], ["phases"])
        after = words[group[-1].end : min(self.last, group[-1].end + 3)]
        behind = len(group) > 1 and after in (["on", "the", "legs"], ["on", "the", "phases"])
        if not (led or behind):
            return False
        other = {"volts", "voltage", "windings", "winding", "ohms", "ohm", "resistance", "megohms"}
        window = words[max(0, group[0].start - 14) : group[0].start]
        mode = self.r.mode_at(v.start)
        return not other & set(window) and mode != "winding" and not other & set(after)

    def _windings_again(self, v: Value, group: list[Value]) -> Link | None:
        """Read three numbers in the order of the windings named before: "cold now: 0.9, 3.8, 4.7"."""
        if len(group) != 3 or not all(x.bare and x.value > 0 for x in group):
            return None
        if any(group[0].start - 12 <= p.start < group[-1].end + 4 for p in self.points):
            return None
        pairs = {"common-run", "common-start", "run-start"}
        named: list[Taken] = []
        for t in reversed(self.r.found.readings):
            if t.start >= group[0].start:
                continue
            if len(named) == 3:
                break
            if t.reading.point in pairs and t.reading.quantity == "resistance":
                named.append(t)
            elif t.start < group[0].start and t.reading.quantity not in {
                "temperature",
                "duration",
                "resistance",
            }:
                return None
        named.reverse()
        if len(named) != 3 or {t.reading.point for t in named} != pairs or v.start - named[0].end > 90:
            return None
        largest = max(group, key=lambda x: x.value)
        rest = sum(x.value for x in group if x is not largest)
        if abs(largest.value - rest) > max(0.5, 0.12 * largest.value):
            return None
        link = self._assume(v, "resistance", None, "row")
        if link is not None:
            before = named[next(i for i, x in enumerate(group) if x is v)]
            link.point, link.component = before.reading.point, before.reading.component
        return link

    def _bare_component(self, v: Value, zone: Zone) -> tuple[str, float] | None:
        """Return the quantity that a component beside a bare number implies, with its cost."""
        for c in self._comps(zone):
            if c.component.bare is None:
                continue
            if c.start >= v.end:
                gap = c.start - v.end
                named = self._named_behind(v.end, v.start)
                if not named and (gap > 3 or self.words[v.end] not in PREPOSITIONS):
                    continue
            else:
                between = self.words[c.end + self._place_words(c.end, v.start) : v.start]
                if c.which is not None and between[:1] and between[0][:1].isdigit():
                    between = between[1:]
                gap = len(between)
                if gap > 8 or WORK & set(between):
                    continue
                if not all(w in COPULAS or w in FILLERS or w in LINKING for w in between):
                    continue
                if {"on", "off", "back"} & set(between) and {"came", "come", "kicked", "cycled", "cut"} & set(
                    between
                ):
                    if not self.r.system.fits_temperature(v.value):
                        continue
                    return "temperature", float(gap)
            newest = self.r.last(before=v.start)
            if (
                newest is not None
                and newest.reading.point == "herm"
                and self.number - newest.sentence <= 1
                and newest.reading.quantity == "capacitance"
                and gap <= 2
                and c.name.endswith("fan motor")
            ):
                return "capacitance", float(gap)
            if (
                c.name in {"receptacle", "panel", "breaker", "disconnect switch", "power cord"}
                and 0 < v.value < 100
            ):
                continue
            quantity = self._by_size(c.component.bare, v, c.name)
            return (quantity, float(gap)) if quantity else None
        return None

    def _by_size(self, quantity: str, v: Value, name: str) -> str | None:
        """Tell a mains voltage from amps by its size; a count of a few is neither."""
        number = v.numbers[0] if v.numbers else None
        if quantity == "voltage" and v.value != 0 and not mains(v.value):
            return quantity if name in {"battery", "alternator"} and 8 <= v.value <= 60 else None
        if quantity == "current" and v.value == 0 and self._no_volts(v):
            return "voltage"
        if quantity == "current":
            last = self.r.last(before=v.start, within=25)
            if (
                v.value >= 100
                and last is not None
                and last.reading.quantity == "resistance"
                and not mains(last.reading.value or 0)
                and not {"getting", "volts", "across"}
                & set(self.words[max(self.first, v.start - 5) : v.start])
            ):
                return "resistance"
            if 100 <= v.value <= 600 and number is not None and number.places == 0:
                return "voltage"
            if number is not None and number.places == 0 and number.form in {"plain"} and v.value > 60:
                return None
            return "current"
        return quantity

    def _no_volts(self, v: Value) -> bool:
        """Tell whether a bare nought on a motor is one of volts: the talk before it was of volts."""
        said = set(self.words[max(self.first, v.start - 10) : v.start])
        if {"amps", "drawing", "draws", "pulling", "pulls", "draw"} & said:
            return False
        last = next((t for t in reversed(self.r.found.readings) if t.start < v.start), None)
        near = last is not None and self.number - last.sentence <= 1 and last.reading.quantity == "voltage"
        return near or bool({"between", "meter", "tester", "voltage", "volts", "power"} & said)
