"""Numbers that are printed, set or named and were not measured: capacitor sizes, settings, names of places.

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from itertools import pairwise

from dictate.mentions.labels import ComponentAt, LabelAt
from dictate.mentions.roles.capacitor_sizes import SMALL_SIDE, capacitor_sizes
from dictate.mentions.units_carried import UnitsCarried
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, NOMINAL_VOLTS, Link
from dictate.mentions.word_lists import word_list

_READS = frozenset(
    ("got", "get", "getting", "reads", "read", "reading", "shows", "showed", "show", "measured", "measures",
     "tests", "tested", "meters", "metered", "makes", "made", "gave", "gives", "down", "now")
)  # fmt: skip
_OPPOSITE = {"in": ("out",), "out": ("in",), "on": ("off", "out"), "off": ("on", "in")}


class Markings(UnitsCarried):
    """Numbers that are printed, set or named and were not measured.

    Capacitor sizes, settings, names of places.
    """

    def _dual_voltage(self, v: Value) -> bool:
        """Tell whether a bare number is half of a dual rating, "208-230"."""
        for a, b in pairwise(self.values):
            joined = self.words[a.end : b.start] in ([], ["-"], ["/"], ["slash"], ["dash"])
            plain = a.bare and (b.bare or b.word == "volt")
            if v in (a, b) and joined and plain and {a.value, b.value} <= NOMINAL_VOLTS:
                return 100 <= a.value < b.value
        return False

    def _capacitor_marking(self, v: Value) -> bool:
        """Tell whether a bare number is the marking or the reading of the capacitor under talk."""
        if v.marking and any("capacitor" in c.name and 0 <= c.start - v.end <= 2 for c in self.components):
            return True  # "a new forty-five five dual cap"
        told = self.r.last("capacitance", before=v.start, within=16)
        if told is not None and self.words[v.start - 1] in {"a", "an"} and 1.5 <= v.value <= 120 and v.bare:
            return True  # "I got 3.7 on the fan's. The compressor's is a fifteen"
        c = self._last_part(v)
        group = self._group_of(v)
        if (
            c is not None
            and "capacitor" in c.name
            and v.start - c.end <= 8
            and any(w.word == "volt" and w.value in {330, 370, 440} for w in group)
        ):
            return True
        if c is None or "capacitor" not in c.name or v.start - c.end > 24 or not 0.5 <= v.value <= 1500:
            return False
        case = next((x for x in self.values if x.start >= v.end and x.quantity is not None), None)
        if (
            case is not None
            and case.word == "volt"
            and case.value in {250, 330, 370, 440, 450}
            and case.start - v.end <= 5
            and v.value <= 120
            and "." not in self.words[v.end : case.start]
        ):
            return True  # "45 5 440 volt"
        newer = self.r.last(before=v.start)
        if "/" in self.words[v.start]:
            return True
        before = self.words[v.start - 1] if v.start else ""
        after = self.words[v.end] if v.end < len(self.words) else "."
        article = before in {"a", "an", "dual"} and after in word_list("readings_capacitor_marking_2")
        pair = (
            before in {"over", "plus", "/", "slash"}
            and newer is not None
            and newer.reading.quantity == "capacitance"
        )
        first = after in {"over", "plus", "slash"} and v.value >= 10
        if (pair or first) and self._read_pair(v):
            return False
        on_a = (
            self.words[v.end : v.end + 2] in (["on", "a"], ["on", "an"], ["out", "of"])
            and v.start - c.end <= 8
        )
        if article or pair or first or on_a:
            return True
        number = v.numbers[0] if v.numbers else None
        measured = {"measured", "metered", "tested", "reads"} & set(
            self.words[max(self.first, v.start - 8) : v.start]
        )
        if number is not None and number.places and measured and before == ",":
            return not any(c.end <= x.start < v.start and not x.label.weak for x in self.r.labels)
        if newer is not None and newer.start > c.start and newer.reading.quantity != "capacitance":
            return False
        whose = any(
            c.end < x.start and x.end == v.start for x in self.components
        )  # "cap for the compressor 45"
        return (whose or before in word_list("readings_capacitor_marking")) and (
            (newer is None or newer.start < c.start or newer.reading.quantity == "capacitance")
            and not any(c.end <= x.start < v.start and not x.label.weak for x in self.r.labels)
        )

    def _read_pair(self, v: Value) -> bool:
        """Tell whether both sides of a dual capacitor were read: "it's a 45 over 5, and I got 38.2 over 4.8".

        No capacitor is made for 38.2; usual sizes were read behind a word of reading and the printed pair.
        """
        at = self.values.index(v)
        for a, b in pairwise(self.values[max(0, at - 1) : at + 2]):
            if v not in (a, b) or self.words[a.end : b.start] not in (["over"], ["plus"], ["and"]):
                continue
            if 2 * b.value > a.value:
                continue  # "38.2 over 40": read over what is printed
            if a.value % 2.5 or b.value not in SMALL_SIDE:
                return True
            lead = set(self.words[max(self.first, a.start - 3) : a.start])
            before = self.r.last("capacitance", before=a.start, within=20)
            if before is not None and before.reading.role == "rated" and not _READS.isdisjoint(lead):
                return True
        return False

    def _printed(self, v: Value) -> str | None:
        """Return what a number is that is printed on a capacitor: "size" or "volts"."""
        return capacitor_sizes(self.r.narration).get(v.start)

    def _last_part(self, v: Value) -> ComponentAt | None:
        """Return the part named last; of "the capacitor on the beater" it is the capacitor."""
        place = self.r.span("components", 0, v.start).stop
        if not place:
            return None
        last: ComponentAt = self.r.components[place - 1]
        if place > 1 and "capacitor" in self.r.components[place - 2].name:
            own: ComponentAt = self.r.components[place - 2]
            between = self.words[own.end : last.start]
            if between and between[0] in {"on", "for", "of"} and len(between) <= 2:
                return own
        return last

    def _setting(self, v: Value) -> str | None:
        """Return what a control is set to or acts at: "closes at thirty", "overload set at 3.8"."""
        before = self.words[max(self.first, v.start - 8) : v.start]
        if before[-2:] in (["on", "at"], ["off", "at"], ["in", "at"], ["out", "at"]):
            before = [*before, "set", "at"]
        if before[-1:] and before[-1] in {"stamped", "marked", "labeled", "labelled"}:
            before = [*before, "set", "at"]
        acts = word_list("readings_setting_2")
        if not acts & set(before) or not word_list("readings_setting") & set(before[-2:]):
            return None
        ahead = next((c for c in self.components if c.start >= v.end and c.component.sets), None)
        if ahead is not None and {"in", "out"} & set(before[-2:]) and ahead.start - v.end <= 10:
            return ahead.component.sets
        for c in reversed(self.r.components):
            if c.start >= v.start:
                continue
            if v.start - c.end > 45:
                return None
            if c.component.sets:
                quantity = c.component.sets
                if quantity == "temperature" and not self.r.system.fits_temperature(v.value):
                    return None
                return quantity
        return None

    def _setting_pair(self, v: Value) -> str | None:
        """Return what a control acts at in a list of two: "fifty open, thirty close", "20 in, 5 out"."""
        acts = word_list("markings_acts")
        word = self.words[v.end] if v.end < self.last else ""
        if word not in acts or self.words[v.end + 1 : v.end + 2] == ["circuit"]:
            return None
        control = next(
            (c for c in reversed(self.r.components) if c.end <= v.start and c.component.sets), None
        )
        if control is None or v.start - control.end > 34:
            return None
        pair = word not in {"in", "out", "on", "off"} and any(
            x is not v and abs(x.start - v.start) <= 5 and self.words[x.end] in acts - {word}
            for x in self.values
            if x.end < self.last
        )
        if not pair and v.start - control.end > 16:
            return None
        if not pair and any(
            control.end <= x.start and x.end <= v.start and not x.label.weak for x in self.labels
        ):
            return None
        if word in {"in", "out", "on", "off"}:
            others = [x for x in self.values if x is not v and abs(x.start - v.start) <= 5]
            if not any(self.words[x.end : x.end + 1] in ([o],) for x in others for o in _OPPOSITE[word]):
                return None
        quantity: str | None = control.component.sets
        if quantity == "temperature" and not self.r.system.fits_temperature(v.value):
            return None
        return quantity

    def _near_control(self, v: Value) -> bool:
        """Tell whether a pressure control is named close in front: "high pressure switch opens at 610"."""
        return any(
            c.component.sets == "pressure" and 0 <= v.start - c.end <= 9
            for c in self.r.components[self.r.span("components", v.start - 12, v.start)]
        )

    def _timer_set(self, v: Value) -> bool:
        """Tell whether a bare number is the minutes of a fail-safe: "failsafe's set for thirty"."""
        if (
            not 5 <= v.value <= 120
            or v.value % 5
            or self.words[v.end : v.end + 1] in (["degrees"], ["degree"])
        ):
            return False
        before = self.words[max(self.first, v.start - 6) : v.start]
        while before and before[-1] in word_list("compared_leads") | {"set", "board", "timer"}:
            before.pop()
        tail = " ".join(before[-3:]).replace("-", " ").split()
        return tail[-1:] == ["failsafe"] or tail[-2:] == ["fail", "safe"]

    def _control(self, v: Value, quantity: str) -> str | None:
        """Return the control that acts at a value said with its unit: "it opened at 1.6 bar"."""
        before = self.words[max(self.first, v.start - 5) : v.start]
        if not word_list("readings_control") & set(before):
            return None
        for c in reversed(self.r.components):
            if c.start < v.start and c.component.sets == quantity and v.start - c.end <= 60:
                return c.name
        return None

    def _which_one(self, v: Value) -> bool:
        """Tell whether a small number says on which of several it was.

        As in "pulled amps on three, ...", "9 amps on two".
        """
        number = v.numbers[0] if v.numbers else None
        if (
            number is None
            or number.places
            or number.negative
            or not 1 <= v.value <= 8
            or number.form != "plain"
        ):
            return False
        if self.words[v.start - 1 : v.start] not in (["on"], ["number"], ["from"]):
            return False
        after = self.words[v.end] if v.end < len(self.words) else "."
        electric = any(
            (x.label.quantity or x.label.default) in {"current", "voltage", "resistance"}
            for x in self.labels
            if x.end <= v.start and v.start - x.end <= 4
        ) or any(self._kind(x) in ELECTRICAL and 0 <= v.start - x.end <= 2 for x in self.values)
        return electric and (after in {",", ".", "and", ";", "?"} or after.isalpha())

    def _is_name(self, v: Value, label: LabelAt) -> bool:
        """Tell whether a number names one of several places: "case 12 air was minus 19"."""
        if label.end != v.start or self.words[label.end - 1] not in {"case", "room", "island", "cellar"}:
            return False
        number = v.numbers[0] if v.numbers else None
        if number is None or number.places or not 1 <= v.value <= 40:
            return False
        nxt = v.end
        if self.words[nxt : nxt + 1] in ([","], [":"]) and label.start - self.first <= 1:
            # "Case 22, ice cream, discharge air minus 21": another place is named for the values to come
            if any(x.start == nxt + 1 and x.bare for x in self.values):
                return True  # "Room three, 38"
            if self.words[nxt + 1 : nxt + 2] and self.words[nxt + 1] in word_list("said_before_box"):
                return True  # "Room four, they've been sitting at forty-seven"
            return any(
                x.start > nxt and x.label.fits("temperature") and not x.label.weak for x in self.labels
            )
        return any(x.start == nxt for x in self.labels) or self.words[nxt : nxt + 1] in (
            ["is"],
            ["was"],
            ["had"],
            ["'s"],
        )

    def _over_pair(self, v: Value, group: list[Value]) -> Link | None:
        """Read "118 over 350" as suction over head."""
        for a, b in pairwise(group):
            if v not in (a, b) or self.words[a.end : b.start] != ["over"] or not (a.bare and b.bare):
                continue
            if not 1.3 * a.value < b.value or a.value < 2 or self._capacitor_marking(a):
                continue
            link = self._assume(v, "pressure", None, "over")
            if link is not None:
                link.point = "suction" if v is a else "discharge"
            return link
        return None

    def _air_side(self, v: Value, costs: list[tuple[float, LabelAt]]) -> bool:
        """Tell whether a bare pressure is one of air ("filter drop 0.21"), without its unit."""
        if costs and costs[0][1].label.point in {"return", "supply"} and abs(v.value) < 3 and v.numbers:
            said = self.words[max(0, self.first - 12) : self.last]
            return bool(v.numbers[0].places) and "static" in said  # "static: return minus 0.4, supply 0.3"
        if not costs or (costs[0][1].label.quantity or costs[0][1].label.default) != "pressure":
            return False
        named = costs[0][1]
        if named.label.unit is not None and v.value <= (6 if self.r.system.pressure == "us" else 600):
            return False  # "ESP 0.62": the label tells the unit
        if named.label.point == "static" and -5 < v.value < 5 and self.r.system.pressure == "us":
            return not (v.numbers and v.numbers[0].places and abs(v.value) < 3)  # taken as inches of water
        return bool(
            {"static", "airflow", "cfm", "duct", "filter"} & set(self.words[self.first : self.last])
        ) and (costs[0][1].label.reference == "differential")
