"""What a bare number on an electrical part is: volts, amps or ohms by its place, its size and the talk.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

import re

from dictate.mentions.markings import Markings
from dictate.mentions.quantities import FILLERS
from dictate.mentions.taken import (
    COPULAS,
    LINKING,
    NOMINAL_VOLTS,
    PREPOSITIONS,
    SWITCHGEAR,
    WORK,
    Link,
    Taken,
    Zone,
    mains,
)
from dictate.mentions.values import Value
from dictate.mentions.word_lists import phrase_at, word_list

LINE_TO_LOAD = re.compile(r"\bl ?([123]) to t ?\1\b|\bline to load\b")
"""The two ends of one pole: what is read between them is lost across it."""


GROUNDED = re.compile(
    rf"\b(?:to|and) (?:(?:the|its|their|any|a|bare|outer|motor|compressor) )*"
    rf"(?:{'|'.join(map(re.escape, sorted(word_list('values_ground'))))}) "
    r"|\b(?:shorted|short) to ground "
)
"""Words that a meter's other lead was on the shell."""


class Electric(Markings):
    """What a bare number on an electrical part is.

    Volts, amps or ohms by its place, its size and the talk.
    """

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

    def _to_ground(self, v: Value) -> bool:
        """Tell whether a value was read to the shell: the words beside it say so, or those of its row.

        As in "T1 to the shell I get 2.2", "point eight to the case", and "one and two to the shell clear,
        terminal three twelve K".
        """
        before = [x for x in self.values if x.end <= v.start and x.end > self.first]
        begin = max([self.first, v.start - 9, *(x.end for x in before)])
        lead = self.words[begin : v.start]
        said = [*GROUNDED.finditer(" ".join(lead) + " ")]
        if said and said[0].start() == 0 and before and before[-1].end == begin:
            said = said[1:]  # "7 megohms to ground, minimum is 5": said of the value before
        if said:  # "to ground it's open, then the windings forty ohms"
            since = " ".join(lead)[said[-1].end() - 1 :].split()
            return not {"then", "winding", "windings", "leg", "legs"} & set(since)
        if GROUNDED.match(" ".join(self.words[v.end : min(self.last, v.end + 5)]) + " "):
            return True
        if not before or not before[-1].ground or not word_list("places_pins") & set(lead):
            return False
        return "to" not in lead

    def _ohms_to_ground(self, v: Value) -> bool:
        """Tell whether a bare number to the shell is ohms, as ohms were spoken of: "0.8 to the case"."""
        if not v.bare or v.clock or v.value > 90 or not self._to_ground(v):
            return False
        last = self.r.last(before=v.start, within=40)
        ohms = last is not None and last.reading.quantity == "resistance" and self.number - last.sentence <= 1
        near = self.words[max(self.first, v.start - 12) : min(self.last, v.end + 12)]
        if {"volts", "volt", "voltage", "voltmeter", "dead", "amps"} & set(near):
            return False
        behind = set(self.words[v.end : min(self.last, v.end + 8)])
        if (
            v.value.is_integer()
            and v.value <= 6
            and ({"clear", "open", "nothing", "ol"} & behind or v.numbers[0].start == self.first)
        ):
            return False  # "terminals one and two to the shell both clear": which ones
        return ohms or "grounded" in near

    def _contact_drop(self, v: Value) -> bool:
        """Tell whether a few volts lost across closed contacts are read: "across the contacts, 0.4 on A"."""
        if not 0 <= v.value < 60 or (v.value >= 30 and v.quantity is None and not self._row_of_drops(v)):
            return False
        begin = v.start
        talk = word_list("electric_contact_talk")
        while begin > 0 and v.start - begin < 45 and self.words[begin - 1] not in {"amps", "amp", "legs"}:
            begin -= 1
        if v.bare and v.value > 2:
            begin = max(begin, self._sentence_of_a_load(v))
        said = self.words[begin : v.start] + self.words[v.end : v.end + 1]
        near = " ".join(self.words[max(begin, v.start - 8) : v.start])
        lost = word_list("electric_drop_talk") & set(said) or "over the pole" in " ".join(said)
        through = LINE_TO_LOAD.search(near) is not None
        return bool((lost and talk & set(said)) or (through and v.value < 60 and v.word in {None, "volt"}))

    def _sentence_of_a_load(self, v: Value) -> int:
        """Return where the last sentence begins that is of something that draws amps, 0 when none does.

        As in "Drop on pole C 0.1. Compressor two, running. A: 16.4".
        """
        for c in reversed(self.r.components):
            if c.end <= v.start and c.component.bare == "current":
                k = c.start
                while k > 0 and c.start - k < 4 and self.words[k - 1] not in {".", "?", "!", ";"}:
                    k -= 1
                return k if k > 0 and self.words[k - 1] in {".", "?", "!", ";"} else 0
        return 0

    def _row_of_drops(self, v: Value) -> bool:
        """Tell whether the value before was volts lost across another pole of the same contactor."""
        last = self.r.last("voltage", before=v.start, within=14)
        return last is not None and last.reading.derived and last.reading.component == "contactor"

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

    def _supply_list(self, v: Value, group: list[Value]) -> Link | None:
        """Take a row of numbers of the size of a supply as volts: "I get 208, 211 and 209"."""
        row = [x for x in group if x.bare and x.value >= 95 and mains(x.value) and not x.clock]
        if len(row) < 2 or len(row) != len(group):
            return None
        return self._assume(v, "voltage", None, "row")

    def _voltage_place(self, v: Value) -> Link | None:
        """Take a number of the size of a supply beside a plug, a terminal or the like as volts.

        As in "one twenty at the plug", "plug's got one nineteen".
        """
        if not v.bare or not mains(v.value) or v.clock:
            return None
        if v.value < 95:
            controls = word_list("readings_controls") & set(self.words[max(0, v.start - 45) : v.end + 10])
            coil = self.words[v.end : v.end + 3] in (
                ["at", "the", "coil"],
                ["on", "the", "coil"],
                ["to", "the", "coil"],
            )
            return self._assume(v, "voltage", None, "row") if coil and controls else None
        places = word_list("readings_voltage_places")
        after = self.words[v.end : min(self.last, v.end + 5)]
        behind = False
        if after[:1] and after[0] in {"sitting", "standing", "there", "waiting", "right", "showing"}:
            after = after[1:]
        if after[:1] and after[0] in {"at", "on", "in", "off", "from", "across", "to", "out"}:
            stop = next((k for k, w in enumerate(after) if w in {",", ".", "and", "but"}), len(after))
            behind = bool(places & set(after[1:stop]))
        before = self.words[max(self.first, v.start - 7) : v.start]
        wired = places - {"heater", "clutch", "solenoid", "leads", "meter"}  # ohms are read on these as well
        named = max((k for k, w in enumerate(before) if w in wired), default=-1)
        given = {"gives", "gave", "me", "i", "i've", "had", "has", "shows", "."}
        led = named >= 0 and all(w in COPULAS or w in FILLERS or w in given for w in before[named + 1 :])
        if not behind and not led:
            return None
        link = self._assume(v, "voltage", None, "row")
        here = set(after if behind else before) & places
        whose = {"its", "their", "it's"} & set(after if behind else before)
        if link is not None and not whose and here & {"plug", "socket", "wall", "outlet", "receptacle"}:
            link.component = "receptacle"
        return link

    def _in_and_out(self, v: Value) -> Link | None:
        """Read "480 in and 212 out on L2" as the volts of both sides."""
        mine = self._way(v)
        if mine is None or not v.bare or v.clock or not (v.value == 0 or v.value >= 18):
            return None
        for w in self.values:
            other = self._way(w)
            if w is v or other is None or other == mine or abs(w.start - v.start) > 10:
                continue
            top = max(v.value, w.value)
            if w.quantity is not None and w.word != "volt":
                continue
            switched = any(c.name in SWITCHGEAR | {"transformer"} for c in self.components)
            last = self.r.last(before=v.start, within=40)
            talk = switched or (last is not None and last.reading.quantity in {"voltage", "current"})
            twins = bool(w.value) and top >= 95 and 0.97 <= v.value / w.value <= 1.03
            talk = talk or twins  # no air is as warm when it comes out as when it goes in
            if not mains(top) or top < (18 if switched else 95) or not (talk or top >= 180):
                continue
            link = self._assume(v, "voltage", None, "row")
            leg = next(
                (
                    p
                    for p in self.points
                    if p.kind == "leg"
                    and (-8 <= p.end - min(v.start, w.start) <= 0 or 0 <= p.start - max(v.end, w.end) <= 4)
                ),
                None,
            )
            fed = next((c for c in reversed(self.r.components) if c.start < v.start), None)
            sides = ("line", "load")
            near = fed is not None and fed.name == "transformer" and v.start - fed.end < 30
            if near or any(c.name == "transformer" for c in self.components):
                sides = ("primary", "secondary")
            if link is not None:
                link.point = leg.name if leg is not None else sides[mine == "out"]
            return link
        return None

    def _way(self, v: Value) -> str | None:
        """Return the side that a value was said of: "in" or "out"."""
        if phrase_at("live_into", self.words, v.end):
            return "in"
        return "out" if phrase_at("live_out_of", self.words, v.end) else None

    def _supply_compared(self, v: Value) -> bool:
        """Tell whether a bare number is a supply set against its rating: "rated 460, I'm reading 408"."""
        if not v.bare or v.value < 95 or not mains(v.value):
            return False
        near = set(self.words[max(self.first, v.start - 5) : v.start])
        if not near & (
            word_list("readings_reads_other") | {"rated", "plate", "nameplate", "i'm", "have", "i've", "says"}
        ):
            return False
        return any(
            w is not v
            and w.bare
            and mains(w.value)
            and 0.8 <= v.value / w.value <= 1.25
            and {v.value, w.value} & NOMINAL_VOLTS
            for w in self.values
        )

    def _fed(self, v: Value) -> bool:
        """Tell whether a number of the size of a supply is said to go to something.

        As in "120 to it", "24 at the coil".
        """
        after = self.words[v.end : v.end + 3]
        if not mains(v.value) or not v.value.is_integer():
            return False
        if after[:2] in (["to", "it"], ["going", "to"], ["across", "it"], ["across", "them"]):
            return True
        if after[:2] not in (["to", "the"], ["at", "the"], ["across", "the"], ["on", "the"], ["at", "its"]):
            return False
        place = next((c for c in self.components if c.start in {v.end + 2, v.end + 3}), None)
        return place is not None and v.value >= 95 and "voltage" in place.component.measures
