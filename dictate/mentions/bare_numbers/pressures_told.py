"""Bare pressures told by the pair they stand in, by the other side, or by a recovery that is over.

"Circuit 2, similar. | 35 and | 172", "the low side was ninety-six and the other | two oh five", "stopped when
she sat at | zero". A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.gauge_sides import gauged_sides
from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import ELECTRICAL, Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_AND = (["and"], ["on"])
_SIDES = {"suction": "discharge", "discharge": "suction"}
_FAR = 110  # words within which the pair before was told
_OF_ANOTHER = 12  # words since the volts or amps before it
_GUN = 9  # words behind a number within which what it was shot with stands
_LEAST = 1.4  # the head pressure by the suction pressure, at the least


class PressuresTold(Compared):
    """Tells bare pressures that no label stands beside."""

    def _pressure_told(self, v: Value) -> Link | None:
        """Return the pressure that a bare number is, by its pair, the other side or an empty system."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        return self._pair_again(v) or self._the_other(v) or self._left_empty(v) or self._by_a_strainer(v)

    def _by_an_instrument(self, v: Value) -> Link | None:
        """Return what a number is by the gauge or the gun it was read on, behind a value of another kind."""
        if self.words[v.end : v.end + 1] not in (["on"], ["with"], ["by"]):
            return None
        last = self.r.last(before=v.start, within=_OF_ANOTHER)
        if last is None or last.reading.quantity not in ELECTRICAL | {"pressure"}:
            return None
        gauge = self._shown_on_a_gauge(v) if last.reading.quantity in ELECTRICAL else None
        return gauge or self._by_a_gun(v, last)

    def _shown_on_a_gauge(self, v: Value) -> Link | None:
        """Read "eight point nine amps and | zero on the gauge"."""
        behind = self.words[v.end : v.end + 3]
        if behind[:1] != ["on"] or behind[1:2] not in (["the"], ["its"], ["that"]) or v.clock:
            return None
        if behind[2:] not in (["gauge"], ["gauges"]):
            return None
        if not v.value:
            unit = "bar" if self.r.system.name == "metric" else "psi"
            return Link("pressure", unit, 0.0, unit_said=False, how="row")
        return self._assume(v, "pressure", None, "row")

    def _by_a_gun(self, v: Value, last: Taken) -> Link | None:
        """Read "8.9 amps and hot, | one sixty on the body with the gun": the warmth of a surface."""
        behind = self.words[v.end : v.end + _GUN]
        at = next((k for k, w in enumerate(behind) if w in {"with", "by", "on"} and k < _GUN - 2), None)
        shot = at is not None and bool(word_list("shot_with") & set(behind[at:]))
        on = behind[:1] == ["on"] and bool(word_list("surfaces_shot") & set(behind[1:4]))
        if not shot or v.clock or not (on or behind[:1] in (["with"], ["by"])):
            return None
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            link.component = last.reading.component
        return link

    def _pair_again(self, v: Value) -> Link | None:
        """Read "she's at | 128 and | 350 now" where suction and discharge were told like that before."""
        others = [w for w in self.values if w is not v and w.bare and not w.clock and not w.range]
        after = next((w for w in others if self.words[v.end : w.start] in _AND), None)
        before = next((w for w in others if self.words[w.end : v.start] in _AND), None)
        low, high = (v, after) if after is not None else (before, v)
        if low is None or high is None or not high.value > _LEAST * low.value > 0:
            return None
        if not self._pair_alone(low, high):
            return None
        pair = {x: self._last_side(x, low.start) for x in ("suction", "discharge")}
        one, two = pair["suction"], pair["discharge"]
        if one is None or two is None or not one.reading.value or not two.reading.value:
            return None
        if not 0.5 <= low.value / one.reading.value <= 2 or not 0.6 <= high.value / two.reading.value <= 1.7:
            return None
        mine = one if v is low else two
        link = self._like(v, mine)
        if link is not None:
            link.point, link.how = mine.reading.point, "row"
        return link

    def _pair_alone(self, low: Value, high: Value) -> bool:
        """Tell whether nothing else is named with a pair: "and she's at 128 and 350 now"."""
        begin = low.start
        while begin > self.first and self.words[begin - 1] not in _STOPS and low.start - begin < 7:
            begin -= 1
        lead = {w for w in self.words[begin : low.start] if w not in FILLERS}
        behind = self.words[high.end : high.end + 1]
        closes = not behind or behind[0] in _STOPS or behind[0] in {"now", "and", "today", "with", "after"}
        return lead <= word_list("pressures_told_leads") and closes

    def _last_side(self, point: str, start: int) -> Taken | None:
        for t in reversed(self.r.found.readings):
            if start - t.end > _FAR:
                return None
            own = t.reading.point == point or (point == "discharge" and t.reading.point == "liquid")
            if t.reading.quantity == "pressure" and own:
                return t
        return None

    def _the_other(self, v: Value) -> Link | None:
        """Read "the low side was ninety-six and the other | two oh five" as the other side."""
        lead = [w for w in self.words[max(self.first, v.start - 5) : v.start] if w not in {"was", "is", "at"}]
        while lead and lead[-1] in {"one", "side", "'s"}:
            lead.pop()
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if lead[-2:] != ["the", "other"] or last is None or last.sentence != self.number:
            return None
        point = _SIDES.get(last.reading.point or "")
        if last.reading.quantity != "pressure" or point is None or v.start - last.end > 6:
            return None
        value = last.reading.value or 0.0
        if not (v.value > _LEAST * value if point == "discharge" else value > _LEAST * v.value):
            return None
        link = self._like(v, last)
        if link is not None:
            link.point, link.label, link.how = point, None, "row"
        return link

    def _by_a_strainer(self, v: Value) -> Link | None:
        """Read "57 before the filter, 52 after", "filter before 2.7" as pressures, both ends told before."""
        if v.value <= 0 or v.start < self.first:
            return None
        sided = self.words[v.end : v.end + 1] in (["in"], ["out"])
        if sided and gauged_sides(self.words, self.first, self.last, v.start, v.end):
            tell_outright(self.r.narration, v.start)
            last = self.r.last("pressure", before=v.start, within=6)
            twin = last is not None and self.words[last.end : last.end + 1] in (["in"], ["out"])
            return (
                self._like(v, last) if twin and last is not None else self._assume(v, "pressure", None, "row")
            )
        if sided and (before := self._sides_again(v)) is not None:
            tell_outright(self.r.narration, v.start)
            return self._like(v, before)
        if not (self._end_behind(v) or self._end_in_front(v)):
            return None
        for t in reversed(self.r.found.readings):
            if v.start - t.end > 2 * _FAR:
                break
            if t.reading.quantity != "pressure" or not t.reading.value:
                continue
            told = t.value.quantity is not None or t.sentence == self.number
            row = self.r.narration.lowers
            ends = {*row[t.end : t.end + 3], *row[max(0, t.start - 7) : t.start]}
            ends &= word_list("pressures_told_ends")
            if told and ends and 0.2 <= v.value / t.reading.value <= 5:
                tell_outright(self.r.narration, v.start)
                return self._like(v, t)
        return None

    def _sides_again(self, v: Value) -> Taken | None:
        """Return the pressure in or out of a strainer that was told before: "strainer 30 in, | 28 out"."""
        front = self.words[max(self.first, v.start - 8) : v.start]
        if "air" in front or (
            word_list("across_things").isdisjoint(front)
            and {"clean", "cleaned", "cleaning", "after", "now"}.isdisjoint(front)
        ):
            return None
        row = self.r.narration.lowers
        for t in reversed(self.r.found.readings):
            if v.start - t.end > 2 * _FAR:
                return None
            if row[t.end : t.end + 1] not in (["in"], ["out"]) or not t.reading.value:
                continue
            near = 0.2 <= v.value / t.reading.value <= 5
            return t if t.reading.quantity == "pressure" and near else None
        return None

    def _end_behind(self, v: Value) -> bool:
        """Tell whether an end stands behind a number: "52 after the filter", "2.3 in front"."""
        k = v.end + (self.words[v.end : v.end + 1] in (["in"], ["on"]))
        if not self.words[k : k + 1] or self.words[k] not in word_list("pressures_told_ends"):
            return False
        behind = self.words[k + 1 : min(self.last, k + 5)]
        return not behind or behind[0] in _STOPS | {"and", "it", "of", "the"}

    def _end_in_front(self, v: Value) -> bool:
        """Tell whether an end and nothing else stands in front: "strainer before 2.7, after | 2.5"."""
        i = v.start - 1
        while i > self.first and self.words[i] in {
            "is",
            "was",
            "'s",
            "it",
            "the",
            "strainer",
            "filter",
            "now",
            ":",
        }:
            i -= 1
        if self.words[i] not in word_list("pressures_told_ends"):
            return False
        lead = self.words[i - 1] if i > self.first else "."
        if lead not in _STOPS | {"and", "filter", "strainer", "filters", "in"}:
            return False
        behind = self.words[v.end : v.end + 1]
        return not behind or behind[0] in _STOPS | {"and", "now", "bar", "psi"}

    def _left_empty(self, v: Value) -> Link | None:
        """Read "stopped when she sat at | zero" behind a recovery as the pressure that was left."""
        if v.value != 0 or self.r.mode_at(v.start) != "recovery":
            return None
        lead = self.words[max(self.first, v.start - 6) : v.start]
        if lead[-1:] not in (["at"], ["on"], ["to"], ["hit"], ["reached"], ["read"]):
            return None
        told = not word_list("pressures_told_empty").isdisjoint(lead)
        behind = self.words[v.end : v.end + 1]
        if not told or (behind and behind[0] not in _STOPS | {"and", "so", "then", "before"}):
            return None
        return self._assume(v, "pressure", None, "test")


__all__ = ["PressuresTold"]
