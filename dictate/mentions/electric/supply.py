"""Numbers of the size of a supply: volts of a row, of a place, of both sides."""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.markings import Markings
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, NOMINAL_VOLTS, SWITCHGEAR, Link, mains
from dictate.mentions.word_lists import phrase_at, word_list

_AT_A_PLACE = (["at"], ["on"], ["across"], ["in"], ["to"])


class SupplyVolts(Markings):
    """Numbers of the size of a supply: volts of a row, of a place, of both sides."""

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
        if v.bare and v.value == 0 and not v.clock:
            return self._nought_at(v)
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

    def _nought_at(self, v: Value) -> Link | None:
        """Read "line voltage 229, across the fan terminals | 0" as no volts there."""
        last = self.r.last(before=v.start, within=16)
        if last is None or last.sentence != self.number or last.reading.quantity != "voltage":
            return None
        lead = self.words[max(last.end, v.start - 7) : v.start]
        while lead and lead[-1] in COPULAS:
            lead.pop()
        if (
            not {"across", "at", "on"} & set(lead)
            or lead[-1:] == []
            or lead[-1] not in word_list("values_dead_at")
        ):
            return None
        return self._assume(v, "voltage", None, "row")

    def _vehicle_volts(self, v: Value) -> Link | None:
        """Take the volts of a vehicle at a plug or a part: "no amps, twelve six on the plug"."""
        return self._assume(v, "voltage", None, "row") if v.bare and self._on_a_vehicle(v) else None

    def _on_a_vehicle(self, v: Value) -> bool:
        if (
            not (8 <= v.value <= 15.5 or 22 <= v.value <= 31)
            or self.words[v.end : v.end + 1] not in _AT_A_PLACE
        ):
            return False
        after = self.words[v.end + 1 : min(self.last, v.end + 5)]
        after = after[: next((k for k, w in enumerate(after) if w in {",", ".", "and", "but"}), len(after))]
        if word_list("vehicle_volts_at").isdisjoint(after):
            return False
        return not word_list("vehicle_words").isdisjoint(self.words[max(0, v.start - 300) : v.end])

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
