"""Volts lost across contacts, read again without their unit: "new contactor in, now it's | 0.1 and | 0.1".

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, Taken
from dictate.mentions.word_lists import word_list

_STOPS = frozenset((".", ",", ";", ":", "?", "!"))
_FAR = 50  # words since the volts that were lost before
_LOST = 30.0  # volts: more than that is no drop across contacts but a supply


class DropsAgain(Compared):
    """Tells the bare volts that are lost across contacts once these were changed."""

    def _lost_again(self, v: Value, group: list[Value]) -> Link | None:
        """Read "now it's | point one and | point one" where as many drops were told before."""
        if not v.bare or v.clock or v.range or not 0 <= v.value <= _LOST or len(group) < 2:
            return None
        first = group[0]
        if not all(w.bare and not w.clock for w in group[:2]) or not any(w.value < 1 for w in group):
            return None
        begin = first.start
        while begin > self.first and self.words[begin - 1] not in _STOPS and first.start - begin < 7:
            begin -= 1
        lead = {w for w in self.words[begin : first.start] if w not in FILLERS}
        if "now" not in lead or not lead <= word_list("pressures_told_leads") | {"and", "so"}:
            return None
        rows = self._drops_before(first.start)
        place = group.index(v)
        if len(rows) < 2 or len(group) < len(rows):
            return None
        one = rows[min(place, len(rows) - 1)]
        link = self._like(v, one)
        if link is not None:
            link.point, link.how = one.reading.point, "row"
        return link

    def _drops_before(self, start: int) -> list[Taken]:
        """Return the row of small volts that was the last to be read, in order; ratings do not count."""
        rows: list[Taken] = []
        for t in reversed(self.r.found.readings):
            r = t.reading
            if t.start >= start or r.role == "rated":
                continue
            small = (
                r.quantity == "voltage" and r.role == "measured" and r.value is not None and r.value < _LOST
            )
            if not small or (not rows and start - t.end > _FAR) or (rows and rows[0].start - t.end > 12):
                break
            if rows and len({r.component, rows[0].reading.component} - {None}) == 2:
                break  # "25.8 on the secondary. Contactor was another story, 0.2 across the first pole"
            rows.insert(0, t)
        return rows


__all__ = ["DropsAgain"]
