"""Bare numbers that a control was moved from and to, or comes in and goes out at.

"Bumped the cut-out from | four to | six", "set it for in at thirty, out at | twelve". A link of the chain of
classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.bare_numbers.settings import Settings
from dictate.mentions.values import Value
from dictate.mentions.whose.taken import Link
from dictate.mentions.word_lists import phrase_at, word_list

_MOST = 700
_FAR = 90  # words from a pressure to a control that nobody says what it acts on
_WAYS = frozenset(("up", "down", "back", "out", "in", "on"))
_ENDS = (["in", "at"], ["out", "at"], ["on", "at"], ["off", "at"])


class SettingsMoved(Settings):
    """Tells both ends of a change of a control, and the second figure of a pair."""

    def _setting_moved(self, v: Value) -> Link | None:
        """Return a bare number as what a control was moved from or to, or as its other figure."""
        if not v.bare or v.clock or not v.numbers or not 0 <= v.value <= _MOST:
            return None
        return self._moved_from(v) or self._moved_to(v) or self._other_figure(v)

    def _moved_from(self, v: Value) -> Link | None:
        if self.words[v.start - 1 : v.start] != ["from"]:
            return None
        second = next((w for w in self.values if w.start > v.end), None)
        if second is None or not second.bare or not self._leads_to(v.end, second.start):
            return None
        lead = self.words[max(self.first, v.start - 8) : v.start - 1]
        if not any(" ".join(lead[-n:]) in word_list("settings_figures") for n in (1, 2, 3)):
            return None
        kind, sure = self._acts_on(v.start - 1)
        if kind is None or (kind == "temperature" and not self.r.system.fits_temperature(v.value)):
            return None
        link = self._assume(v, kind, None, "moved")
        if link is not None and not sure:
            link.reasons.append("what the control acts on was not said: it is taken as a pressure")
        return link

    def _moved_to(self, v: Value) -> Link | None:
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.how != "moved" or last.sentence != self.number:
            return None
        if not self._leads_to(last.end, v.start):
            return None
        link = self._like(v, last)
        if link is not None:
            link.how = "moved"
            link.reasons += [x for x in last.reading.review if x not in link.reasons]
        return link

    def _other_figure(self, v: Value) -> Link | None:
        """Read "in at thirty, out at | twelve" as the other figure of the same control."""
        last = self.r.found.readings[-1] if self.r.found.readings else None
        if last is None or last.sentence != self.number or v.start - last.end > 4:
            return None
        own, other = self.words[v.start - 2 : v.start], self.words[last.start - 2 : last.start]
        if own not in _ENDS or other not in _ENDS or own == other or not last.value.bare:
            return None
        if last.reading.role != "target" or last.reading.quantity not in {"pressure", "temperature"}:
            return None
        link = self._like(v, last)
        if link is not None:
            link.how = "moved"
        return link

    def _leads_to(self, end: int, start: int) -> bool:
        """Tell whether "to", "up to" or "down to" is all that stands between two numbers."""
        between = self.words[end:start]
        return between == ["to"] or (len(between) == 2 and between[1] == "to" and between[0] in _WAYS)

    def _acts_on(self, at: int) -> tuple[str | None, bool]:
        """Return what the control acts on, and whether that was said."""
        kind = self._kind_of_control(at)
        if kind is not None:
            return kind, True
        words = self.r.narration.lowers
        if any(phrase_at("settings_of_warmth", words, i) for i in range(max(0, at - 2 * _FAR), at)):
            return None, False
        return ("pressure", False) if self.r.last("pressure", before=at, within=_FAR) else (None, False)


__all__ = ["SettingsMoved"]
