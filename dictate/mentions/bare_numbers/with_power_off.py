"""Bare numbers of a tour with an ohmmeter from one part to the next, while the power is off.

"The coils were 540 ohms and open. Motors next. Pump one, | 7.2, | 7.1, | 7.2": nobody reads amps with the
isolator locked, so that small numbers behind ohms go on with them until the power is back. "Supply RTD 108.6
ohms. Return RTD | 109.3" is the next probe. "They measured | 87 and | 88, and each went past 200 meg" are
ohms, as the row of old ones was, though megohms stand behind them.

A link of the chain of classes that read one sentence.
"""

from __future__ import annotations

from dictate.mentions.roles.compared import Compared
from dictate.mentions.told_outright import tell_outright
from dictate.mentions.values import Value
from dictate.mentions.whose.ohms_before_meg import MEG
from dictate.mentions.whose.taken import MOTORS, Link, Taken
from dictate.mentions.word_lists import phrase_at, word_list

_STOPS = frozenset((".", "?", "!", ";"))
_FAR = 40  # words since the ohms before
_OFF = 170  # words since the power was switched off
_NAME = 6  # words from the name of a part to its value
_MEGOHMS = 1e5
_MOST = 3000.0
"""Ohms of a winding or a heater, at most."""
_ROW = 14  # readings back among which ohms of the same size are looked for


class WithPowerOff(Compared):
    """Tells the bare numbers of a tour with an ohmmeter."""

    def _ohms_while_off(self, v: Value) -> Link | None:
        """Read "motors next. Pump one, | 7.2" as ohms behind ohms, while the power is off."""
        if not v.bare or v.clock or v.range or v.marking or not 0 < v.value <= _MOST:
            return None
        last = self.r.last(before=v.start, within=_FAR)
        probe = self.r.last("resistance", before=v.start, within=_FAR)
        if probe is not None and self._next_probe(v, probe):
            return self._told_ohms(v, "list", probe)
        if last is None or last.reading.quantity != "resistance" or last.reading.role != "measured":
            return None
        if self.words[v.end : v.end + 1] and self.words[v.end] in word_list("with_power_off_units"):
            return None
        plain = last.reading.value is None or last.reading.value < _MEGOHMS
        if not plain:
            return self._told_ohms(v, "row") if self._before_its_megohms(v) else None
        begin = max((i + 1 for i in range(last.end, v.start) if self.words[i] in _STOPS), default=last.end)
        clause = self.words[max(begin, v.start - 12) : v.start]
        if not word_list("with_power_off_others").isdisjoint([*clause, *self.words[v.end : v.end + 3]]):
            return None
        goes_on = last.how == "row" and set(self.words[last.end : v.start]) <= {",", "and"}
        named = any(begin <= c.start and v.start - c.end <= _NAME and _wound(c.name) for c in self.components)
        named = named or not word_list("with_power_off_things").isdisjoint(clause[-5:])
        named = named and clause[-1:] in ([","], [":"], ["at"], ["reads"], ["read"], ["is"], ["'s"], ["was"])
        if not (goes_on or named) or not self._power_is_off(v.start):
            return None
        return self._told_ohms(v, "row")

    def _told_ohms(self, v: Value, how: str, like: Taken | None = None) -> Link | None:
        link = self._like(v, like) if like is not None else None
        if like is None:
            link = Link("resistance", "ohm", v.value, unit_said=False, explicit=True, how=how)
        if link is not None:
            link.component = like.reading.component if like is not None else None
            tell_outright(self.r.narration, v.start)
        return link

    def _next_probe(self, v: Value, last: Taken) -> bool:
        """Tell whether a number right behind "RTD" or "probe" is the next one's ohms."""
        if last.reading.component != "temperature sensor" or not last.value.value:
            return False
        return (
            self.words[v.start - 1] in word_list("with_power_off_probes")
            and self.words[v.end : v.end + 1] not in (["degrees"], ["degree"])
            and 0.8 <= v.value / last.value.value <= 1.25
        )

    def _before_its_megohms(self, v: Value) -> bool:
        """Tell whether a number is of the size of plain ohms read before, and megohms stand behind it."""
        behind = next((w for w in self.values if w.start > v.start and w.word in MEG), None)
        if behind is None:
            return False
        between = self.words[v.end : behind.start]
        if word_list("own_ohms_of_all").isdisjoint(between) or word_list("own_ohms_bounds").isdisjoint(
            between
        ):
            return False
        return any(
            t.reading.quantity == "resistance"
            and t.reading.value
            and 0.8 <= v.value / t.reading.value <= 1.25
            for t in self.r.found.readings[-_ROW:]
        )

    def _power_is_off(self, at: int) -> bool:
        """Tell whether the power was switched off before a token and did not come back since."""
        first = max(0, at - _OFF)
        off = max((i for i in range(first, at) if self.words[i] in word_list("with_power_off")), default=-1)
        return off >= 0 and not any(
            phrase_at("readings_power_on", self.words, i) or phrase_at("dead_legs_on_again", self.words, i)
            for i in range(off, at)
        )


def _wound(name: str) -> bool:
    return name in MOTORS or name.endswith(("heater", "motor", "pump")) or name == "electric heat"


__all__ = ["WithPowerOff"]
