"""Bare temperatures told by the subject of their clause: a side of a coil, the end of a defrost.

"Compressor 9.8 amps, in is 24, out is | 14", "entering's | 78", "heaters on, terminated at | 58". A link of
the chain of classes that read one sentence; `readings.py` holds its end and its order.
"""

from __future__ import annotations

from dictate.mentions.machine_times import ended_at
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link, mains
from dictate.mentions.word_lists import phrase_at, word_list

_IS = frozenset(("is", "'s", "was", "are", "were"))
_LED = _IS | {
    "at",
    "now",
    "about",
    "still",
    "just",
    "around",
    "only",
    "roughly",
    "like",
    "down",
    "up",
    "to",
    "sitting",
    "reading",
}
_STOPS = frozenset((",", ".", ";", ":", "?", "!", "and", "but"))

_PRESSURE_SIDES = frozenset(("low", "high"))


class SidesTold(Compared):
    """Tells bare temperatures by the side or the event that their clause is about."""

    def _side_is(self, v: Value) -> Link | None:
        """Read "in is 24, out is | 14" as what goes in and comes off, whatever was read before."""
        if not v.bare or v.clock or not self._room_like(v.value):
            return None
        i = v.start - 1
        while i > self.first and self.words[i] in _LED:
            i -= 1
        said = self.words[i]
        sides = word_list("sides_told_in") | word_list("sides_told_out")
        if said not in sides or not _IS & set(self.words[i + 1 : v.start]):
            return None
        before = self.words[i - 1] if i > self.first else "."
        if before not in _STOPS:
            return None
        last = self.r.last(before=v.start, within=24)
        if last is not None and last.reading.quantity in {"voltage", "pressure", "flow", "vacuum"}:
            level = last.reading.value or 0.0
            if level <= 0 or 0.3 <= v.value / level <= 3.3:
                return None
        if last is None and mains(v.value) and v.value > 90:
            return None
        if last is not None and last.reading.quantity == "temperature" and last.sentence == self.number:
            tell_outright(self.r.narration, v.start)
            return self._like(v, last)
        link = self._assume(v, "temperature", None, "row")
        if link is not None:
            inside, outside = word_list("sides_told_in"), word_list("sides_told_out")
            link.point = "inlet" if said in inside else "outlet"
            if self._told_as_well(outside if said in inside else inside, v):
                tell_outright(self.r.narration, v.start)
        return link

    def _other_pressure_side(self, v: Value) -> Link | None:
        """Read "twenty-two pounds on the low, | 128 high": the other side of a pressure told before."""
        side = self.words[v.end] if v.end < self.last else ""
        if side not in _PRESSURE_SIDES or not v.bare or v.clock:
            return None
        behind = self.words[v.end + 1 : min(self.last, v.end + 2)]
        if behind and behind[0] not in _STOPS | {"side"}:
            return None
        last = self.r.last(before=v.start, within=12)
        if last is None or last.reading.quantity != "pressure" or last.sentence != self.number:
            return None
        told = set(self.words[max(self.first, last.start - 5) : v.start])
        return self._assume(v, "pressure", None, "row") if _PRESSURE_SIDES - {side} <= told else None

    def _cycled_at(self, v: Value) -> Link | None:
        """Read "cabinet 44 and dropping, cut out at | 35, came back on at 42" as how warm the box was."""
        if not v.bare or v.clock or v.range or v.marking or self.words[v.start - 1 : v.start] != ["at"]:
            return None
        if not any(phrase_at("cycled_at", self.words, v.start - n) == n for n in (3, 4, 5)):
            return None
        last = self.r.last(before=v.start, within=40)
        if last is None or last.reading.quantity != "temperature" or last.reading.point not in {"box", None}:
            return None
        if last.reading.role not in {"measured", "target"} or last.reading.value is None:
            return None
        here = self.words[self.first : v.start]
        if not self.r.system.fits_temperature(v.value) or not word_list("cycled_not").isdisjoint(here):
            return None
        if abs(v.value - last.reading.value) > (14 if self._metric() else 25):
            return None
        tell_outright(self.r.narration, v.start)
        link = self._like(v, last)
        if link is not None:
            link.point, link.how = "box", "cycled"
        return link

    def _told_as_well(self, other: frozenset[str], v: Value) -> bool:
        """Tell whether a clause beside is about the other side."""
        begin, end = max(self.first, v.start - 14), min(self.last, v.end + 10)
        return any(
            self.words[i] in other
            and self.words[i + 1] in _IS
            and (i == begin or self.words[i - 1] in _STOPS)
            for i in range(begin, end - 1)
        )

    def _defrost_ended(self, v: Value) -> Link | None:
        """Read "heaters on, terminated at | 58" as how warm the coil was when the defrost ended."""
        if not v.bare or v.clock or v.range or self.words[v.start - 1 : v.start] != ["at"]:
            return None
        if not self.r.system.fits_temperature(v.value) or v.value > (30 if self._metric() else 95):
            return None
        near = self.words[max(0, v.start - 32) : v.start]
        if not word_list("sides_told_defrost") & set(near) or not ended_at(
            self.words, self.first, v.start - 1
        ):
            return None
        if any(x.end <= v.start and v.start - x.end <= 3 and not x.label.weak for x in self.labels):
            return None
        if any(c.end <= v.start and not c.name.endswith("heater") for c in self.components):
            return None  # "the klixon opened at 52" is the switch's
        link = self._assume(v, "temperature", None, "ended")
        if link is not None and not (v.value <= 15 if self._metric() else v.value >= 36):
            link.reasons.append("no unit was said: it may be minutes")
        return link


__all__ = ["SidesTold"]
