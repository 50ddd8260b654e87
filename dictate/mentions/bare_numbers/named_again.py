"""Bare numbers of a place or a line that was told before with its unit, and probes that are tried in ice.

"The back is 1.1 degrees ... pump 2.2 bar, after an hour the back's at | 0.8", "return minus 0.6 inches ...
return now minus | 0.3", "valve gets 9.8 volts ... feedback follows, | 9.7", "sensor 7.2 kilohm, screen says |
91". A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from functools import cache

from dictate.mentions.quantities import FILLERS, tidy
from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import COPULAS, Link, Taken
from dictate.mentions.word_lists import word_list

_ALIKE = (0.3, 3.3)  # how much what is read again at the same place can have changed
_FAR_APART = 15.0  # degrees by which a room can have changed between two readings
_FAR = 250  # words within which kilohms of a probe were told
_OHMS_ALIKE = (0.6, 1.7)  # two probes of one kind in the same ice
_SCREEN = 8  # words behind what the meter showed
_SIGNAL = 24.0  # volts: more than that is no signal to a valve or a drive


@cache
def _led() -> frozenset[str]:
    """Return the words between a name and its value."""
    return (COPULAS | FILLERS | word_list("named_again_led")) - word_list("named_again_places")


class NamedAgain(Compared):
    """Tells a bare number by what the same name was told with, whatever stands between."""

    def _told_by_name(self, v: Value) -> Link | None:
        """Return what a bare number is by the name right before it."""
        if not v.bare or v.clock or v.range or v.marking:
            return None
        return self._in_ice(v) or self._on_the_screen(v) or self._signal_again(v) or self._named_again(v)

    def _name_before(self, start: int, first: int) -> str:
        """Return the noun right before a value, past "is", "now" and the like: "the back's at | 0.8"."""
        i, words = start - 1, self.r.narration.lowers
        led = _led()
        while i >= first and words[i] in led:
            i -= 1
        return words[i] if i >= first else ""

    def _named_again(self, v: Value) -> Link | None:
        """Read "the back's at | 0.8" as that what was read at the back before."""
        name = self._name_before(v.start, self.first)
        if name not in word_list("named_again_places"):
            return None
        for t in reversed(self.r.found.readings):
            if t.start >= v.start or self._name_before(t.start, max(0, t.start - 5)) != name:
                continue
            r, gap = t.reading, self.words[t.end : v.start]
            if r.quantity not in {"temperature", "pressure"} or r.value is None or not gap:
                return None
            if r.quantity == "pressure" and r.unit != "Pa":
                return None  # only air: "suction" and "discharge" are told as pressures and as temperatures
            if (v.value < 0) != (t.value.value < 0):
                return None
            if r.quantity == "temperature" and abs(v.value - r.value) > _FAR_APART:
                return None
            if r.quantity == "pressure" and not self._in(_ALIKE, v.value, t.value.value):
                return None
            link = self._like(v, t)
            if link is not None:
                link.point, link.how = r.point, "row"
                if r.quantity == "pressure" and t.value.value:
                    link.amount = v.value * r.value / t.value.value
                tell_outright(self.r.narration, v.start)
            return link
        return None

    def _in_ice(self, v: Value) -> Link | None:
        """Read "32.4 in the ice" of a probe as kilohms where such a probe was told in kilohms before."""
        here = self.words[self.first : self.last]
        if word_list("named_again_ice").isdisjoint(here) or v.value <= 2:
            return None
        t = self._kilohms_before(v)
        if t is None or {"degree", "degrees"} & set(self.words[v.end : v.end + 2]):
            return None
        link = self._like(v, t)
        if link is None:
            return None
        link.amount = tidy(v.value * 1000)
        link.component, link.point, link.how = "temperature sensor", None, "row"
        heard = self.r.narration.heard(t.start, t.end)
        if not self._metric() and 20 <= v.value <= 45:
            link.reasons.append(f"its thousands are taken over from {heard!r}; it may be a temperature")
        tell_outright(self.r.narration, v.start)
        return link

    def _kilohms_before(self, v: Value) -> Taken | None:
        """Return the kilohms of a probe told before that are of the size of a bare number, as said."""
        for t in reversed(self.r.found.readings):
            if v.start - t.end > _FAR:
                return None
            r, said = t.reading, t.value.value
            if t.start >= v.start or r.quantity != "resistance" or not r.value or not said:
                continue
            thousands = t.value.quantity is not None and 900 <= r.value / said <= 1100
            if thousands and self._in(_OHMS_ALIKE, v.value, said):
                return t
        return None

    def _on_the_screen(self, v: Value) -> Link | None:
        """Read "6.1 kilohm, screen | 7.3" in what the screen shows, never in what the meter showed."""
        name = self._name_before(v.start, self.first)
        if name not in word_list("named_again_screens"):
            return None
        last = self.r.last(before=v.start, within=_SCREEN)
        if last is None or last.sentence != self.number or not last.said_unit:
            return None
        r = last.reading
        quantity = None
        if r.quantity == "resistance" and (r.value or 0) >= 1000 and self.r.system.fits_temperature(v.value):
            quantity = "temperature"
        elif r.quantity == "current" and last.value.value != r.value:  # milliamps of a transducer
            quantity = "pressure"
        if quantity is None:
            return None
        tell_outright(self.r.narration, v.start)
        return self._assume(v, quantity, None, "row")

    def _signal_again(self, v: Value) -> Link | None:
        """Read "feedback follows, | 9.7" in the volts or milliamps that signals were told in."""
        if not word_list("named_again_signals").intersection(
            self.words[max(self.first, v.start - 5) : v.start]
        ):
            return None
        if any(c.end <= v.start and v.start - c.end <= 2 for c in self.components):
            return None
        for t in reversed(self.r.found.readings):
            r = t.reading
            if not t.said_unit or t.start >= v.start or r.value is None:
                continue
            volts = r.quantity == "voltage" and 0 < r.value <= _SIGNAL
            if (volts or (r.quantity == "current" and 0 < r.value <= 0.024)) and v.value <= _SIGNAL:
                tell_outright(self.r.narration, v.start)
                return self._like(v, t)
        return None

    @staticmethod
    def _in(span: tuple[float, float], value: float, other: float) -> bool:
        return bool(other) and span[0] <= value / other <= span[1]


__all__ = ["NamedAgain"]
