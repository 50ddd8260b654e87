"""Amps of one of several that are called by number: "One's got | thirty, thirty-one, thirty. Two, | 29".

A link of the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.values.rows import COUNTS
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_ALIKE = 1.3
"""How many times the smallest of the legs of one motor the largest is at most."""
_LIKE_BEFORE = 2.0
"""How many times what another of them drew it may draw."""
_FAR = 200
_LEGS = 3


class OneOfMany(Compared):
    """Tells the amps of machines that are called by their number."""

    def _one_of_many(self, v: Value) -> Link | None:
        """Read three bare numbers behind the number of a machine as amps, as those of another one were."""
        group = self.group_of.get(id(v), [v])
        row = [x for x in group if x.bare and not x.clock and not x.range and x.value > 0]
        if v not in row or len(row) != len(group) or len(row) not in {1, _LEGS}:
            return None
        if max(x.value for x in row) > _ALIKE * min(x.value for x in row) or not self._called(row[0]):
            return None
        if len(row) == 1 and not self._spread_over_legs(row[0]):
            return None
        known = self._drawn_by_others(row[0])
        if known is None or not 1 / _LIKE_BEFORE <= v.value / (known.reading.value or 1.0) <= _LIKE_BEFORE:
            return None
        link = self._assume(v, "current", None, "row")
        if link is not None:
            tell_outright(self.r.narration, v.start)
            link.component = known.reading.component
        return link

    def _called(self, v: Value) -> bool:
        """Tell whether the sentence opens with a number by which one of several is called."""
        lead = self.words[self.first : v.start]
        lead = lead[1:] if lead[:1] == ["number"] else lead
        if not lead or not (lead[0] in COUNTS or lead[0] in {"1", "2", "3", "4", "5", "6"}):
            return False
        return len(lead) > 1 and word_list("one_of_many_draws").issuperset(lead[1:])

    def _spread_over_legs(self, v: Value) -> bool:
        behind = self.words[v.end : v.end + 3]
        return behind[:3] in (["across", "the", "board"], ["all", "the", "way"], ["all", "three", "."]) or (
            behind[:1] in (["on"], ["all"])
            and not {"three", "each", "every", "round", "around"}.isdisjoint(behind)
        )

    def _drawn_by_others(self, v: Value) -> Taken | None:
        """Return amps of another one of them, of a row of legs as these."""
        for t in reversed(self.r.found.readings):
            if v.start - t.end > _FAR:
                return None
            if t.reading.quantity == "current" and t.reading.role == "measured" and t.reading.value:
                return t
        return None


__all__ = ["OneOfMany"]
