"""The ohms of single windings told in a row: "start 6.1, run 2.2, start run 8.3 ohms"."""

from __future__ import annotations

from dictate.mentions.quantities import FILLERS
from dictate.mentions.roles.compared import Compared
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link
from dictate.mentions.word_lists import word_list

_POINTS = {
    **dict.fromkeys(("start", "starting", "aux", "auxiliary"), "common-start"),
    **dict.fromkeys(("run", "running", "main"), "common-run"),
    **dict.fromkeys(("both", "total", "together", "series"), "run-start"),
}
"""A winding alone is read from common; both in series from run to start (common practice)."""


class WindingList(Compared):
    """Tells the ohms of windings that are named without their common end."""

    def _single_winding(self, v: Value) -> Link | None:
        """Take a bare number behind "start" or "run" as ohms where the other one stands beside it."""
        if not v.bare or v.clock or v.value <= 0 or v.range:
            return None
        both = self._both_windings(v)
        if both is not None:
            return both
        mine = self._winding_before(v)
        if mine is None:
            return None
        named = {self._winding_before(w) for w in self.values if w.state == "value"} - {None}
        if not {"common-start", "common-run"} <= named or not self._ohms_near(v):
            return None
        link = self._assume(v, "resistance", None, "row")
        if link is not None:
            link.point = mine
        return link

    def _both_windings(self, v: Value) -> Link | None:
        """Read "start 5.5, run 1.9, 7.4 across both" as the ohms from run to start."""
        behind = self.words[v.end : v.end + 3]
        if not (behind[1:2] == ["both"] or behind[:1] == ["both"] or behind == ["end", "to", "end"]):
            return None
        last = [t.reading for t in self.r.found.readings[-2:] if self.number - t.sentence <= 1]
        if {r.point for r in last} != {"common-start", "common-run"}:
            return None
        if not sum(r.value or 0.0 for r in last) * 0.5 <= v.value <= sum(r.value or 0.0 for r in last) * 2:
            return None
        link = self._assume(v, "resistance", None, "row")
        if link is not None:
            link.point, link.component = "run-start", last[-1].component
        return link

    def _winding_before(self, v: Value) -> str | None:
        lead = [w for w in self.words[max(self.first, v.start - 5) : v.start] if w not in FILLERS]
        while lead and lead[-1] in word_list("winding_links"):
            lead.pop()
        if not lead or lead[-1] not in _POINTS:
            return None
        pair = lead[-2:-1] and (lead[-2] in _POINTS or lead[-2] in {"to", "common", "c", "-"})
        return None if pair else _POINTS[lead[-1]]

    def _ohms_near(self, v: Value) -> bool:
        if any(w.word in {"ohm", "kilohm"} for w in self.values):
            return True
        near = set(self.words[max(0, v.start - 25) : self.last])
        return bool(word_list("winding_talk") & near) and not {"amps", "volts", "microfarads"} & near
