"""Bare numbers told by what they stand for on the gauge: a saturation, or the pressure that it belongs to.

"High side is | 105 saturated", "suction 51, which is | 24", "dew point at | 33 is 10", "evaporating at
2.7 bar, condensing at | 15.4". A gauge shows a pressure and the temperature that goes with it, and speakers
say both in one breath. A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.plausible import fits
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_ENDS = frozenset((".", ",", ";", "?", "!", "and", "so", "on", "at", "now", "but", "with", "which", "for"))
_IS = frozenset(("is", "'s", "was", "=", "gives", "comes"))
_SIDES = {
    "suction": "saturated suction",
    "discharge": "saturated condensing",
    "liquid": "saturated condensing",
}
_SAME = ("saturated suction", "saturated condensing")
_APART = {"over": "superheat", "under": "subcooling"}
_COOL = 25
"""No condenser works so cold where a man stands beside it, in degC: the number is bar."""


class Saturations(Compared):
    """Tells a saturation temperature and a pressure that are said as one."""

    def _saturated(self, v: Value) -> Link | None:
        """Return the temperature or the pressure that a bare number is by the saturation spoken of."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        apart = self._over_or_under(v)
        if apart is not None:
            return apart
        told = self._named_behind_it(v) or self._said_in_degrees(v) or self._asked_for(v) or self._answered(v)
        if told is not None:
            tell_outright(self.r.narration, v.start)
        return told or self._in_bar(v)

    def _over_or_under(self, v: Value) -> Link | None:
        """Read "suction line fifty-five, | twelve over.", "liquid ninety-four, | ten under."."""
        behind = self.words[v.end : v.end + 2]
        quantity = _APART.get(behind[0]) if behind else None
        if quantity is None or behind[1:] not in ([], ["."], [","], [";"], ["!"]) or not 0 <= v.value <= 60:
            return None
        last = self.r.last(before=v.start, within=8)
        if last is None or last.reading.quantity != "temperature" or self.number - last.sentence > 1:
            return None
        if last.reading.point != ("suction" if quantity == "superheat" else "liquid"):
            return None
        return self._assume(v, quantity, None, "row")

    def _named_behind_it(self, v: Value) -> Link | None:
        """Read "high side is | 105 saturated", "gives me | 25 dew"."""
        i = v.end + (self.words[v.end : v.end + 1] in (["degrees"], ["degree"]))
        if self._on_a_chart(v, i):
            link = self._assume(v, "temperature", None, "row")
            if link is not None:
                link.point = self._side_before(v)
            return link
        i += self.words[i : i + 1] in (["at"], ["on"])
        if self.words[i : i + 1] == [] or self.words[i] not in word_list("saturations_behind"):
            return None
        i += 1 + (self.words[i + 1 : i + 2] in (["point"], ["temp"], ["temperature"]))
        if i < self.last and self.words[i] not in _ENDS:
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = self._side_before(v)
        return link

    def _on_a_chart(self, v: Value, i: int) -> bool:
        """Read "suction was twenty pounds, | fifteen below on the chart" as what the chart gives for it."""
        behind = [w for w in self.words[i : min(self.last, i + 6)] if w not in word_list("chart_between")]
        if self.words[i : i + 1] not in (["on"], ["by"], ["off"], ["per"]) or not behind:
            return False
        if behind[0] not in word_list("charts") or not self.r.system.fits_temperature(v.value):
            return False
        last = self.r.last("pressure", before=v.start, within=16)
        if last is None or last.reading.role != "measured" or self.number - last.sentence > 1:
            return False
        return not self._is_pressure_again(v, last)

    def _side_before(self, v: Value) -> str:
        """Return the saturation of the side that was named last, where the value can be one of that side."""
        last = self.r.last("pressure", before=v.start, within=20)
        named = next((x for x in reversed(self.labels) if x.end <= v.start and x.label.point in _SIDES), None)
        point = named.label.point if named is not None else None
        if last is not None and (named is None or last.end > named.end):
            point = last.reading.point
        side = _SIDES.get(point or "", "saturation")
        return side if fits("temperature", side, v.value, self._assumed_degree(v)) else "saturation"

    def _assumed_degree(self, v: Value) -> str:
        return self.r.system.unit_of("temperature", self.r.found, v)

    def _answered(self, v: Value) -> Link | None:
        """Read "dew point at 33 is | 10": the saturation of the pressure in front of it."""
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "pressure" or self.words[last.end : v.start] not in (
            ["is"], ["'s"], ["was"], ["gives"],
        ):  # fmt: skip
            return None
        lead = self.words[max(self.first, last.start - 4) : last.start]
        if not word_list("saturations_behind") & set(lead) and lead[-2:] != ["point", "at"]:
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = "saturation"
        return link

    def _said_in_degrees(self, v: Value) -> Link | None:
        """Read "suction fifty-one, which is | 24," as the temperature of that pressure."""
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.reading.quantity != "pressure" or last.reading.point not in _SIDES:
            return None
        if last.sentence != self.number or last.reading.role != "measured" or v.start - last.end > 5:
            return None
        gap = " ".join(self.words[last.end : v.start]).replace(" 's", "'s")
        if gap not in word_list("saturations_leads"):
            return None
        behind = self.words[v.end : v.end + 1]
        if behind and behind[0] not in {".", ",", ";"}:
            return None
        if not self.r.system.fits_temperature(v.value) or self._is_pressure_again(v, last):
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.point = _SIDES[last.reading.point or ""]
        return link

    def _is_pressure_again(self, v: Value, last: Taken) -> bool:
        """Tell whether the number is the pressure itself in another word ("two bar, that's 30")."""
        value = last.reading.value or 0.0
        return bool(value) and 0.97 <= v.value / value <= 1.03

    def _asked_for(self, v: Value) -> Link | None:
        """Read "dew point at | 33 is 10": the pressure whose saturation is told behind it."""
        lead = self.words[max(self.first, v.start - 3) : v.start]
        if lead[-1:] not in (["at"], ["for"], ["of"]):
            return None
        named = lead[-2:-1] and lead[-2] in word_list("saturations_behind") | {"point"}
        nxt = next((w for w in self.values if w.start >= v.end), None)
        gap = self.words[v.end : nxt.start] if nxt is not None else []
        if not named or nxt is None or len(gap) != 1 or gap[0] not in _IS or nxt.value >= v.value:
            return None
        last = self.r.last("pressure", before=v.start, within=60)
        link = self._like(v, last) if last is not None else self._assume(v, "pressure", None, "row")
        if link is not None and last is not None:
            link.point, link.how = last.reading.point, "row"
        return link

    def _in_bar(self, v: Value) -> Link | None:
        """Read "evaporating at 2.7 bar, condensing at | 15.4": both sides are told in one unit."""
        label = next((x for x in reversed(self.labels) if x.end <= v.start and v.start - x.end <= 1), None)
        if label is None or label.label.point not in _SAME or label.label.default != "temperature":
            return None
        other = self.r.last(before=v.start, within=60)
        for t in reversed(self.r.found.readings[-5:]):
            near = t.reading.quantity in {"pressure", "temperature"} and self.number - t.sentence <= 2
            if near and t.reading.point in {"suction", "discharge", *_SAME}:
                other = t
                break
        if other is None or other.reading.unit != "bar" or not other.reading.value:
            return None
        condensing = label.label.point == "saturated condensing"
        if condensing != (v.value > 1.4 * other.reading.value) or not (
            v.value < _COOL if condensing else v.value > 0
        ):
            return None
        link = self._assume(v, "pressure", None, "row")
        if link is not None:
            link.point = "discharge" if condensing else "suction"
        return link


__all__ = ["Saturations"]
