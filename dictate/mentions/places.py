"""Where it was measured: the component, the point on it, which of several.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.labels import ComponentAt, PointAt
from dictate.mentions.rows_of_points import RowsOfPoints
from dictate.mentions.taken import DIFFERENCES, ELECTRICAL, MOTORS, SMALL, SWITCHGEAR, Link, Taken, Zone
from dictate.mentions.temperature_words import place_behind
from dictate.mentions.values import Value
from dictate.mentions.word_lists import word_list


class Places(RowsOfPoints):
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
            if link.point is None and self.r.mode_at(v.start) == "pressure_test":
                last = self.r.last(before=v.start, within=30)
                tested = (
                    last is not None and last.reading.quantity == "pressure" and last.reading.point is None
                )
                link.point = "ambient" if tested and self._room_like(link.amount) else None
        if quantity == "temperature" and link.point is not None and link.label_at is None:
            link.point = place_behind(self.words, v.end) or link.point  # "suction line 34, 70 behind it"
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
        if link.how == "battery":
            link.component = "battery"  # "battery with the motor off was 12.6"
        elif fitting:
            self._take_component(link, fitting, v)
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
                    inside, outside = {"in", "entering"} & set(side), {"out", "leaving"} & set(side)
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
            if link.component in {None, "contactor", "disconnect switch"} and poles and self._contact_drop(v):
                link.derived = link.derived or link.amount > 0
                link.component = link.component or "contactor"
        if v.state == "open" and v.ground:
            self._ground(v, zone, link)
            if (
                link.component in {"overload", "start relay", "relay", "contactor", "transformer"}
                and not fitting
            ):
                link.component = self._motor(v)

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
            after = [x.label.point for x in self.labels if x.start > v.end]
            if "supply" in after:
                link.point = "return"
            elif "condenser air out" in after:
                link.point = "ambient"
        if said[:1] == ["room"] and link.quantity == "temperature":
            cold = link.amount <= (10 if link.unit == "degC" else 50)
            warm = link.amount >= (16 if link.unit == "degC" else 60)
            # "The room's down at four" is a cold room, "the room's 76" is not, whatever was cold before.
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

    def _which_motor(self, v: Value) -> str:
        """Return the motor that plain "motor" means: the last one named."""
        for c in reversed(self.r.components):
            near = c.start < v.start and v.start - c.end <= 120
            if near and c.name != "motor" and (c.name in MOTORS or c.name in word_list("places_motored")):
                return c.name
        return "motor"

    def _cold_component(self, link: Link, chosen: ComponentAt) -> str | None:
        """Return the component of a temperature or a pressure; a place on the circuit needs none."""
        if chosen.name in {"suction line", "liquid line", "discharge line"} and link.point:
            return None
        if link.point in word_list("readings_cold_component_2"):
            keep = word_list("readings_cold_component")
            return chosen.name if chosen.name in keep else None
        return chosen.name

    def _context_component(self, v: Value, zone: Zone, link: Link) -> None:
        quantity = link.quantity
        if quantity not in ELECTRICAL:
            return
        if quantity == "voltage" and self._supply_talk(zone) and not self._pts(zone, quantity):
            return
        if link.point in {"line", "load", "line-load"}:
            link.component = self._switchgear(v)
            return
        if quantity == "resistance" and link.point and ("-" in link.point and link.point[0] in "crsL"):
            link.component = self._motor(v)
            return
        if link.point in {"primary", "secondary"}:
            link.component = "transformer"
            return
        if quantity == "resistance" and v.ground:
            last = self.r.last("resistance", before=v.start, within=60)
            if last is not None and last.reading.component and self.number - last.sentence <= 1:
                link.component = last.reading.component
                return
        wound = link.label is not None and link.label.mode == "winding" and link.label.quantity is None
        if quantity == "resistance" and (wound or link.amount >= 100_000):
            heated = self.r.component_before(v.start, quantity, 40)
            if heated is not None and heated.name in word_list("places_heaters") and link.amount < 100_000:
                link.component, link.which = heated.name, link.which or heated.which
                return
            named = any(c.name in {"compressor", "motor"} for c in self.r.components)
            link.component = self._motor(v, "compressor" if named else None)
            return
        numbered = self._numbered(zone, v)
        if numbered is not None and quantity in numbered.component.measures:
            link.component, link.which = numbered.name, link.which or numbered.which
            return
        if quantity == "resistance" and link.point in {"run", "start"}:
            link.component = self._motor(v)
            return
        c = self._able(v, quantity, link)
        if quantity == "current":
            c = self._drawing(v, c)
            if c is None:
                link.component = self._compressor_talk(v)
                return
        strong = link.label_at is not None and link.label_at.label.quantity == "voltage" and not link.derived
        if quantity == "voltage" and strong and c is not None and c.start < self.first:
            return  # "Voltage 483, 480, 485" is the supply, whatever was talked about before
        if c is None:
            if quantity == "capacitance":
                link.component = "run capacitor"
            return
        link.component = c.name
        link.which = link.which or c.which

    def _able(self, v: Value, quantity: str, link: Link) -> ComponentAt | None:
        """Return the component under talk that can have this value: a coil when a coil is said."""
        c = self.r.component_before(v.start, quantity)
        if quantity not in {"resistance", "voltage"} or c is None:
            return c
        kinds: list[str] = []
        if self._said_alone(v, "valve"):
            kinds = ["valves"]
        elif self._said_alone(v, "coil"):
            kinds = ["coils"]
        elif quantity == "resistance" and v.state == "value" and link.amount >= 1000:
            kinds = ["kilohms", "coils"]
        elif quantity == "resistance" and (
            link.amount < 90 if v.state == "value" else self._grounded_words(v)
        ):
            row = self.r.last("resistance", before=v.start, within=40)
            if row is not None and (row.reading.value or 0) >= 1000 and row.reading.component == c.name:
                return c  # "the other sensor forty one point two": thousands go without saying
            kinds = ["ohms", "coils"]
        elif quantity == "voltage" and 18 <= link.amount <= 30 and c.name in word_list("places_no_control"):
            kinds = ["coils", "control"]  # a control circuit's volts are on no plug of the mains
        if not kinds:
            return c
        able = frozenset().union(*(word_list(f"places_{kind}") for kind in kinds))
        other = self.r.component_before(v.start, quantity, 120, able)
        return other if other is not None else c

    def _grounded_words(self, v: Value) -> bool:
        """Tell whether an open circuit was looked for to ground: a winding, not a sensor."""
        near = (
            self.words[max(self.first, v.start - 5) : v.start] + self.words[v.end : min(self.last, v.end + 4)]
        )
        return bool({"earth", "ground", "shell", "frame", "case", "casing"} & set(near))

    def _said_alone(self, v: Value, word: str) -> bool:
        """Tell whether plain "coil" or "valve" is what a value is of: "coil itself is fine, eleven ohms"."""
        begin = max([self.first, v.start - 9, *(x.end for x in self.values if x.end <= v.start)])
        near = self.words[begin : v.start] + self.words[v.end : min(self.last, v.end + 4)]
        return bool({word, f"{word}'s"} & set(near))

    def _drawing(self, v: Value, c: ComponentAt | None) -> ComponentAt | None:
        """Return what draws a current: no switch does, and no valve coil draws more than two amps."""
        coil = c is not None and c.start < self.first and (c.name.endswith("valve") or "coil" in c.name)
        if c is None or c.name in SWITCHGEAR:
            return None
        if not coil or v.value <= 2:
            return c
        for x in reversed(self.r.components):
            if x.start >= c.start or "current" not in x.component.measures:
                continue
            if v.start - x.end > 250:
                break
            if x.component.bare == "current" and x.name != "motor":
                return x
        return None

    def _compressor_talk(self, v: Value) -> str | None:
        """Return the compressor for amps of a start or of the running machine."""
        near = set(self.words[max(0, v.start - 25) : v.end + 8])
        plates = {"plate", "nameplate", "rated", "tag", "mca", "label"}
        if plates & set(self.words[max(0, v.start - 8) : v.end + 4]):
            return None
        return "compressor" if near & word_list("places_compressor_talk") else None

    def _numbered(self, zone: Zone, v: Value) -> ComponentAt | None:
        """Return the component that only its number tells: "amps on 4 were 18.2" after "compressor 4"."""
        for i in range(max(zone.pre[0], v.start - 6), v.start - 1):
            if self.words[i] not in {"on", "number"}:
                continue
            said = SMALL.get(self.words[i + 1], self.words[i + 1])
            for c in reversed(self.r.components):
                if c.start < v.start and c.which == said and v.start - c.end <= 150:
                    return c
        return None

    def _supply_talk(self, zone: Zone) -> bool:
        near = set(self.words[zone.pre[0] : zone.post[1]])
        return bool({"incoming", "supply", "mains", "service"} & near)

    def _switchgear(self, v: Value) -> str | None:
        end = self._group_of(v)[-1].end
        for c in self.components:
            led = self.words[max(0, c.start - 5) : c.start]
            if 0 <= c.start - end <= 8 and led[-5:] == ["in", "and", "out", "of", "the"]:
                return c.name
        for c in reversed(self.r.components):
            if c.start < v.start and c.name in SWITCHGEAR and "voltage" in c.component.measures:
                return c.name
        return None

    def _motor(self, v: Value, default: str | None = "compressor") -> str | None:
        """Return the motor whose windings are under test: the last one named, a compressor before a fan."""
        last = self.r.last("resistance", before=v.start, within=40)
        going = last is not None and self.number - last.sentence <= 2 and last.reading.component in MOTORS
        near: ComponentAt | None = None
        for c in reversed(self.r.components):
            if c.start >= v.start or c.name not in MOTORS:
                continue
            if going and last is not None and c.start < last.start:
                return last.reading.component  # the windings of one motor go on
            if c.name == "compressor" and v.start - c.end < 90:
                return c.name
            if near is None and v.start - c.end < 30:
                if self._heads(c):
                    return c.name
                near = c
        if going and last is not None:
            return last.reading.component
        return near.name if near is not None else default

    def _heads(self, c: ComponentAt) -> bool:
        """Tell whether a component heads what follows: "Fan motor: ...", "Fan motor by itself, ..."."""
        opens = c.start == 0 or self.words[c.start - 1] in {".", "?", "!", ";", "the", "and", "then", ","}
        read = any(
            t.reading.component == c.name and t.start >= c.start and t.reading.quantity != "resistance"
            for t in self.r.found.readings[-4:]
        )
        after = self.words[c.end : c.end + 1]
        return opens and not read and after in ([":"], ["windings"], ["winding"], ["ohms"], ["next"], [","])

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
