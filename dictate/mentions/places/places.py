"""Where it was measured: the component, the point on it, which of several.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt, PointAt
from dictate.mentions.temperatures.words_behind import place_behind, side_behind, weather_out
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import DIFFERENCES, MOTORS, SWITCHGEAR, Link, Taken, Zone
from dictate.mentions.whose.under_talk import UnderTalk
from dictate.mentions.word_lists import word_list

_WOUND = ("common-", "run-", "start-")


class Places(UnderTalk):
    """Where it was measured: the component, the point on it, which of several."""

    def _place(self, v: Value, group: list[Value], zone: Zone, link: Link, previous: Taken | None) -> None:
        quantity = link.quantity
        if link.label is not None:
            link.point = link.label.point
            link.component = link.label.component
            link.derived = link.derived or link.label.derived
            link.rated = link.label.rated
            if quantity in DIFFERENCES and not link.label.derived:
                link.point = None
        if link.carried is not None and link.label is not None and link.carried.reading.point:
            link.point = link.carried.reading.point
        if quantity == "temperature":
            self._air_point(v, link)
        if quantity == "pressure" and link.point in {"saturated condensing", "saturated suction"}:
            link.point = "discharge" if link.point == "saturated condensing" else "suction"
        if quantity == "pressure" and link.unit == "inHg" and link.point == "discharge":
            link.point = "suction"  # only the low side is ever in a vacuum
        self._line_at(v, zone, link)
        # A second label may add the point to a strong one without: "temp ... at the suction line".
        if link.point is None and quantity in {"pressure", "temperature"}:
            for cost, label in self._labels(zone, v):
                if (
                    label.label.point
                    and label.label.fits(quantity)
                    and cost <= 14
                    and label.label.point != "hold"
                ):
                    link.point = label.label.point
                    break
        if (
            quantity == "temperature"
            and link.point is None
            and (link.how in {"unit", "condition"} or not link.explicit)
        ):
            link.point = place_behind(self.words, v.end) or self._place_before(v)
            if link.point is None and weather_out(self.words, v.start, v.end):
                link.point = "ambient"
            if link.point is None and self.r.mode_at(v.start) == "pressure_test":
                last = self.r.last(before=v.start, within=30)
                tested = (
                    last is not None and last.reading.quantity == "pressure" and last.reading.point is None
                )
                link.point = "ambient" if tested and self._room_like(link.amount) else None
        loose = link.label is None or link.label.weak or link.label.default == "pressure"
        if quantity == "temperature" and link.point is not None and (link.label_at is None or loose):
            told = place_behind(self.words, v.end)  # "suction line 34, 70 behind it"
            warm = link.amount >= (15 if link.unit == "degC" else 59)
            if told is not None and (link.label_at is None or (told == "ambient" and warm)):
                link.point = told
        points = self._pts(zone, quantity)
        rowed = self._row_point(v)
        if rowed is not None and quantity in rowed.only:
            points = [rowed]
            link.point, link.which = rowed.name, rowed.which
        elif points:
            self._point(v, link, points)
        comps = self._comps(zone)
        fitting = [c for c in comps if quantity in c.component.measures and not self._switched(c)]
        wound = link.label is not None and link.label.mode == "winding" and link.label.quantity is None
        if wound and fitting and fitting[0].name in {"overload", "contactor", "relay", "start relay"}:
            fitting = []
        if quantity == "resistance" and (link.point or "").startswith(_WOUND):
            # "Took the relay and overload off: common to run 2.2": windings are a motor's
            one_winding = word_list("places_heaters") | word_list("places_valves")
            if fitting and fitting[0].name in one_winding:
                link.point = None  # "heater, end to end, 27 ohms"
            else:
                fitting = [c for c in fitting if c.name in MOTORS or c.name == "motor"]
        if link.how == "battery":
            link.component = "battery"  # "battery with the motor off was 12.6"
        elif (link.how == "ended" and fitting and fitting[0].name.endswith("heater")) or (
            quantity == "voltage" and self._supply_told(v, link, fitting)
        ):
            link.component = None  # "heaters on, terminated at 58", "overload's closed, line voltage 231"
        elif fitting and not self._emptied_last(v, link, fitting[0]):
            self._take_component(link, fitting, v)
            if fitting[0].component.generic or fitting[0].name != fitting[0].component.name:
                link.component = self._of_the_new_one(v, link) or link.component
        elif link.how == "list" and link.carried is not None:
            link.component = link.carried.reading.component
        elif link.component is None:
            self._context_component(v, zone, link)
        if link.component is None and quantity in {"temperature", "pressure"} and link.point is None:
            control = self._control(v, quantity)
            if control is not None:
                link.component = control
        if (
            quantity == "temperature_difference"
            and link.component is None
            and self.words[v.end : v.end + 2] == ["across", "it"]
        ):
            c = self.r.component_before(v.start, "temperature", 40)
            link.component = c.name if c is not None else None
        if link.carried is not None:
            led = self.words[max(self.first, v.start - 2) : v.start]
            led = led[led.index(",") + 1 :] if "," in led else led
            side = led + self.words[v.end : v.end + 1]
            for inner, outer in (
                ("water in", "water out"),
                ("ambient", "condenser air out"),
                ("return", "supply"),
                ("inlet", "outlet"),
            ):
                if link.carried.reading.point in {inner, outer}:
                    inside, outside = {"in", "entering"} & set(side), {"out", "leaving", "off"} & set(side)
                    link.point = inner if inside else outer if outside else link.point
        if link.carried is not None:
            if link.component is None:
                link.component = link.carried.reading.component
            if link.point is None and not points:
                link.point = self._carried_point(link)
            if link.which is None and link.component == link.carried.reading.component:
                link.which = link.carried.reading.which
        elif previous is not None and previous.reading.quantity == quantity and v is not group[0]:
            link.component = link.component or previous.reading.component
            link.point = link.point or previous.reading.point
            link.label = link.label or previous.label
            link.derived = link.derived or previous.reading.derived
        elif quantity == "voltage" and points and not link.derived:
            last = self.r.last("voltage", before=v.start)
            if last is not None and last.sentence == self.number and last.reading.derived:
                link.derived = True
        elif not link.explicit and not fitting and not points:
            self._elliptic(v, zone, link)
            self._same_spot(link)
        legs = {None, "L1", "L2", "L3"}
        if quantity == "resistance" and v.state == "value" and link.point in legs and self._to_ground(v):
            link.point = f"{link.point}-ground" if link.point else "ground"
            link.reasons = [r for r in link.reasons if not r.startswith("the unit does not fit")]
        if (
            quantity == "voltage"
            and link.point in {None, "L1", "L2", "L3", "line-load"}
            and 0 <= link.amount < 60
        ):
            near = set(self.words[max(self.first, v.start - 9) : min(self.last, v.end + 7)])
            poles = link.point is not None or (word_list("electric_pole_talk") & near and "coil" not in near)
            switched = link.component in {None, "contactor", "disconnect switch"}
            other = (
                not fitting and 0 < link.amount < 3 and link.component not in word_list("places_own_contacts")
            )
            other = other or (not fitting and 0 < link.amount < 3 and bool({"pole", "poles"} & near))
            if (switched or other) and poles and self._contact_drop(v):
                link.component = link.component if switched else None  # "fan 1.1. Contact drop 0.1"
                link.derived = link.derived or link.amount > 0
                link.component = link.component or "contactor"
        if v.state == "open" and v.ground:
            self._ground(v, zone, link)
            if (
                link.component in {"overload", "start relay", "relay", "contactor", "transformer"}
                and not fitting
            ):
                link.component = self._motor(v)

    def _supply_told(self, v: Value, link: Link, fitting: list[ComponentAt]) -> bool:
        """Tell whether volts are of the supply or of a place behind, whatever part the clause before was on.

        As in "overload is closed, line voltage 209" and "klixon good, 118 at the plug".
        """
        if not fitting or fitting[0].end > v.start or fitting[0].name in SWITCHGEAR:
            return False
        between = self.words[fitting[0].end : v.start]
        cut = max((i for i, w in enumerate(between) if w in {",", ";", "and", "but"}), default=-1)
        if cut < 0:
            return False
        own = between[cut + 1 :]
        led = set(own) <= word_list("supply_told_words") and bool(own)
        behind = self.words[v.end : v.end + 1] == ["incoming"]
        if led or behind:
            link.point = link.point or "line"
            return True
        told = fitting[0].name in word_list("places_no_volts") and {"closed", "good", "fine", "ok", "okay"}
        placed = self.words[v.end : v.end + 1] in (["at"], ["on"], ["across"])
        return bool(told and told & set(between[:cut]) and placed)

    def _line_at(self, v: Value, zone: Zone, link: Link) -> None:
        """Settle on the line that a place was said of: "suction line at the outlet of the coil, 61"."""
        at = link.label_at
        if (
            link.quantity != "temperature"
            or at is None
            or link.point not in {"coil", "outlet", "inlet", "supply"}
        ):
            return
        for _, label in self._labels(zone, v):
            between = self.words[label.end : at.start]
            if (
                label.label.point in {"suction", "liquid", "discharge"}
                and 0 < len(between) <= 5
                and between[0] in {"at", "by", "near", "leaving", "off", "coming", "right", "out", "just"}
                and not {",", "and"} & set(between)
            ):
                link.point = label.label.point
                return

    def _air_point(self, v: Value, link: Link) -> None:
        """Settle where plain "air" was when its other side is said: "air 81, air coming off 58"."""
        if link.label_at is None:
            return
        said = self.words[link.label_at.start : link.label_at.end]
        if said == ["air"]:
            side = side_behind(self.words, v.end)
            before = self.words[max(0, v.start - 40) : v.start]
            warm_side = max(
                (i for i, w in enumerate(before) if w in word_list("air_sides_condenser")), default=-1
            )
            cold_side = max(
                (i for i, w in enumerate(before) if w in word_list("air_sides_indoor")), default=-1
            )
            if side is not None and warm_side > cold_side:
                link.point = "ambient" if side == "in" else "condenser air out"
                return
            after = [x.label.point for x in self.labels if x.start > v.end]
            if "supply" in after:
                link.point = "return"
            elif "condenser air out" in after:
                link.point = "ambient"
        if said[:1] in (["room"], ["store"]) and link.quantity == "temperature":
            cold = link.amount <= (10 if link.unit == "degC" else 50)
            warm = link.amount >= (16 if link.unit == "degC" else 60)
            # "The room's down at four" is a cold room, "the room's 76" is not, whatever was cold before.
            cold = cold or (not warm and link.point == "box")
            link.point = "box" if cold else "ambient" if warm else link.point
        if link.point in {"outlet", "inlet"} and link.label is not None and link.label.weak:
            last = self.r.last("temperature", before=v.start, within=10)
            if last is not None and last.sentence == self.number:
                outer = {"ambient": "condenser air out", "return": "supply", "water in": "water out"}
                inner = {b: a for a, b in outer.items()}
                pairs = outer if link.point == "outlet" else inner
                link.point = pairs.get(last.reading.point or "", link.point)

    def _switched(self, c: ComponentAt) -> bool:
        """Tell whether a switch was only said to be on or off, or is no thing to measure on."""
        if c.name == "wiring":
            return True
        after = self.words[c.end : c.end + 3]
        return c.name in SWITCHGEAR and bool({"off", "on"} & set(after)) and after[:1] != ["on"]

    def _carried_point(self, link: Link) -> str | None:
        point = link.carried.reading.point if link.carried else None
        if point is not None and link.carried is not None and point[:1] in {"L"} and point[1:2].isdigit():
            return None
        if point in {"line", "load", "common-run", "common-start", "run-start", "run", "start"}:
            return None
        return point

    def _same_spot(self, link: Link) -> None:
        """Take over the place of a temperature for the pressure behind it ("liquid 61 degrees, 198 psi")."""
        last = self.r.last()
        if last is None or last.sentence != self.number or link.point is not None:
            return
        pair = {last.reading.quantity, link.quantity} == {"temperature", "pressure"}
        if pair and last.reading.point in {"suction", "discharge", "liquid"}:
            link.point = last.reading.point

    def _elliptic(self, v: Value, zone: Zone, link: Link) -> None:
        """Carry the place over to a value with its unit but nothing else ("it came down to 36 degrees")."""
        last = self.r.last(before=v.start)
        if last is None or last.reading.quantity != link.quantity or self.number - last.sentence > 1:
            return
        if link.quantity not in {"temperature", "pressure", "superheat", "subcooling"}:
            return
        between = set(self.words[max(zone.pre[0], last.end) : v.start])
        pronoun = word_list("readings_elliptic")
        if self.number == last.sentence or pronoun & between:
            link.point = link.point or last.reading.point
            link.component = link.component or last.reading.component

    def _point(self, v: Value, link: Link, points: list[PointAt]) -> None:
        chosen = points[0]
        if v.state == "open" and v.ground:
            return
        if link.quantity in {"voltage", "current", "resistance", "capacitance", "power"}:
            if chosen.name == "line-load":
                link.derived = link.quantity == "voltage"
            named = [p for p in points if p.kind != "point"]
            sides = [p for p in points if p.kind == "point"]
            if named and sides and sides[0].name in {"line", "load"}:
                chosen = named[0]
            many = len(self._group_of(v)) > 1 and chosen.kind in {"legs", "leg"} and chosen.start >= v.end
            if not many or v is self._group_of(v)[-1]:
                link.point = chosen.name
                link.which = chosen.which
            if chosen.name == "coil":
                link.point = "coil"

    def _take_component(self, link: Link, comps: list[ComponentAt], v: Value) -> None:
        chosen = comps[0]
        post = [c for c in comps if c.start >= v.end]
        pre = [c for c in comps if c.end <= v.start]
        if post and pre and self.words[post[0].start - 1 : post[0].start] == ["of"]:
            chosen = pre[0]
        # "across that thing", "the compressor on the rack": the nearest wins.
        if (
            link.quantity in {"temperature", "pressure"}
            and link.point
            and chosen.component.name in {"suction line", "liquid line", "discharge line"}
        ):
            return
        if link.quantity in {"superheat", "subcooling", "temperature_difference"}:
            return
        if link.quantity in {"temperature", "pressure"}:
            link.component = link.component or self._cold_component(link, chosen)
            link.which = link.which or chosen.which
            return
        link.component = self._which_motor(v) if chosen.name == "motor" else chosen.name
        link.which = link.which or chosen.which

    def _cold_component(self, link: Link, chosen: ComponentAt) -> str | None:
        """Return the component of a temperature or a pressure; a place on the circuit needs none."""
        if chosen.name in {"suction line", "liquid line", "discharge line"} and link.point:
            return None
        if link.point in word_list("readings_cold_component_2"):
            keep = word_list("readings_cold_component")
            return chosen.name if chosen.name in keep else None
        return chosen.name

    def _ground(self, v: Value, zone: Zone, link: Link) -> None:
        """Settle on which points "nothing to ground" was said."""
        named = [
            p
            for p in self.points
            if p.kind == "ground"
            and zone.pre[0] <= p.start < zone.post[1]
            and p.start - v.end < 4
            and v.start - p.end < 4
        ]
        inside = [p for p in self.points if p.kind == "ground" and p.start < v.end and v.start < p.end]
        if inside or named:
            link.point = (inside or named)[0].name
            return
        link.point = "ground"
